#include "Motion.h"

#include "HeadShape.h"

#include "Engine/Drum.h"
#include "Engine/StrandGeometry.h"

#include <algorithm>
#include <cmath>

namespace editor
{
namespace
{

/** Indices of the engine's contacts of the centre strand, from -x to +x. */
struct MiddleStrand
{
    std::vector<int> contact;
    std::vector<float> x; ///< m
    float y = 0.0f;       ///< m

    MiddleStrand (const engine::DrumModel& model, const engine::KernelView<float>& state)
    {
        const auto& setup = model.setup();
        if (model.wireContacts() == 0)
            return;
        const engine::StrandGeometry strands (setup.wires, 2.0 * setup.modes.radius, setup.wireDetail.strands,
                                              setup.wireDetail.points, setup.wireDetail.modes);
        int nearest = 0;
        for (int pair = 1; pair < strands.pairs(); ++pair)
            if (strands.strandY (pair) < strands.strandY (nearest))
                nearest = pair;
        y = static_cast<float> (strands.strandY (nearest));

        // Contacts lie by quadrant (+x first), point, pair; with symmetry each quadrant is padded.
        const int quadrant = strands.pairs() * strands.halfPoints();
        const int stride = state.classes == 4 ? state.combinations : quadrant;
        std::vector<std::pair<float, int>> found;
        for (int point = 0; point < strands.halfPoints(); ++point)
            for (const bool isRight : { true, false })
                found.emplace_back (static_cast<float> (isRight ? strands.pointX (point) : -strands.pointX (point)),
                                    (isRight ? 0 : 2 * stride) + point * strands.pairs() + nearest);
        std::sort (found.begin(), found.end());
        for (const auto& [at, index] : found)
        {
            x.push_back (at);
            contact.push_back (index);
        }
    }
};

/** How far a stick, or a group of a brush's wires, is bent at each of its stations, upwards, against its tip, m. */
std::vector<float> bendOf (const engine::StickState& stick, const modal::StickBody& body)
{
    std::vector<float> bend (modal::StickBody::stations);
    const int first = stick.isWires ? 0 : stick.rigidModes;
    for (std::size_t i = 0; i < bend.size(); ++i)
    {
        double sum = 0.0;
        for (int k = first; k < stick.bodyModes; ++k)
        {
            const auto& shape = body.mode[static_cast<std::size_t> (k)].shape;
            sum += (shape[i] - shape[0]) * stick.position[static_cast<std::size_t> (k)];
        }
        bend[i] = static_cast<float> (sum);
    }
    return bend;
}

} // namespace

Motion followStrike (std::shared_ptr<const engine::DrumModel> model, const engine::Stroke& stroke, double seconds)
{
    Motion motion;
    motion.model = model;
    motion.stroke = stroke;
    const auto& setup = model->setup();
    const auto& modes = setup.modes;

    engine::Drum drum (model);
    const int microphones = model->microphones();
    const int block = std::max (1, static_cast<int> (std::lround (setup.sampleRate / 8000.0)));
    motion.frameTime = block * model->interval();
    std::vector<std::vector<float>> heard (static_cast<std::size_t> (microphones),
                                           std::vector<float> (static_cast<std::size_t> (block)));
    std::vector<float*> outputs;
    for (auto& channel : heard)
        outputs.push_back (channel.data());

    const MiddleStrand strand (*model, drum.state());
    motion.strandX = strand.x;
    const int basis = model->basisSize();
    // The batter is drawn along the stroke, the resonant head along the wires.
    const SectionShape alongStroke (modes, stroke.angle, sectionPoints), alongWires (modes, 0.0, sectionPoints);
    std::vector<float> profile (sectionPoints);
    std::vector<double> field (static_cast<std::size_t> (model->fieldSize()));
    std::vector<double> strandBasis; // [point][basis] along the strand
    for (const float at : strand.x)
        for (const auto& function : modes.basis)
            strandBasis.push_back (function.at (std::hypot (at, strand.y), std::atan2 (strand.y, at), modes.radius));

    drum.strike (stroke);
    const int count = static_cast<int> (seconds / motion.frameTime);
    for (int f = 0; f < count; ++f)
    {
        drum.process (outputs.data(), block);
        const auto& state = drum.state();
        model->toField (state.position, field.data());
        Motion::Frame frame;
        frame.field.assign (field.begin(), field.end());

        for (std::size_t i = 0; i < strand.contact.size(); ++i)
        {
            // Compression is the height of the coil above the head: negative when it hangs free below.
            double head = 0.0;
            for (int b = 0; b < basis; ++b)
                head += field[static_cast<std::size_t> (basis + b)] *
                        strandBasis[i * static_cast<std::size_t> (basis) + static_cast<std::size_t> (b)];
            frame.strand.push_back (static_cast<float> (head) + state.compression[strand.contact[i]]);
        }
        for (int j = 0; j < engine::maxSticks; ++j)
            if (state.sticks[j].active && frame.stick > 0.5f)
            {
                frame.stick = static_cast<float> (state.sticks[j].tipHeight());
                frame.bend = bendOf (state.sticks[j], stroke.kind == engine::StrokeKind::crossStick ? setup.laidStick : setup.stick);
            }

        alongStroke.displacement (frame.field.data(), profile.data());
        motion.batterPeak = std::max (motion.batterPeak, largest (profile));
        alongWires.displacement (frame.field.data() + basis, profile.data());
        motion.resonantPeak = std::max (motion.resonantPeak, largest (profile));
        motion.frames.push_back (std::move (frame));
    }
    return motion;
}

} // namespace editor
