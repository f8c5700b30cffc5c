#pragma once

#include "DrumSetup.h"
#include "ModalRecursion.h"
#include "StrandGeometry.h"

#include <optional>
#include <vector>

namespace engine
{

/** A mode above this share of the sample rate is left out: the sampled scheme has no room for it. */
inline constexpr double highestShareOfRate = 0.45;

/** One oscillator of the bank. */
struct BankEntry
{
    enum class Kind
    {
        padding, ///< fills a pack; never moves
        head,    ///< a mode of the drum
        strand,  ///< a modal string of a pair of strands, moving alike or oppositely
        ring     ///< a bending mode of the hoop or the shell
    };

    Kind kind = Kind::padding;
    int drumMode = -1;      ///< head: index into DrumModes
    int stringMode = 0;     ///< strand: 1 is the lowest
    int pair = 0;           ///< strand
    bool isOpposed = false; ///< strand: the two of the pair move oppositely
    int ring = -1;          ///< ring: index into Bank::rings
    ModalRecursion recursion;
    double frequency = 0.0; ///< Hz
};

/** A bending mode of the hoop or the shell in its own plane: cos nθ or sin nθ. */
struct RingMode
{
    int n = 2;
    bool isSine = false;
    double frequency = 0.0; ///< Hz
    double decay = 0.0;     ///< 1/s
    double amplitude = 0.0; ///< 1/√kg, radial motion per modal coordinate at a crest
    double height = 0.0;    ///< m, of the surface that radiates
    bool belongsToShell = false;
};

/** The part of the bank that one parity class of wire contacts moves. */
struct BankClass
{
    int first = 0, count = 0;
    Eigen::MatrixXd shapes; ///< combinations × modes, 1/√kg
};

/** All oscillators in the order in which the inner loop wants them: class by class those that touch wires, then the rest. Every
    class is padded to whole tiles, see KernelView.h. */
struct Bank
{
    std::vector<BankEntry> entries;
    std::vector<RingMode> rings;
    std::vector<BankClass> classes;        ///< none without wires, four with the bed's symmetry, one without
    std::optional<StrandGeometry> strands; ///< none without wires
    int contactsInQuadrant = 0;            ///< without padding; of all contacts where there is no symmetry
    int combinations = 0;                  ///< the same, padded to whole tiles both ways

    int size() const noexcept { return static_cast<int> (entries.size()); }
};

Bank buildBank (const DrumSetup&);

} // namespace engine
