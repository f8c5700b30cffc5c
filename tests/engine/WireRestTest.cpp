#include "TestDrum.h"

#include "tests/Catch.h"

#include "Modal/hardware/SnareBed.h"

namespace
{

engine::DrumSetup evenWires (double tension, double bedDepth)
{
    auto setup = testdrum::snare (2000.0);
    setup.wires.strandTension = tension;
    setup.wires.bedDepth = bedDepth;
    setup.wires.unevenness = 0.0;
    setup.wires.unevenPress = 0.0;
    setup.wires.bending = 0.0;
    return setup;
}

/** What each contact of a quadrant presses with at rest, N. */
std::vector<double> restForces (const engine::DrumSetup& setup)
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    const auto& state = drum.state();
    return { state.restForce, state.restForce + state.combinations };
}

} // namespace

TEST_CASE ("light wires press on the head by their tension times the bend of the snare beds")
{
    // A string under tension T that is led over a curve presses on it in all by T times the change of its slope (the belt on a
    // pulley; any handbook of mechanics): the slope from its end to the outermost contact. Light, so that the film does not give;
    // 32 modes of a strand show its kinks within 3 %.
    auto setup = evenWires (0.1, 2.0e-3);
    setup.wires.gravity = 0.0;
    setup.wires.pressDepth = 0.0;
    setup.wires.decayRate = 0.0;
    setup.wires.decayPerOscillation = 0.0;
    setup.wires.bedWidth = 5.0e-3;
    setup.wireDetail = { .strands = 2, .points = 32, .modes = 32 };
    const double radius = setup.modes.radius, end = setup.wires.lengthShare * radius;
    const modal::SnareBed bed (radius, setup.wires.bedDepth, setup.wires.bedSpan);
    const double outermost = end - end / setup.wireDetail.points;
    const double slope = (bed.height (outermost, 0.0) - bed.height (end, 0.0)) / (end - outermost);

    double halfOfHalfTheWires = 0.0;
    for (const double force : restForces (setup))
        halfOfHalfTheWires += force;
    CHECK (halfOfHalfTheWires == Approx (0.5 * setup.wires.strands * setup.wires.strandTension * slope).epsilon (0.03));
}

TEST_CASE ("slack wires hang off the head without snare beds and lie on it with them")
{
    const auto bearing = [] (const engine::DrumSetup& setup)
    {
        int count = 0;
        for (const double force : restForces (setup))
            count += force > 0.0 ? 1 : 0;
        return count;
    };
    CHECK (bearing (evenWires (4.0, 0.0)) == 4); // where the four strands of a quadrant end
    CHECK (bearing (evenWires (4.0, 1.5e-3)) >= 12);
}
