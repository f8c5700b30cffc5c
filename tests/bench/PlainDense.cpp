#include "PlainDense.h"

#include "Engine/DrumModel.h"
#include "Engine/KernelSticks.h"

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

using Sticks = engine::StickStep<float, 4>;

/** How far the wires' forces open three contacts of sticks whose rows of View::stickToWire are given. */
void moveFromWires (const View& s, const float* const (&rows)[3], double (&moves)[3], int contacts)
{
    for (int row = 0; row < 3; ++row)
    {
        moves[row] = 0.0;
        for (int i = 0; i < contacts; ++i)
            moves[row] += static_cast<double> (rows[row][i] * (s.force[i] - s.restForce[i]));
    }
}

/** How far all forces together move contact `i`. */
float response (const View& s, int i, int contacts)
{
    float sum = 0.0f;
    for (int j = 0; j < contacts; ++j)
        sum += s.coupling[0].mobility[i * contacts + j] * (s.force[j] - s.restForce[j]);
    for (int j = 0; j < engine::maxStickContacts; ++j)
        if (const auto& stick = s.sticks[j / engine::contactsPerStick]; stick.active)
            sum += s.stickToWire[j][i] *
                   static_cast<float> (stick.contact[static_cast<std::size_t> (j % engine::contactsPerStick)].force);
    return sum;
}

void settle (View& s, Sticks& sticks, const float* freeCompression, int contacts)
{
    for (int sweep = 0; sweep < s.maxSweeps; ++sweep)
    {
        double change = sticks.solve ([&] (const float*const(&rows)[3], double (&moves)[3])
                                      { moveFromWires (s, rows, moves, contacts); }),
               largest = 0.0;
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

} // namespace

void playPlainDense (View& s, float* const* outputs, int frames)
{
    const auto& group = s.coupling[0];
    const int contacts = s.classes * s.combinations;
    float freeCompression[engine::maxContacts];
    Sticks sticks (s);
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
        sticks.predict();

        settle (s, sticks, freeCompression, contacts);

        for (int i = 0; i < contacts; ++i)
        {
            s.compressionBefore[i] = s.compression[i];
            s.compression[i] = freeCompression[i] - response (s, i, contacts);
            for (int k = 0; k < group.modes; ++k)
                s.push[group.firstMode + k] -= group.shapes[i * group.modes + k] * (s.force[i] - s.restForce[i]);
        }
        sticks.scatter();
        sticks.finish (outputs, frame);

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
