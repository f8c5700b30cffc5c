#include "KernelLoop.h"

namespace engine
{

void runAvx2 (KernelView<float>&, float* const*, int);

void runAvx2 (KernelView<float>& state, float* const* outputs, int frames)
{
    Loop<float, 8> (state).run (outputs, frames);
}

} // namespace engine
