#pragma once

#include <vector>

namespace modal
{

/** Points and weights of a rule: ∫ f ≈ Σ weight·f(point). */
struct Quadrature
{
    std::vector<double> points;
    std::vector<double> weights;
};

/** Gauss–Legendre rule of `order` points on [low, high], exact for polynomials to degree 2·order − 1. */
Quadrature gaussLegendre (int order, double low, double high);

/** The same rule of `order` points repeated on `pieces` equal pieces of [low, high]. */
Quadrature compositeGaussLegendre (int order, int pieces, double low, double high);

} // namespace modal
