#pragma once

#include "Iteration.h"

namespace fitting
{

/** Sets each lug's deviation and the probability that it alone is off. Taps with the patch decide between lugs that sound the
   same without it.

    @param fitted    the bare head
    @param semitone  relative change of tension that raises the tap note by a semitone */
void estimateLugs (HeadFit&, const HeadFitSetup&, const std::vector<HeardTap>&, const HeadIteration& fitted, double semitone);

/** What is known of each lug's relative tension from the data alone, the mean of the lugs being zero. */
struct LugData
{
    Eigen::MatrixXd information;
    Eigen::VectorXd pull;
};

/** Each lug's relative tension. How uneven the head is, is not known beforehand: heads whose lugs scatter by 1 to 32 cents are
   weighed by how well they explain the data, each with and without one lug that is off besides. The part of the field that the
   data do not show, as between opposite lugs, is taken to be as large as the part that they show. @param semitone  as above */
std::vector<Estimate> lugTensions (const LugData&, double semitone);

/** Sets the probability of each lug that it alone is off, and how uneven the head is. @param semitone  as above */
void suspectLugs (HeadFit&, const LugData&, double semitone);

} // namespace fitting
