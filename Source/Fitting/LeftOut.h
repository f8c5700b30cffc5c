#pragma once

#include "Drum.h"

/** Cross-validation of a fit, without a known tuning: it predicts strikes that were left out. */
namespace fitting
{

/** How well notes predicted from some strikes meet those of others. */
struct Prediction
{
    static constexpr double near = 40.0; ///< cents: twice the error of a real drum's modes
    double cents = 0.0; ///< root mean square of the lines' distances from their nearest mode, by weight, those explained alone
    double share = 0.0; ///< 0 to 1: of the lines' weight that lies within 40 cents of a mode
    std::vector<double> modes{}; ///< Hz, ascending; of several drums those of the first
    double byChance = 0.0;       ///< 0 to 1: the share of lines anywhere that modes as dense as these explain
};

/** Ways to predict, from good to poor. */
struct LeftOutCheck
{
    Prediction model; ///< the fit's most probable answer
    Prediction
        vacuum; ///< membranes without air, f = j_mn/(2πa)·√(T/σ), each head at the tension that suits the strikes used best
    Prediction random;                ///< the model at tensions drawn at random, mean of 20
    bool isFitted = false;            ///< false if the strikes used gave no fit; `model` is then meaningless
    std::vector<Line> linesLeftOut{}; ///< those that tell, ascending in frequency
};

/** @param used, leftOut  the lines of strikes of one drum, ascending in frequency
    @param strikes        how many were used
    @throws InputError as fitDrum() */
LeftOutCheck checkLeftOut (const DrumFitSetup&, const std::vector<Line>& used, int strikes, const std::vector<Line>& leftOut);

} // namespace fitting
