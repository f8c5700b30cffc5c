#include "DrumModel.h"

#include "Bank.h"
#include "RadiationOfRings.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace engine
{
namespace
{

/** A stick's shaft meets the hoop at an angle: these shares of the force act radially on the ring and along the shell. Common
    practice, no source. */
constexpr double hoopRadialShare = 0.5, hoopUprightShare = 0.866;

void check (const DrumSetup& setup)
{
    modal::requireInRange (setup.sampleRate, { 22050.0, 192000.0, "Hz" }, "sample rate");
    modal::check (setup.wires);
    modal::requireInRange (setup.batterStretch, { 0.0, 1.0e7, "N/m" }, "batter stretch resistance");
    modal::requireInRange (setup.resonantStretch, { 0.0, 1.0e7, "N/m" }, "resonant stretch resistance");
    modal::requireInRange (static_cast<double> (setup.microphones.size()), { 0.0, maxMicrophones, "" }, "microphones");
    const auto evenIn = [] (int value, int low, int high, const char* name)
    {
        modal::requireInRange (value, { static_cast<double> (low), static_cast<double> (high), "" }, name);
        if (value % 2 != 0)
            throw modal::InputError (name, std::to_string (value), "an even number");
    };
    evenIn (setup.wireDetail.strands, 2, 20, "wire detail strands");
    evenIn (setup.wireDetail.points, 4, 32, "wire detail points");
    modal::requireInRange (setup.wireDetail.modes, { 1.0, static_cast<double> (setup.wireDetail.points), "" },
                           "wire detail modes");
    for (const auto& microphone : setup.microphones)
        check (microphone, setup.modes.radius, setup.modes.depth, "microphone " + microphone.name);
}

} // namespace

template <typename Scalar>
BasicDrumModel<Scalar>::BasicDrumModel (const DrumSetup& setup) : drumSetup (setup)
{
    check (drumSetup);
    const Bank bank = buildBank (drumSetup);
    modal::requireInRange (bank.size(), { 1.0, static_cast<double> (maxModes), "" }, "modes of the drum and its wires");
    modal::requireInRange (basisSize(), { 1.0, static_cast<double> (maxModes), "" }, "basis functions of a head");

    gatherRecursions (bank);
    gatherWires (bank);
    gatherWireModes (bank);
    gatherRings (bank);
    gatherSound (bank);
    gatherHeadShapes (bank);
    buildTables();
    sortFieldModes();
    buildStretch();
    buildFilmUnderTip();
    buildStretchUnderTip();
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherRecursions (const Bank& bank)
{
    const auto values = [&] (auto member)
    {
        Eigen::VectorXd v (bank.size());
        for (int k = 0; k < bank.size(); ++k)
            v[k] = member (bank.entries[static_cast<std::size_t> (k)].recursion);
        return v;
    };
    const auto keepOf = values ([] (const ModalRecursion& r) { return r.keep; });
    const auto springOf = values ([] (const ModalRecursion& r) { return r.spring; });
    const auto driveOf = values ([] (const ModalRecursion& r) { return r.drive; });
    keep = packed<Scalar> (keepOf);
    spring = packed<Scalar> (springOf);
    drive = packed<Scalar> (driveOf);
    exactKeep = packed<double> (keepOf);
    exactSpring = packed<double> (springOf);
    exactDrive = packed<double> (driveOf);
    lossOfStep = packed<Scalar> (values ([] (const ModalRecursion& r) { return r.lossOfStep(); }));
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherRings (const Bank& bank)
{
    for (int k = 0; k < bank.size(); ++k)
    {
        const auto& entry = bank.entries[static_cast<std::size_t> (k)];
        if (entry.kind != BankEntry::Kind::ring)
            continue;
        ringBankModes.push_back (k);
        const auto& ring = bank.rings[static_cast<std::size_t> (entry.ring)];
        hoopTerms.push_back ({ k, ring.n, ring.isSine, (ring.isUpright ? hoopUprightShare : hoopRadialShare) * ring.ofHoop });
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherSound (const Bank& bank)
{
    std::vector<ModalPressure> pressures;
    for (std::size_t m = 0; m < drumSetup.microphones.size(); ++m)
    {
        const auto& microphone = drumSetup.microphones[m];
        const auto& pressure = pressures.emplace_back (pressureAt (drumSetup.modes, microphone));
        delays[m] = pressure.delay;
        Eigen::VectorXd acceleration = Eigen::VectorXd::Zero (bank.size()), velocity = acceleration;
        for (int k = 0; k < bank.size(); ++k)
        {
            const auto& entry = bank.entries[static_cast<std::size_t> (k)];
            if (entry.kind == BankEntry::Kind::head)
            {
                acceleration[k] = pressure.acceleration[entry.drumMode];
                velocity[k] = pressure.velocity[entry.drumMode];
            }
            else if (entry.kind == BankEntry::Kind::ring && ! bank.rings[static_cast<std::size_t> (entry.ring)].isUpright)
                acceleration[k] = ringPressure (drumSetup.modes, bank.rings[static_cast<std::size_t> (entry.ring)], microphone);
        }
        pressureOfAcceleration[m] = packed<Scalar> (Eigen::VectorXd (acceleration * drumSetup.sampleRate * drumSetup.sampleRate));
        pressureOfVelocity[m] = packed<Scalar> (Eigen::VectorXd (velocity * 0.5 * drumSetup.sampleRate));
    }
    upper = upperBandOf (drumSetup, pressures);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::connect (KernelView<Scalar>& view) const noexcept
{
    view.modes = modes();
    view.keep = keep.data();
    view.spring = spring.data();
    view.drive = drive.data();
    view.lossOfStep = lossOfStep.data();
    view.classes = classes;
    view.combinations = combinations;
    for (int c = 0; c < classes; ++c)
        view.coupling[c] = coupling[static_cast<std::size_t> (c)];
    view.stiffness = stiffness.data();
    view.lossRate = lossRate.data();
    view.contactResistance = contactResistance;
    view.metric = metric.data();
    view.forcePointCount = static_cast<int> (wirePoints.size());
    for (std::size_t p = 0; p < wirePoints.size(); ++p)
    {
        const auto first = restForce.begin() + wirePoints[p].first;
        view.forcePoints[p] = { wirePoints[p].first, wirePoints[p].count,
                                std::accumulate (first, first + wirePoints[p].count, Scalar (0)) };
    }
    view.restForce = restForce.data();
    view.restCompression = restCompression.data();
    // Berger: E·h/(1-ν²) times the mean of |∇w|²/2 over the head.
    const double twiceArea = 2.0 * modal::units::pi * drumSetup.modes.radius * drumSetup.modes.radius;
    const bool hasResonant = drumSetup.modes.bottom == modal::Bottom::head;
    view.tension.rise[0] = drumSetup.batterStretch / twiceArea;
    view.tension.rise[1] = hasResonant ? drumSetup.resonantStretch / twiceArea : 0.0;
    view.tension.base[0] = drumSetup.tensions.batter;
    view.tension.base[1] = drumSetup.tensions.resonant;
    for (std::size_t head = 0; head < 2; ++head)
        view.tension.gradient[head] = stretchGradient[head].data();
    view.tension.spanCount = static_cast<int> (stretchSpans.size());
    for (std::size_t i = 0; i < stretchSpans.size(); ++i)
        view.tension.spans[i] = { stretchSpans[i].first, stretchSpans[i].second };
    view.roughness = drumSetup.batterRoughness;
    view.roughnessProfile = &roughnessProfile();
    view.microphones = microphones();
    for (int m = 0; m < microphones(); ++m)
    {
        view.pressureOfAcceleration[m] = pressureOfAcceleration[static_cast<std::size_t> (m)].data();
        view.pressureOfVelocity[m] = pressureOfVelocity[static_cast<std::size_t> (m)].data();
    }
}

template <typename Scalar>
double BasicDrumModel<Scalar>::energyOf (std::size_t k, const Scalar* position, const Scalar* step) const noexcept
{
    return ModalRecursion{ exactKeep[k], exactSpring[k], exactDrive[k] }.energy (static_cast<double> (position[k]),
                                                                                 static_cast<double> (step[k]));
}

template <typename Scalar>
double BasicDrumModel<Scalar>::modalEnergy (const Scalar* position, const Scalar* step) const noexcept
{
    double sum = 0.0;
    for (std::size_t k = 0; k < keep.size(); ++k)
        sum += energyOf (k, position, step);
    return sum;
}

template <typename Scalar>
bool BasicDrumModel<Scalar>::hasModalEnergy (const Scalar* position, const Scalar* step, double least) const noexcept
{
    double sum = 0.0;
    for (std::size_t k = 0; k < keep.size() && sum <= least; ++k)
        sum += energyOf (k, position, step);
    return sum > least;
}

template class BasicDrumModel<float>;
template class BasicDrumModel<double>;

} // namespace engine
