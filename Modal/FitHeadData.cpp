#include "FitHeadData.h"

#include "FitErrors.h"
#include "Note.h"
#include "Units.h"

#include <algorithm>
#include <cmath>

namespace modal
{
namespace
{

constexpr int highestOrder = 6, highestPatchedOrder = 3;
constexpr double faint = 0.03; // of the strongest group at the tap: too weak to count on

struct Candidate
{
    const FitHeadModel::Group* group;
    FitHeadModel::Heard heard;
};

/** Cents from the band of a group to a frequency; 0 within. */
double distance (const FitHeadModel::Heard& heard, double frequency)
{
    if (frequency < heard.lowest)
        return centsBetween (frequency, heard.lowest);

    return frequency > heard.highest ? centsBetween (heard.highest, frequency) : 0.0;
}

/** True if a neighbour's resonance, as wide as it fades fast, reaches the group: (0,1) often drowns (1,1). */
bool isCrowded (const std::vector<Candidate>& candidates, std::size_t index, double strongest)
{
    const auto& own = candidates[index].heard;

    for (std::size_t i = 0; i < candidates.size(); ++i)
    {
        const auto& other = candidates[i].heard;
        const double gap = std::max (other.lowest - own.highest, own.lowest - other.highest);

        if (i != index && other.strength > faint * strongest && gap < other.decay.total() / units::pi)
            return true;
    }

    return false;
}

/** Damped sines that belong to one group as the one that they make together at the blow: the mean of their poles, each by its
    complex amplitude. Close neighbours may come out of the recording with large opposite amplitudes; their mean stays put. */
Partial together (const std::vector<Partial>& parts)
{
    Partial whole;
    std::complex<double> poles = 0.0;
    double frequencyVariance = 0.0, decayVariance = 0.0;

    for (const auto& part : parts)
    {
        whole.amplitude += part.amplitude;
        poles += part.amplitude * std::complex<double> (-part.decay, units::twoPi * part.frequency);
        frequencyVariance += std::norm (part.amplitude) * part.frequencyError * part.frequencyError;
        decayVariance += std::norm (part.amplitude) * part.decayError * part.decayError;
    }

    poles /= whole.amplitude;
    whole.frequency = poles.imag() / units::twoPi;
    whole.decay = -poles.real();
    whole.frequencyError = std::sqrt (frequencyVariance) / std::abs (whole.amplitude);
    whole.decayError = std::sqrt (decayVariance) / std::abs (whole.amplitude);
    return whole;
}

} // namespace

std::vector<Comparison> compareTap (const FitHeadModel& model, const HeardTap& tap, double window, int& expected)
{
    std::vector<Candidate> candidates;
    double strongest = 0.0;

    for (const auto& group : model.groups())
    {
        candidates.push_back ({ &group, model.heardAt (group, tap) });
        strongest = std::max (strongest, candidates.back().heard.strength);
    }

    // Each partial goes to the group that it lies nearest to.
    std::vector<std::vector<Partial>> shares (candidates.size());

    for (const auto& partial : tap.partials)
    {
        std::size_t nearest = candidates.size();
        double least = window;

        for (std::size_t i = 0; i < candidates.size(); ++i)
            if (const double off = distance (candidates[i].heard, partial.frequency);
                off < least && candidates[i].heard.strength > 0.1 * faint * strongest)
            {
                least = off;
                nearest = i;
            }

        if (nearest < candidates.size())
            shares[nearest].push_back (partial);
    }

    std::vector<Comparison> compared;

    for (std::size_t i = 0; i < candidates.size(); ++i)
    {
        const auto& [group, heard] = candidates[i];

        // (0,n) modes radiate so strongly that they fade before they can be read.
        const bool counts = group->n <= (tap.hasPatch ? 1 : 2) && group->m >= 1 &&
                            group->m <= (tap.hasPatch ? highestPatchedOrder : highestOrder) &&
                            heard.strength > faint * strongest && (tap.hasPatch ? group->modes.size() == 1 : ! group->isMixed);

        if (! counts || isCrowded (candidates, i, strongest))
            continue;

        if (group->n == 1)
            ++expected;

        // What fades much faster than the mode can is the room's answer, or noise.
        const double quickest = 2.2 * heard.decay.total() + 4.0;
        std::erase_if (shares[i], [quickest] (const Partial& p) { return p.decay > quickest; });

        if (shares[i].empty())
            continue;

        const auto whole = together (shares[i]);

        compared.push_back ({ group->m,
                              group->n,
                              tap.hasPatch,
                              heard.frequency,
                              centsBetween (heard.frequency, whole.frequency),
                              centsPerShare * whole.frequencyError / whole.frequency,
                              { whole.decay, whole.decayError, heard.decay },
                              centsPerShare * heard.gradient });
    }

    return compared;
}

} // namespace modal
