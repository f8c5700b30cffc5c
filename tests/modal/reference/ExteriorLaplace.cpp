#include "ExteriorLaplace.h"

#include "BesselZero.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <boost/math/special_functions/bessel.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace reference
{
namespace
{

constexpr double farBoundary = 30.0; // radii
constexpr double growth = 1.08;      // of cells away from the head

/** Cell faces: even up to `fine`, then growing to the far boundary. */
std::vector<double> gradedFaces (double start, double fine, int cellsPerRadius)
{
    const int even = static_cast<int> (std::lround (fine * cellsPerRadius));
    std::vector<double> faces;
    for (int i = 0; i <= even; ++i)
        faces.push_back (start + fine * i / even);
    for (double width = fine / even; faces.back() < farBoundary;)
    {
        width *= growth;
        faces.push_back (faces.back() + width);
    }
    return faces;
}

std::vector<double> centres (const std::vector<double>& faces)
{
    std::vector<double> result;
    for (std::size_t i = 0; i + 1 < faces.size(); ++i)
        result.push_back (0.5 * (faces[i] + faces[i + 1]));
    return result;
}

/** What the plane z = 0 is. */
enum class MidPlane
{
    wall,
    even,
    odd
};

/** The half space z > 0 with a solid cylinder r < 1, z < top (none if top is 0) and a head on z = top. */
class HalfSpace
{
public:
    HalfSpace (const ExteriorLaplace& problem, double top, MidPlane plane)
        : order (problem.m), midPlane (plane), rFaces (gradedFaces (0.0, 1.5, problem.cellsPerRadius))
    {
        if (top > 0.0)
        {
            solidCells = std::max (4, static_cast<int> (std::lround (top * problem.cellsPerRadius)));
            for (int j = 0; j < solidCells; ++j)
                zFaces.push_back (top * j / solidCells);
        }
        const auto above = gradedFaces (top, 0.5, problem.cellsPerRadius);
        zFaces.insert (zFaces.end(), above.begin(), above.end());
        r = centres (rFaces);
        z = centres (zFaces);
        numberCells();
    }

    Eigen::MatrixXd response (int functions) const
    {
        const Eigen::MatrixXd source = sources (functions);
        const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor (laplacian());
        if (factor.info() != Eigen::Success)
            throw std::runtime_error ("exterior reference: factorisation failed");
        // Cells know the potential half a cell away from the head; on the head it is higher by the velocity times that distance.
        return source.transpose() * factor.solve (source) + 0.5 * dz (solidCells) * products (functions);
    }

    /** Height of the centre of the first profile's sound, seen from far away half way between axis and plane. */
    double farCentre() const
    {
        const Eigen::MatrixXd source = sources (1);
        const Eigen::VectorXd potential = Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> (laplacian()).solve (source.col (0));
        constexpr double far = 6.0;
        const auto nearest = [] (const std::vector<double>& places)
        {
            const auto isNearer = [] (double a, double b)
            { return std::abs (a - far / std::numbers::sqrt2) < std::abs (b - far / std::numbers::sqrt2); };
            return static_cast<int> (std::min_element (places.begin(), places.end(), isNearer) - places.begin());
        };
        const int i = nearest (r), j = nearest (z);
        const double distance = std::hypot (rAt (i), zAt (j)), heard = potential (cell (i, j));
        double strength = 0.0; // over 2π for volume, over π for a dipole across
        for (int k = 0; k < columns() && rAt (k) < 1.0; ++k)
            strength += profiles (1) (k, 0) * std::pow (rAt (k), order + 1) * dr (k);
        // Sources at ±h: strength·h·z/R³, and 3/2·strength·h·rz/R⁵ across.
        return order == 0 ? heard * std::pow (distance, 3) / (strength * zAt (j))
                          : heard * std::pow (distance, 5) / (1.5 * strength * rAt (i) * zAt (j));
    }

private:
    int columns() const { return static_cast<int> (r.size()); }
    int rows() const { return static_cast<int> (z.size()); }
    double dr (int i) const { return rFaces[static_cast<std::size_t> (i) + 1] - rFaces[static_cast<std::size_t> (i)]; }
    double dz (int j) const { return zFaces[static_cast<std::size_t> (j) + 1] - zFaces[static_cast<std::size_t> (j)]; }
    double rAt (int i) const { return r[static_cast<std::size_t> (i)]; }
    double zAt (int j) const { return z[static_cast<std::size_t> (j)]; }
    double outerFace (int i) const { return rFaces[static_cast<std::size_t> (i) + 1]; }
    int cell (int i, int j) const { return index[static_cast<std::size_t> (i * rows() + j)]; }

    void numberCells()
    {
        index.assign (static_cast<std::size_t> (columns() * rows()), -1);
        for (int i = 0; i < columns(); ++i)
            for (int j = 0; j < rows(); ++j)
                if (! (rAt (i) < 1.0 && j < solidCells))
                    index[static_cast<std::size_t> (i * rows() + j)] = cells++;
    }

    Eigen::SparseMatrix<double> laplacian() const
    {
        std::vector<Eigen::Triplet<double>> entries;
        const auto link = [&] (int p, int q, double conductance)
        {
            if (q < 0)
                return; // a rigid wall lets nothing through
            entries.emplace_back (p, p, conductance);
            entries.emplace_back (q, q, conductance);
            entries.emplace_back (p, q, -conductance);
            entries.emplace_back (q, p, -conductance);
        };

        for (int i = 0; i < columns(); ++i)
            for (int j = 0; j < rows(); ++j)
            {
                const int p = cell (i, j);
                if (p < 0)
                    continue;

                const double distance = std::hypot (rAt (i), zAt (j));
                entries.emplace_back (p, p, order * order / rAt (i) * dr (i) * dz (j));

                if (i + 1 < columns())
                    link (p, cell (i + 1, j), outerFace (i) * dz (j) / (rAt (i + 1) - rAt (i)));
                else
                    entries.emplace_back (p, p, outerFace (i) * dz (j) * (order + 1) * rAt (i) / (distance * distance));

                if (j + 1 < rows())
                    link (p, cell (i, j + 1), rAt (i) * dr (i) / (zAt (j + 1) - zAt (j)));
                else
                    entries.emplace_back (p, p, rAt (i) * dr (i) * (order + 1) * zAt (j) / (distance * distance));

                if (j == 0 && midPlane == MidPlane::odd)
                    entries.emplace_back (p, p, rAt (i) * dr (i) / zAt (0));
            }

        Eigen::SparseMatrix<double> matrix (cells, cells);
        matrix.setFromTriplets (entries.begin(), entries.end());
        return matrix;
    }

    Eigen::MatrixXd profiles (int functions) const
    {
        const auto zeros = zerosOfJ (order, functions);
        Eigen::MatrixXd values = Eigen::MatrixXd::Zero (columns(), functions);
        for (int i = 0; i < columns() && rAt (i) < 1.0; ++i)
            for (int n = 0; n < functions; ++n)
                values (i, n) = boost::math::cyl_bessel_j (order, zeros[static_cast<std::size_t> (n)] * rAt (i));
        return values;
    }

    /** ∫ of each pair of profiles over the head. */
    Eigen::MatrixXd products (int functions) const
    {
        const Eigen::MatrixXd values = profiles (functions);
        Eigen::VectorXd rings (columns());
        for (int i = 0; i < columns(); ++i)
            rings (i) = rAt (i) * dr (i);
        return values.transpose() * rings.asDiagonal() * values;
    }

    Eigen::MatrixXd sources (int functions) const
    {
        const Eigen::MatrixXd values = profiles (functions);
        Eigen::MatrixXd source = Eigen::MatrixXd::Zero (cells, functions);
        for (int i = 0; i < columns() && rAt (i) < 1.0; ++i)
            source.row (cell (i, solidCells)) = values.row (i) * rAt (i) * dr (i);
        return source;
    }

    int order;
    MidPlane midPlane;
    std::vector<double> rFaces, zFaces, r, z;
    std::vector<int> index;
    int solidCells = 0;
    int cells = 0;
};

} // namespace

Eigen::MatrixXd ExteriorLaplace::baffled() const
{
    return HalfSpace (*this, 0.0, MidPlane::wall).response (functions);
}

ExteriorLaplace::TwoHeads ExteriorLaplace::freeStanding (double length) const
{
    const Eigen::MatrixXd even = HalfSpace (*this, 0.5 * length, MidPlane::even).response (functions);
    const Eigen::MatrixXd odd = HalfSpace (*this, 0.5 * length, MidPlane::odd).response (functions);
    return { 0.5 * (even + odd), 0.5 * (even - odd) };
}

double ExteriorLaplace::farCentreOffset (double length) const
{
    return HalfSpace (*this, 0.5 * length, MidPlane::odd).farCentre() - 0.5 * length;
}

} // namespace reference
