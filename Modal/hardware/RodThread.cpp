#include "RodThread.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <cmath>
#include <cstdio>

namespace modal
{
namespace
{

constexpr double lowFriction = 0.08, usualFriction = 0.13, highFriction = 0.20;

double torqueAt (const RodThread& thread, double force, double washerDiameter, double friction) noexcept
{
    const double flank = std::cos (units::pi / 6.0);
    return force *
           (thread.pitch / units::twoPi + 0.5 * friction * thread.pitchDiameter() / flank + 0.5 * friction * washerDiameter);
}

} // namespace

double RodThread::pitchDiameter() const noexcept
{
    return majorDiameter - 0.649519 * pitch;
}

RodThread RodThread::parse (const std::string& text, const std::string& field)
{
    RodThread thread;
    thread.name = text;
    int number = 0, threads = 0, length = 0;
    double diameter = 0.0, pitch = 0.0;

    // Unified numbered sizes are 0.060 in + 0.013 in a number across (ASME B1.1).
    if (std::sscanf (text.c_str(), "%d-%d%n", &number, &threads, &length) == 2 && number >= 0 && number <= 12 && threads > 0)
    {
        thread.majorDiameter = (0.060 + 0.013 * number) * units::inch;
        thread.pitch = units::inch / threads;
    }
    else if (std::sscanf (text.c_str(), "M%lfx%lf%n", &diameter, &pitch, &length) == 2)
    {
        thread.majorDiameter = diameter * units::millimetre;
        thread.pitch = pitch * units::millimetre;
    }
    else
    {
        throw InputError (field, '"' + text + '"', "a thread such as 12-24 UNC, 10-32 or M6x1");
    }

    const auto rest = text.substr (static_cast<std::size_t> (length));

    if (! (rest.empty() || rest == " UNC" || rest == " UNF"))
        throw InputError (field, '"' + text + '"', "a thread such as 12-24 UNC, 10-32 or M6x1");

    check (thread);
    return thread;
}

Spread torqueFor (const RodThread& thread, double force, double washerDiameter) noexcept
{
    return { torqueAt (thread, force, washerDiameter, lowFriction), torqueAt (thread, force, washerDiameter, usualFriction),
             torqueAt (thread, force, washerDiameter, highFriction) };
}

void check (const RodThread& thread)
{
    requireInRange (thread.majorDiameter, { 2.0e-3, 12.0e-3, "m" }, "rod diameter");
    requireInRange (thread.pitch, { 0.3e-3, 2.5e-3, "m" }, "rod pitch");
}

} // namespace modal
