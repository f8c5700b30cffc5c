// How long a solution takes, against Eigen's general non-symmetric eigensolver on the same matrices, and many tunings of one drum
// against as many solutions one at a time.
//
//     solve-benchmark [repetitions]
//
// Prints medians in milliseconds of processor time. The baseline is what one would write first: the same mass and stiffness
// matrices, M⁻¹K into Eigen::EigenSolver, an order at a time.

#include "TableRow.h"

#include "Modal/Prediction.h"
#include "Modal/Units.h"
#include "Modal/modes/OrderProblem.h"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <map>
#include <vector>

namespace
{

modal::DrumSpec snare()
{
    modal::DrumSpec drum;
    drum.diameter = 14.0 * modal::units::inch;
    drum.depth = 5.5 * modal::units::inch;
    drum.batter.plyThickness = 10.0 * modal::units::mil;
    drum.resonant.plyThickness = 3.0 * modal::units::mil;
    return drum;
}

const modal::Tensions tensions{ .batter = 3200.0, .resonant = 1800.0 };
const modal::SolveOptions options{ .highestFrequency = 2000.0 };

template <typename Target>
modal::Tuning tunedTo (const Target& target)
{
    modal::Tuning tuning;
    tuning.target = target;
    return tuning;
}

/** Processor time, so that a busy machine does not count: everything here runs on one thread. */
template <typename Work>
double milliseconds (const Work& work)
{
    const std::clock_t start = std::clock();
    work();
    return 1000.0 * static_cast<double> (std::clock() - start) / CLOCKS_PER_SEC;
}

template <typename Work>
double median (int repetitions, const Work& work)
{
    std::vector<double> times;
    for (int i = 0; i < repetitions; ++i)
        times.push_back (milliseconds (work));
    std::nth_element (times.begin(), times.begin() + repetitions / 2, times.end());
    return times[static_cast<std::size_t> (repetitions / 2)];
}

/** How many functions of each order the solver used. */
std::map<int, int> functionsByOrder (const modal::DrumModes& modes)
{
    std::map<int, int> counts;
    for (const auto& function : modes.basis)
        if (function.parity == modal::Parity::cosine)
            ++counts[function.m];
    return counts;
}

std::vector<modal::OrderProblem> problemsOf (const modal::DrumSpec& drum, const std::map<int, int>& orders)
{
    std::vector<modal::OrderProblem> problems;
    for (const auto& [m, functions] : orders)
        problems.push_back (modal::makeOrderProblem (m, functions, drum, 2.0 * options.highestFrequency));
    return problems;
}

Eigen::VectorXd generalEigenvalues (const modal::OrderProblem& problem)
{
    const Eigen::EigenSolver<Eigen::MatrixXd> solver (problem.mass.partialPivLu().solve (problem.stiffness (tensions)));
    Eigen::VectorXd values = solver.eigenvalues().real();
    std::sort (values.begin(), values.end());
    return values;
}

Eigen::VectorXd symmetricEigenvalues (const modal::OrderProblem& problem)
{
    return Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> (problem.stiffness (tensions), problem.mass).eigenvalues();
}

/** Largest relative difference between the two solvers' eigenvalues: that the baseline solves the same problem. */
double disagreement (const std::vector<modal::OrderProblem>& problems)
{
    double worst = 0.0;
    for (const auto& problem : problems)
        worst = std::max (worst,
                          (generalEigenvalues (problem).array() / symmetricEigenvalues (problem).array() - 1.0).abs().maxCoeff());
    return worst;
}

template <typename Solver>
void solveAll (const std::vector<modal::OrderProblem>& problems, const Solver& solver)
{
    volatile double sink = 0.0;
    for (const auto& problem : problems)
        sink = solver (problem) (0);
    (void)sink;
}

} // namespace

int main (int argc, char** argv)
{
    const int repetitions = argc > 1 ? std::max (1, std::atoi (argv[1])) : 101;
    const auto drum = snare();

    modal::DrumModes modes;
    const double first = milliseconds ([&] { modes = modal::solve (drum, tensions, options); });
    const auto orders = functionsByOrder (modes);
    const auto problems = problemsOf (drum, orders);

    const double whole = median (repetitions, [&] { modal::solve (drum, tensions, options); });
    const double setUp = median (repetitions, [&] { problemsOf (drum, orders); });
    const double general = median (repetitions, [&] { solveAll (problems, generalEigenvalues); });
    const double symmetric = median (repetitions, [&] { solveAll (problems, symmetricEigenvalues); });
    const modal::DrumSolver solver (drum, options);
    solver.solve (tensions);
    const double another = median (repetitions, [&] { solver.solve (tensions); });
    const modal::SolveOptions mapOptions{ .highestFrequency = 700.0, .extraFunctions = 4 };
    const modal::DrumSolver mapSolver (drum, mapOptions);
    const double mapAlone = median (repetitions, [&] { modal::solve (drum, tensions, mapOptions); });
    const double mapShared = median (repetitions, [&] { mapSolver.solve (tensions); });
    const double prediction = median (std::max (1, repetitions / 10),
                                      [&] {
                                          modal::predict (drum, tunedTo (modal::ByTapNotes{ 311.13, 415.3 }), options);
                                      });
    const double byDrumNote = median (std::max (1, repetitions / 10),
                                      [&] {
                                          modal::predict (drum, tunedTo (modal::ByDrumNote{ 207.65, { 5.0 } }), options);
                                      });

    std::printf ("14 x 5.5 inch drum to %.0f Hz: %d modes, %zu orders; medians of %d\n", options.highestFrequency, modes.size(),
                 orders.size(), repetitions);
    std::printf ("largest relative difference to the baseline's eigenvalues: %.1e\n", disagreement (problems));
    bench::printRow ("first solution in a process", first, "ms");
    bench::printRow ("solution", whole, "ms", "set-up and general eigensolver, no radiation", (setUp + general) / whole);
    bench::printRow ("of it setting up the matrices", setUp, "ms");
    bench::printRow ("of it the symmetric eigensolver", symmetric, "ms", "general eigensolver", general / symmetric);
    bench::printRow ("one more tuning of the same drum", another, "ms", "solution", whole / another);
    bench::printRow ("one more tuning, to 700 Hz", mapShared, "ms", "solution to 700 Hz", mapAlone / mapShared);
    bench::printRow ("prediction from tap notes", prediction, "ms");
    bench::printRow ("prediction from a drum note", byDrumNote, "ms");
}
