#include "TestDrum.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace
{

struct NamedDrum
{
    std::string name;
    engine::DrumSetup setup;
};

/** The same drum even, uneven and muffled, without wires. */
std::vector<NamedDrum> drums (double factor = 1.0)
{
    using Shape = modal::MufflingItem::Shape;
    const auto make = [&] (const std::string& name, const modal::Muffling& muffling, const std::vector<double>& lugs)
    {
        modal::DrumSpec spec;
        spec.lugs = 8;
        spec.muffling = muffling;
        const modal::Tensions tensions{ 2000.0 * factor, 1900.0 * factor, lugs };
        modal::SolveOptions options;
        options.highestFrequency = 1500.0;
        auto setup = engine::setUp (spec, tensions, modal::solve (spec, tensions, options), {});
        setup.wires.on = false;
        setup.stick.tipHalfWidth = 1.0e-6; // a point
        return NamedDrum{ name, setup };
    };
    return { make ("even", {}, {}), make ("lug 1 off", {}, { 0.05, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0 }),
             make ("lug 2 off", {}, { 0.0, 0.05, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0 }), make ("patch", { { .angle = 0.785 } }, {}),
             make ("ring", { { .shape = Shape::ring } }, {}) };
}

} // namespace

TEST_CASE ("mode shapes at a stroke's position agree with the solved modes, on even and uneven drums")
{
    for (const auto& [name, setup] : drums())
    {
        const engine::ExactDrumModel model (setup);
        std::vector<double> shape (static_cast<std::size_t> (model.modes()));
        for (const double share : { 0.0, 0.1, 0.33, 0.7, 0.98 })
            for (const double angle : { 0.0, 0.6, 2.5, -1.1 })
            {
                CAPTURE (name, share, angle);
                model.headShape (share * setup.modes.radius, angle, shape.data());
                const auto exact = setup.modes.batterShapeAt (share * setup.modes.radius, angle);
                // Without wires the bank is the drum's modes in their order, then rings.
                REQUIRE (model.headModes() == exact.size());
                double error = 0.0;
                for (Eigen::Index k = 0; k < exact.size(); ++k)
                    error = std::max (error, std::abs (shape[static_cast<std::size_t> (k)] - exact[k]));
                CHECK (error < 3.0e-4 * exact.cwiseAbs().maxCoeff());
            }
    }
}

TEST_CASE ("axisymmetric muffling keeps the symmetry of the wires")
{
    for (auto& [name, setup] : drums())
    {
        setup.wires.on = true;
        const engine::DrumModel model (setup);
        engine::KernelView<float> view;
        model.connect (view);
        CAPTURE (name);
        CHECK (view.classes == (name == "even" || name == "ring" ? 4 : 1));
    }
}

TEST_CASE ("a drum keeps ringing when it is muffled or a lug is turned")
{
    const auto before = drums(), after = drums (1.03);
    for (const auto& former : before)
        for (const auto& next : after)
        {
            engine::Drum drum (std::make_shared<engine::DrumModel> (former.setup));
            drum.strike (engine::Stroke{});
            testdrum::run (drum, 4800);
            const double energy = drum.energy();
            drum.setModel (std::make_shared<engine::DrumModel> (next.setup));
            CAPTURE (former.name, next.name);
            CHECK (drum.energy() <= energy * (1.0 + 1.0e-5));
            // Each mode finds a similar one, except a few that the muffling mixes.
            CHECK (drum.energy() > 0.94 * energy);
        }
}
