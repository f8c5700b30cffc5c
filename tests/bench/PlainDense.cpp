#include "PlainDense.h"

#include "Engine/ContactLaw.h"
#include "Engine/DrumModel.h"

#include <algorithm>
#include <cmath>

namespace bench
{

namespace
{

using View = engine::KernelView<float>;

/** r + D·f(r) = target, f the discrete gradient of K/2·max(η, 0)² from η = e to e + r, plus loss·r. Returns f. */
float solveWire (float e, float target, float D, float K, float loss)
{
    const float deep = std::max (e, 0.0f), base = 1.0f + D * loss;
    const bool beginsClosed = e > 0.0f, endsClosed = target > 0.5f * D * K * deep - e * base;
    if (! beginsClosed && ! endsClosed)
        return loss * target / base;
    if (beginsClosed && endsClosed)
    {
        const float move = (target - D * K * e) / (base + 0.5f * D * K);
        return K * (e + 0.5f * move) + loss * move;
    }
    const float sign = beginsClosed ? -1.0f : 1.0f;
    const float a = endsClosed ? base + 0.5f * D * K : base, b = endsClosed ? D * K * e - target : -target;
    const float c = 0.5f * D * K * e * e * sign;
    const float root = std::sqrt (std::max (b * b - 4.0f * a * c, 0.0f));
    float move = (sign * root - b) / (2.0f * a);
    move = beginsClosed ? std::min (move, -1.0e-18f) : std::max (move, 1.0e-18f);
    const float end = e + move;
    return 0.5f * K * (endsClosed ? end * end : -deep * deep) / move + loss * move;
}

/** Move of striker `j` that other strikers and the wires cause. */
double moveFromOthers (const View& s, int j, int contacts)
{
    double move = 0.0;
    for (int i = 0; i < contacts; ++i)
        move += static_cast<double> (s.strikerToWire[j][i] * (s.force[i] - s.restForce[i]));
    for (int other = 0; other < engine::maxStrikers; ++other)
        if (other != j && s.strikers[other].active)
            move += s.strikers[j].crossMobility[other] * s.strikers[other].force;
    return move;
}

double solveStrikers (View& s, int contacts)
{
    double largest = 0.0;
    for (int j = 0; j < engine::maxStrikers; ++j)
    {
        auto& striker = s.strikers[j];
        if (! striker.active)
            continue;
        const double loss = striker.lossRate * engine::springForce (striker.stiffness, striker.exponent, striker.compression);
        const auto solved = engine::solveContact (striker.compressionBefore,
                                                  striker.free - striker.compressionBefore - moveFromOthers (s, j, contacts),
                                                  striker.mobility, striker.stiffness, striker.exponent, loss);
        largest = std::max (largest, std::abs (solved.force - striker.force));
        striker.force = solved.force;
    }
    return largest;
}

/** How far all forces together move contact `i`. */
float response (const View& s, int i, int contacts)
{
    float sum = 0.0f;
    for (int j = 0; j < contacts; ++j)
        sum += s.coupling[0].mobility[i * contacts + j] * (s.force[j] - s.restForce[j]);
    for (int j = 0; j < engine::maxStrikers; ++j)
        if (s.strikers[j].active)
            sum += s.strikerToWire[j][i] * static_cast<float> (s.strikers[j].force);
    return sum;
}

void settle (View& s, const float* freeCompression, int contacts)
{
    for (int sweep = 0; sweep < s.maxSweeps; ++sweep)
    {
        double change = solveStrikers (s, contacts), largest = 0.0;
        for (int i = 0; i < contacts; ++i)
        {
            const float D = s.coupling[0].mobility[i * contacts + i], former = s.force[i], e = s.compressionBefore[i];
            const float loss = s.compression[i] > 0.0f ? s.lossRate[i] * s.compression[i] + s.contactResistance : 0.0f;
            const float target = freeCompression[i] - e - response (s, i, contacts) + D * former;
            s.force[i] = D > 0.0f ? solveWire (e, target, D, s.stiffness[i], loss) : 0.0f;
            change = std::max (change, static_cast<double> (std::abs (s.force[i] - former)));
            largest = std::max (largest, static_cast<double> (std::abs (s.force[i])));
        }
        ++s.sweeps;
        if (change <= static_cast<double> (s.tolerance) + static_cast<double> (s.relativeTolerance) * largest)
            break;
    }
}

void moveStrikers (View& s, int contacts)
{
    for (int j = 0; j < engine::maxStrikers; ++j)
    {
        auto& striker = s.strikers[j];
        if (! striker.active)
            continue;
        striker.step = striker.nextStep (striker.force);
        striker.height += striker.step;
        const double next = striker.free - striker.mobility * striker.force - moveFromOthers (s, j, contacts);
        striker.compressionBefore = striker.compression;
        striker.compression = next;
        const double dent = striker.nextDent (striker.force);
        striker.dentBefore = striker.dent;
        striker.dent = dent;
        striker.contactSamples += striker.force > 0.0 ? 1 : 0;
        ++striker.age;
    }
}

} // namespace

void playPlainDense (View& s, float* const* outputs, int frames)
{
    const auto& group = s.coupling[0];
    const int contacts = s.classes * s.combinations;
    float freeCompression[engine::maxContacts];
    for (int frame = 0; frame < frames; ++frame)
    {
        for (int k = 0; k < s.modes; ++k)
        {
            s.trial[k] = s.position[k] + s.keep[k] * s.step[k] - s.spring[k] * s.position[k];
            s.push[k] = 0.0f;
        }
        for (int i = 0; i < contacts; ++i)
        {
            float sum = s.restCompression[i];
            for (int k = 0; k < group.modes; ++k)
                sum += group.shapes[i * group.modes + k] * s.trial[group.firstMode + k];
            freeCompression[i] = sum;
        }
        for (int j = 0; j < engine::maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            float sum = 0.0f;
            for (int k = 0; k < s.modes; ++k)
                sum += s.strikerShape[j][k] * s.trial[k];
            striker.free = striker.freeCompression (static_cast<double> (sum));
        }

        settle (s, freeCompression, contacts);

        for (int i = 0; i < contacts; ++i)
        {
            s.compressionBefore[i] = s.compression[i];
            s.compression[i] = freeCompression[i] - response (s, i, contacts);
            for (int k = 0; k < group.modes; ++k)
                s.push[group.firstMode + k] -= group.shapes[i * group.modes + k] * (s.force[i] - s.restForce[i]);
        }
        for (int j = 0; j < engine::maxStrikers; ++j)
            if (s.strikers[j].active)
                for (int k = 0; k < s.modes; ++k)
                    s.push[k] -= s.strikerShape[j][k] * static_cast<float> (s.strikers[j].force);
        moveStrikers (s, contacts);

        for (int k = 0; k < s.modes; ++k)
        {
            const float before = s.step[k];
            const float step = s.keep[k] * before - s.spring[k] * s.position[k] + s.drive[k] * s.push[k];
            s.step[k] = step;
            s.position[k] += step;
            for (int m = 0; m < s.microphones; ++m)
                outputs[m][frame] +=
                    s.pressureOfAcceleration[m][k] * (step - before) + s.pressureOfVelocity[m][k] * (step + before);
        }
    }
}

} // namespace bench
