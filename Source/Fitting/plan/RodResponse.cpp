#include "Fitting/RodResponse.h"

#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/heads/TensionField.h"

#include <cmath>
#include <complex>

namespace fitting
{

double RodResponse::tensionPerTurn (const modal::HeadConstruction& head, double radius,
                                    const modal::RodThread& thread) const noexcept
{
    return modal::rimTension (0, headShare * thread.pitch, head, radius);
}

RodResponse usualResponse (const modal::HeadConstruction& head, double radius) noexcept
{
    modal::HeadConstruction tenMil;
    tenMil.plyThickness = 10.0 * modal::units::mil;
    constexpr double share = 0.25, halfOfFourteenInches = 7.0 * modal::units::inch;
    const auto compliance = [] (const modal::HeadConstruction& h, double a) { return 1.0 / modal::rimTension (0, 1.0, h, a); };
    const double rest = (1.0 / share - 1.0) * compliance (tenMil, halfOfFourteenInches), own = compliance (head, radius);
    return { own / (own + rest) };
}

RodResponse calibrated (const modal::DrumSpec& drum, modal::HeadSide side, const modal::RodThread& thread,
                        const std::vector<RodObservation>& observations)
{
    const auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
    const auto usual = usualResponse (head, drum.radius());
    const double perTurnAtFullShare = RodResponse{ 1.0, 0.0 }.tensionPerTurn (head, drum.radius(), thread);

    double information = 1.0 / (usual.logError * usual.logError);
    double sum = information * std::log (usual.headShare);

    for (const auto& seen : observations)
    {
        if (seen.side != side)
            continue;

        modal::requireInRange (std::abs (seen.turns), { 1.0 / 64.0, 4.0, "turns" }, "turns of the observation");
        const double from = modal::tensionForTapNote (drum, side, seen.fromNote),
                     to = modal::tensionForTapNote (drum, side, seen.toNote);
        const double share = (to - from) / (seen.turns * perTurnAtFullShare);

        if (! (share > 0.0))
            throw modal::InputError ("notes of the observation",
                                     modal::asText (seen.fromNote, 4) + " to " + modal::asText (seen.toNote, 4) + " Hz",
                                     "a note that rises as the rods are tightened and falls as they are loosened");

        // Relative tension per cent of tap note; both notes have an error.
        const double perCent = std::log1p (modal::semitoneTension (drum, side, to)) / 100.0;
        const double noteError = std::sqrt (2.0) * seen.noteError * perCent * 0.5 * (from + to) / std::abs (to - from);
        const double error = std::hypot (noteError, scatterOfMoves);
        information += 1.0 / (error * error);
        sum += std::log (share) / (error * error);
    }

    return { std::exp (sum / information), 1.0 / std::sqrt (information) };
}

std::vector<double> turnsFor (const std::vector<double>& tensionChange, const modal::HeadConstruction& head, double radius,
                              const modal::RodThread& thread, const RodResponse& response)
{
    const auto lugs = static_cast<int> (tensionChange.size());
    std::vector<double> turns (tensionChange.size(), 0.0);
    const double perMetre = response.headShare * thread.pitch;

    for (int p = 0; 2 * p <= lugs; ++p)
    {
        std::complex<double> amplitude = 0.0;

        for (int k = 0; k < lugs; ++k)
            amplitude += tensionChange[static_cast<std::size_t> (k)] * std::polar (1.0, -modal::units::twoPi * p * k / lugs);

        amplitude *= (p == 0 || 2 * p == lugs ? 1.0 : 2.0) / lugs / modal::rimTension (p, perMetre, head, radius);

        for (int k = 0; k < lugs; ++k)
            turns[static_cast<std::size_t> (k)] += (amplitude * std::polar (1.0, modal::units::twoPi * p * k / lugs)).real();
    }

    return turns;
}

double turnOfOneRod (double tensionChange, int lugs, const modal::HeadConstruction& head, double radius,
                     const modal::RodThread& thread, const RodResponse& response) noexcept
{
    // One rod's way as harmonics around the rim; p = 0 raises the whole head and is no deviation from its mean.
    double perMetre = 0.0;

    for (int p = 1; 2 * p <= lugs; ++p)
        perMetre += (2 * p == lugs ? 1.0 : 2.0) / lugs * modal::rimTension (p, 1.0, head, radius);

    return tensionChange / (perMetre * response.headShare * thread.pitch);
}

double turnsForLugCents (double cents, const modal::DrumSpec& drum, modal::HeadSide side, double tension)
{
    const auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
    const double change = tension * (std::pow (1.0 + modal::semitoneTension (drum, side, tension), cents / 100.0) - 1.0);
    return turnOfOneRod (change, drum.lugs, head, drum.radius(), {}, usualResponse (head, drum.radius()));
}

std::vector<Correction> usualCorrections (const modal::DrumSpec& drum, modal::HeadSide side, double tension,
                                          const modal::RodThread& thread, const RodResponse& response)
{
    const auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
    const double semitone = modal::semitoneTension (drum, side, tension);
    const double perTurn = response.tensionPerTurn (head, drum.radius(), thread);
    std::vector<Correction> corrections;

    for (const double cents : { -100.0, -50.0, -25.0, -10.0, 10.0, 25.0, 50.0, 100.0 })
    {
        const double change = tension * (1.0 - std::pow (1.0 + semitone, cents / 100.0));
        corrections.push_back ({ cents, turnOfOneRod (change, drum.lugs, head, drum.radius(), thread, response), change / perTurn });
    }

    return corrections;
}

} // namespace fitting
