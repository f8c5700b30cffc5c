#include "Solve.h"

#include "DrumNumbers.h"
#include "Modal/heads/HeadMatrices.h"
#include "Modal/mathematics/Bessel.h"
#include "Modal/modes/OrderModes.h"
#include "Modal/modes/Perturbation.h"
#include "Tuning.h"
#include "Units.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <tuple>

namespace modal
{

namespace
{

constexpr int highestOrder = 60;
constexpr double wavesOverBand = 2.0; // cavity waves are followed to this multiple of the highest frequency

/** Roughly the frequency of a head's mode by its zero: the head and an air layer of a/j on either side. */
double roughFrequency (const HeadConstruction& head, double tension, double zero, const DrumSpec& drum)
{
    const double density = head.baseDensity() + 2.0 * drum.air.density * drum.radius() / zero;
    return zero / (units::twoPi * drum.radius()) * std::sqrt (tension / density);
}

/** The lowest frequency either head has for a zero. */
double roughFrequency (const DrumSpec& drum, const Tensions& tensions, double zero)
{
    const double batter = roughFrequency (drum.batter, tensions.batter, zero, drum);
    return drum.hasResonantHead() ? std::min (batter, roughFrequency (drum.resonant, tensions.resonant, zero, drum)) : batter;
}

/** How many basis functions of order m lie in the band. */
int functionsInBand (int m, const DrumSpec& drum, const Tensions& tensions, double highestFrequency)
{
    // Zeros of an order are more than π − ½ apart once the first is passed, so this many are enough.
    int count = 4;

    for (;;)
    {
        const auto zeros = besselZeros (m, count);
        const auto beyond = std::find_if (zeros.begin(), zeros.end(),
                                          [&] (double zero) { return roughFrequency (drum, tensions, zero) > highestFrequency; });

        if (beyond != zeros.end())
            return static_cast<int> (beyond - zeros.begin());

        count *= 2;
    }
}

/** Collects the orders' modes on one basis, both partners of each pair, by frequency. */
class Collector
{
public:
    explicit Collector (DrumModes& target) : result (target) {}

    void add (int m, int functions, const std::vector<OrderMode>& modes)
    {
        const auto zeros = besselZeros (m, functions);

        for (const auto parity : { Parity::cosine, Parity::sine })
        {
            if (m == 0 && parity == Parity::sine)
                continue;

            const auto first = static_cast<Eigen::Index> (result.basis.size());

            for (int n = 0; n < functions; ++n)
                result.basis.push_back ({ m, n + 1, parity, zeros[static_cast<std::size_t> (n)] });

            for (const auto& mode : modes)
            {
                entries.push_back ({ mode, first });
                entries.back().mode.mode.parity = parity;
            }
        }
    }

    void finish()
    {
        std::stable_sort (entries.begin(), entries.end(),
                          [] (const Entry& a, const Entry& b) { return a.mode.mode.frequency < b.mode.mode.frequency; });

        const auto rows = static_cast<Eigen::Index> (result.basis.size()), columns = static_cast<Eigen::Index> (entries.size());
        result.batter.setZero (rows, columns);
        result.resonant.setZero (rows, columns);

        for (Eigen::Index i = 0; i < columns; ++i)
        {
            const auto& entry = entries[static_cast<std::size_t> (i)];
            result.modes.push_back (entry.mode.mode);
            result.batter.col (i).segment (entry.firstRow, entry.mode.batter.size()) = entry.mode.batter;
            result.resonant.col (i).segment (entry.firstRow, entry.mode.resonant.size()) = entry.mode.resonant;
        }
    }

private:
    struct Entry
    {
        OrderMode mode;
        Eigen::Index firstRow;
    };

