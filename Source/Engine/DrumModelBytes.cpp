// A drum model as bytes.

#include "Bytes.h"
#include "DrumModel.h"

namespace engine
{
namespace
{

/** What a drum that plays needs of its setup: not the modes' list and shapes, from which the model was made. */
template <class Stream, class Setup>
void passSetup (Stream& stream, Setup& setup)
{
    auto& modes = setup.modes;
    pass (stream, modes.radius, modes.depth, modes.bottom, modes.surround, modes.air, modes.basis, modes.highestFrequency,
          modes.isUniform);
    pass (stream, setup.tensions.batter, setup.tensions.resonant, setup.tensions.batterLugs, setup.tensions.resonantLugs);
    pass (stream, setup.batterStretch, setup.resonantStretch, setup.batterDensity, setup.resonantDensity, setup.batterBending,
          setup.resonantBending, setup.batterRoughness, setup.wires, setup.stick, setup.laidStick, setup.hoop, setup.shell.material,
          setup.shell.thickness, setup.wireDetail, setup.sampleRate);

    auto microphones = static_cast<std::uint32_t> (setup.microphones.size());
    pass (stream, microphones);
    if constexpr (Stream::reads)
    {
        modal::requireInRange (microphones, { 0.0, maxMicrophones, "" }, "drum model: microphones");
        setup.microphones.resize (microphones);
    }
    for (auto& m : setup.microphones)
        pass (stream, m.name, m.x, m.y, m.z, m.gain, m.invertsPolarity);
}

} // namespace

template <typename Scalar>
template <class Self, class Stream>
void BasicDrumModel<Scalar>::passMembers (Self& self, Stream& stream)
{
    passSetup (stream, self.drumSetup);
    pass (stream, self.realContacts, self.classes, self.combinations, self.keep, self.spring, self.drive, self.lossOfStep,
          self.exactKeep, self.exactSpring, self.exactDrive, self.shapes, self.mobility, self.stretchGradient, self.stretchSpans,
          self.contactResistance, self.stiffness, self.lossRate, self.metric, self.restForce, self.restCompression,
          self.pressureOfAcceleration, self.pressureOfVelocity, self.delays, self.wirePoints, self.upper, self.filmWaves, self.localStretch,
          self.ringShare, self.headBankModes, self.batterShapes, self.radialTable, self.airBankModes, self.wireBankModes,
          self.filmBankModes, self.slowMotion,
          self.ringBankModes, self.fieldModes, self.leadingTerms, self.basisIndex, self.hoopTerms);

    for (auto& group : self.coupling)
        pass (stream, group.firstMode, group.modes);
}

template <typename Scalar>
std::vector<std::byte> BasicDrumModel<Scalar>::write() const
{
    ByteWriter writer;
    passMembers (*this, writer);
    return std::move (writer.written);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::read (std::span<const std::byte> bytes)
{
    ByteReader reader (bytes, "drum model");
    passMembers (*this, reader);
    reader.requireEnd();

    for (std::size_t c = 0; c < coupling.size(); ++c)
    {
        coupling[c].shapes = shapes[c].data();
        coupling[c].mobility = mobility[c].data();
    }
}

template std::vector<std::byte> BasicDrumModel<float>::write() const;
template std::vector<std::byte> BasicDrumModel<double>::write() const;
template void BasicDrumModel<float>::read (std::span<const std::byte>);
template void BasicDrumModel<double>::read (std::span<const std::byte>);

} // namespace engine
