#include "KernelLoop.h"

namespace engine
{

void runAvx512 (KernelView<float>&, float* const*, int);

void runAvx512 (KernelView<float>& state, float* const* outputs, int frames)
{
    Loop<float, 16> (state).run (outputs, frames);
}

} // namespace engine
