#include "Comparison.h"

#include "Fitting/common/Errors.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

constexpr int highestOrder = 6, highestPatchedOrder = 3;
constexpr double faint = 0.03;  // of the strongest group at the tap; common practice, no source
constexpr double fastest = 1.6; // standard deviations of a decay

struct Candidate
{
    const HeadModel::Group* group;
    HeadModel::Heard heard;
    double left; ///< strength after Partial::settled
};

/** Cents from the band of a group to a frequency; 0 within. */
double distance (const HeadModel::Heard& heard, double frequency)
{
    if (frequency < heard.lowest)
        return modal::centsBetween (frequency, heard.lowest);

    return frequency > heard.highest ? modal::centsBetween (heard.highest, frequency) : 0.0;
}

/** True if the resonance of an audible neighbour overlaps the group, or if the model's error in cents may swap the two. */
bool isCrowded (const std::vector<Candidate>& candidates, std::size_t index, double modelError)
{
    constexpr double mayCross = 2.0; // standard deviations: in one case of twenty they lie farther off
    const auto& own = candidates[index];
    const double cross = mayCross * modelError / centsPerShare * own.heard.frequency;

    for (std::size_t i = 0; i < candidates.size(); ++i)
    {
        const auto& other = candidates[i];
        const double gap = std::max (other.heard.lowest - own.heard.highest, own.heard.lowest - other.heard.highest);

        if (i != index && other.left > faint * own.left && gap < std::max (cross, other.heard.decay.total() / modal::units::pi))
            return true;
    }

    return false;
}

/** The mean of the poles of one group, weighted by level. Phases are ignored, because a room splits a mode into sines with
   arbitrary phases. */
Partial together (const std::vector<Partial>& parts)
{
    Partial whole;
    double sum = 0.0, frequencyVariance = 0.0, decayVariance = 0.0;

    for (const auto& part : parts)
    {
        const double level = part.level();
        sum += level;
        whole.frequency += level * part.frequency;
        whole.decay += level * part.decay;
        frequencyVariance += std::pow (level * part.frequencyError, 2);
        decayVariance += std::pow (level * part.decayError, 2);
    }

    whole.frequency /= sum;
    whole.decay /= sum;
    whole.frequencyError = std::sqrt (frequencyVariance) / sum;
    whole.decayError = std::sqrt (decayVariance) / sum;
    return whole;
}

/** Keeps the strongest partial of a group and those near enough to be its partners: the others are ring of the room, or a mode
   (0,n) that decays more slowly than predicted. */
void dropStrangers (std::vector<Partial>& parts, const HeadModel::Heard& heard)
{
    constexpr double margin = 15.0; // cents, beyond the split that the model knows of
    const double strongest =
        std::max_element (parts.begin(), parts.end(), [] (const Partial& a, const Partial& b) { return a.level() < b.level(); })
            ->frequency;
    const double reach = margin + modal::centsBetween (heard.lowest, heard.highest);
    std::erase_if (parts, [=] (const Partial& p) { return std::abs (modal::centsBetween (strongest, p.frequency)) > reach; });
}

} // namespace

ComparedTap compareTap (const HeadFitSetup& setup, const HeadModel& model, const HeardTap& tap, double window)
{
    std::vector<Candidate> candidates;
    double strongest = 0.0, mostLeft = 0.0;

    for (const auto& group : model.groups())
    {
        auto heard = model.heardAt (group, tap);
        const double left = heard.strength * std::exp (-2.0 * Partial::settled * heard.decay.total());
        strongest = std::max (strongest, heard.strength);
        mostLeft = std::max (mostLeft, left);
        candidates.push_back ({ &group, std::move (heard), left });
    }

    // Each partial goes to the nearest audible group.
    std::vector<std::vector<Partial>> shares (candidates.size());
    double near = 0.0, all = 0.0;

    for (const auto& partial : tap.partials)
    {
        std::size_t nearest = candidates.size();
        double least = window;

        for (std::size_t i = 0; i < candidates.size(); ++i)
            if (const double off = distance (candidates[i].heard, partial.frequency);
                off < least && candidates[i].left > 0.01 * faint * mostLeft)
            {
                least = off;
                nearest = i;
            }

        // Above the model's last mode nothing is expected.
        if (nearest < candidates.size() || (! candidates.empty() && partial.frequency < candidates.back().heard.highest))
            all += partial.level();

        if (nearest < candidates.size())
        {
            shares[nearest].push_back (partial);
            near += partial.level();
        }
    }

    ComparedTap compared;
    compared.explained = all > 0.0 ? near / all : 0.0;

    for (std::size_t i = 0; i < candidates.size(); ++i)
    {
        const auto& [group, heard, left] = candidates[i];

        // Modes (0,n) radiate so strongly that they decay too fast to be measured.
        const bool counts = group->n <= (tap.hasPatch ? 1 : 2) && group->m >= 1 &&
                            group->m <= (tap.hasPatch ? highestPatchedOrder : highestOrder) &&
                            heard.strength > faint * strongest && (tap.hasPatch ? group->modes.size() == 1 : ! group->isMixed);

        if (! counts || isCrowded (candidates, i, setup.modelError))
            continue;

        if (group->n == 1 && left > faint * mostLeft)
            ++compared.expected;

        // What decays much faster than the mode is room response or noise.
        const double quickest = std::exp (fastest * setup.decayError) * heard.decay.total() + 4.0;
        std::erase_if (shares[i], [quickest] (const Partial& p) { return p.decay > quickest; });

        if (shares[i].empty())
            continue;

        dropStrangers (shares[i], heard);
        const auto whole = together (shares[i]);

        compared.comparisons.push_back ({ group->m,
                                          group->n,
                                          tap.hasPatch,
                                          heard.frequency,
                                          modal::centsBetween (heard.frequency, whole.frequency),
                                          centsPerShare * whole.frequencyError / whole.frequency,
                                          0.0,
                                          { whole.decay, whole.decayError, heard.decay },
                                          centsPerShare * heard.gradient });
    }

    return compared;
}

} // namespace fitting