    DrumModes& result;
    std::vector<Entry> entries;
};

void checkHead (double tension, const std::vector<double>& lugs, int lugCount, const std::string& head)
{
    requireInRange (tension, { lowestTension, 1.0e6, "N/m" }, head + " tension");

    if (! lugs.empty() && static_cast<int> (lugs.size()) != lugCount)
        throw InputError (head + " lugs", std::to_string (lugs.size()) + " values",
                          "one for each of the " + std::to_string (lugCount) + " lugs");

    for (const double lug : lugs)
        requireInRange (lug, { -0.9, 2.0, "of the mean tension" }, head + " lugs");
}

void checkTensions (const DrumSpec& drum, const Tensions& tensions)
{
    checkHead (tensions.batter, tensions.batterLugs, drum.lugs, "batter");

    if (drum.hasResonantHead())
        checkHead (tensions.resonant, tensions.resonantLugs, drum.lugs, "resonant");
}

/** Up to where the orders that are solved hold all modes, Hz. */
double completeUpTo (const DrumSpec& drum, const Tensions& tensions, const SolveOptions& options)
{
    return std::min (options.highestFrequency, roughFrequency (drum, tensions, besselZeros (highestOrder, 1).front()));
}

bool isEven (const std::vector<double>& lugs)
{
    return std::all_of (lugs.begin(), lugs.end(), [&] (double lug) { return lug == lugs.front(); });
}

/** Muffling as what it adds to a bare drum; its tensions do not matter. */
Perturbation mufflingOn (const std::vector<BasisFunction>& basis, const DrumSpec& drum)
{
    Perturbation added;
    added.isRound = true;

    const auto accumulate = [] (Eigen::MatrixXd& sum, const Eigen::MatrixXd& part)
    { sum = sum.size() > 0 ? Eigen::MatrixXd (sum + part) : part; };

    for (const auto& item : drum.muffling)
    {
        const bool isBatter = item.head == HeadSide::batter;

        if (! isBatter && ! drum.hasResonantHead())
            continue;

        added.isRound = added.isRound && isRound (item);
        const auto mean = meanOver (basis, item, drum.radius());
        accumulate (isBatter ? added.batterMass : added.resonantMass, item.mass * mean);
        accumulate (isBatter ? added.batterResistance : added.resonantResistance,
                    item.resistance * coveredArea (item, drum.radius()) * mean);
    }

    return added;
}

/** Adds uneven lugs to what is added to the even drum. */
void addLugs (Perturbation& added, const DrumModes& even, const Tensions& tensions)
{
    const auto add = [&] (Eigen::MatrixXd& stiffness, double tension, std::vector<double> lugs)
    {
        if (isEven (lugs))
            return;

        added.isRound = false;

        for (auto& lug : lugs)
            lug *= tension;

        stiffness = unevenStiffness (even.basis, harmonicsOf (lugs), even.radius);
    };

    add (added.batterStiffness, tensions.batter, tensions.batterLugs);

    if (even.bottom == Bottom::head)
        add (added.resonantStiffness, tensions.resonant, tensions.resonantLugs);
}

} // namespace

/** What does not depend on the tensions, each part set up when it is first needed. */
class DrumSolver::Orders
{
public:
    /** @param cutoff  Hz, of the cavity's waves */
    std::shared_ptr<const OrderProblem> get (const DrumSpec& drum, int m, int functions, double cutoff)
    {
        const std::lock_guard lock (mutex);

        // Slack heads end the band at a frequency of their own and want ever more functions: keep what a drum needs, not all.
        constexpr std::size_t mostKept = 1000;

        if (kept.size() >= mostKept)
            kept.clear();

        auto& problem = kept[{ m, functions, cutoff }];

        if (problem == nullptr)
            problem = std::make_shared<const OrderProblem> (makeOrderProblem (m, functions, drum, cutoff));

        return problem;
    }

    /** mufflingOn() a basis, which its numbers of functions by order tell. */
    Perturbation muffling (const DrumSpec& drum, const std::vector<int>& functions, const std::vector<BasisFunction>& basis)
    {
        constexpr std::size_t mostBases = 100;
        const std::lock_guard lock (mutex);

        if (bases.size() >= mostBases)
            bases.clear();

        const auto [place, isNew] = bases.try_emplace (functions);

        if (isNew)
            place->second = mufflingOn (basis, drum);

        return place->second;
    }

private:
    std::mutex mutex;
    std::map<std::tuple<int, int, double>, std::shared_ptr<const OrderProblem>> kept;
    std::map<std::vector<int>, Perturbation> bases;
};

DrumSolver::DrumSolver (const DrumSpec& drumSpec, const SolveOptions& options)
    : spec (drumSpec), limits (options), orders (std::make_shared<Orders>())
{
    check (spec);
    requireInRange (limits.highestFrequency, { 50.0, 20000.0, "Hz" }, "highest frequency");
}

DrumModes DrumSolver::solve (const Tensions& tensions) const
{
    checkTensions (spec, tensions);

    DrumModes even;
    even.radius = spec.radius();
    even.depth = spec.depth;
    even.bottom = spec.bottom;
    even.surround = spec.surround;
    even.air = spec.air;
    even.highestFrequency = completeUpTo (spec, tensions, limits);
    Collector collector (even);
    std::vector<int> functionsByOrder;

    for (int m = 0; m <= highestOrder; ++m)
    {
        const int inBand = functionsInBand (m, spec, tensions, even.highestFrequency);

        if (inBand == 0)
            break;

        const int functions = inBand + limits.extraFunctions;
        const auto problem = orders->get (spec, m, functions, wavesOverBand * even.highestFrequency);
        collector.add (m, functions, modesOfOrder (*problem, spec, tensions, even.highestFrequency));
        functionsByOrder.push_back (functions);
    }

    collector.finish();
    auto added = orders->muffling (spec, functionsByOrder, even.basis);
    addLugs (added, even, tensions);
    return perturbed (even, added);
}

double DrumSolver::drumNote (const Tensions& tensions) const
{
    if (! spec.muffling.empty() || ! isEven (tensions.batterLugs) || ! isEven (tensions.resonantLugs))
        return modal::drumNote (solve (tensions));

    checkTensions (spec, tensions);
    const double highest = completeUpTo (spec, tensions, limits);
    double lowest = 0.0;

    for (int m = 0; m <= highestOrder; ++m)
    {
        const int inBand = functionsInBand (m, spec, tensions, highest);

        if (inBand == 0)
            break;

        const auto problem = orders->get (spec, m, inBand + limits.extraFunctions, wavesOverBand * highest);
        double lowestOfOrder = 0.0;

        for (const auto& found : modesOfOrder (*problem, spec, tensions, highest, 1))
            if (! found.mode.isAirMode)
                lowestOfOrder = found.mode.frequency;

        if (lowest > 0.0 && m > 0 && ! (lowestOfOrder > 0.0 && lowestOfOrder < lowest))
            break; // orders above lie higher still

        lowest = lowestOfOrder > 0.0 ? lowestOfOrder : lowest;
    }

    return lowest;
}

DrumModes solve (const DrumSpec& drum, const Tensions& tensions, const SolveOptions& options)
{
    return DrumSolver (drum, options).solve (tensions);
}

} // namespace modal
