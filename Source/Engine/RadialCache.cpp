#include "RadialCache.h"

namespace engine
{

const std::vector<double>& RadialCache::operator() (const modal::BasisFunction& function)
{
    const std::scoped_lock lock (mutex);
    auto& values = known[{ function.m, function.n }];

    if (values.empty())
    {
        auto atCrest = function;
        atCrest.parity = modal::Parity::cosine;
        for (const double place : places)
            values.push_back (atCrest.at (place, 0.0, 1.0));
    }

    return values;
}

} // namespace engine
