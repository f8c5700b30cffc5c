#pragma once

#include "DrumSetup.h"
#include "ModalRecursion.h"
#include "StrandGeometry.h"

#include <optional>
#include <vector>

namespace engine
{

/** Modes above this share of the sample rate are left out: they would alias. */
inline constexpr double highestShareOfRate = 0.45;

/** Short waves of a film that are not followed at their own frequency ring at this share of the sample rate at most. */
inline constexpr double highestFilmShare = 0.4;

/** One oscillator of the bank. */
struct BankEntry
{
    enum class Kind
    {
        padding, ///< a padding lane; never moves
        head,    ///< a mode of the drum
        wires,   ///< a mode of strands, end plates and straps, see WireModes
        film,    ///< short waves of the resonant head under one contact of the wires, see FilmUnderWire
        ring     ///< a bending mode of the hoop or the shell
    };

    Kind kind = Kind::padding;
    int drumMode = -1; ///< head: index into DrumModes
    int ring = -1;     ///< ring: index into Bank::rings
    ModalRecursion recursion;
    double frequency = 0.0; ///< Hz
};

/** A mode of hoop and shell, cos nθ or sin nθ: both bending in the rings' own plane or, for the hoop alone, up and down. */
struct RingMode
{
    int n = 2;
    bool isSine = false;
    double frequency = 0.0; ///< Hz
    double decay = 0.0;     ///< 1/s
    double ofHoop = 0.0;    ///< 1/√kg, the hoop's motion per modal coordinate at a crest, radial or upwards
    double ofShell = 0.0;   ///< 1/√kg, the shell's, radial
    bool isUpright = false; ///< up and down on the rods, out of the ring's plane
};

/** The modes that couple to one parity class of wire contacts. */
struct BankClass
{
    int first = 0, count = 0;
    Eigen::MatrixXd shapes; ///< combinations × modes, 1/√kg
};

/** All oscillators in the order of the inner loop: first those that couple to wires, class by class, then the rest. Each class is
   padded to whole tiles, see KernelView.h. */
struct Bank
{
    std::vector<BankEntry> entries;
    std::vector<RingMode> rings;
    std::vector<BankClass> classes;        ///< none without wires; four if the layout is symmetric, otherwise one
    std::optional<StrandGeometry> strands; ///< none without wires
    int contactsInQuadrant = 0;            ///< without padding; all contacts if there is no symmetry
    int combinations = 0;                  ///< the same, padded to whole tiles

    int size() const noexcept { return static_cast<int> (entries.size()); }
};

Bank buildBank (const DrumSetup&);

} // namespace engine
