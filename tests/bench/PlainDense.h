#pragma once

#include "Engine/KernelView.h"

namespace bench
{

/** The drum as the scheme is written down, for comparison: one matrix over all contacts and one over all contacts and modes,
   Gauss-Seidel from contact to contact, one number at a time. Needs a model without symmetry (one class); leaves out the rise of
   tension. */
void playPlainDense (engine::KernelView<float>&, float* const* outputs, int frames);

} // namespace bench
