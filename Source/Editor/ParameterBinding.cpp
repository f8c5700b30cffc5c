#include "ParameterBinding.h"

#include "NoteLimits.h"
#include "NoteText.h"
#include "Strings.h"

#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Plugin/DrumRequest.h"
#include "Plugin/ParameterText.h"

#include <cmath>
#include <string_view>

namespace editor
{
namespace
{
using plugin::Measure;
using plugin::Parameter;
using plugin::Processor;

/** The largest of 1, 2, 5 times a power of ten that is at most `value`. */
double roundStep (double value)
{
    const double decade = std::pow (10.0, std::floor (std::log10 (value)));
    return decade * (value >= 5.0 * decade ? 5.0 : value >= 2.0 * decade ? 2.0 : 1.0);
}

void setSteps (ValueBinding& binding, Measure measure)
{
    if (measure == Measure::note || measure == Measure::interval)
    {
        binding.step = 1.0;
        binding.fineStep = 0.05;
    }
    else if (measure == Measure::cents)
    {
        binding.step = 5.0;
        binding.fineStep = 1.0;
    }
    else if (measure == Measure::whole || measure == Measure::choice || measure == Measure::toggle)
        binding.step = binding.fineStep = 1.0;
    else
    {
        binding.step = roundStep ((binding.high - binding.low) / 100.0);
        binding.fineStep = 0.1 * binding.step;
    }
}

double plainOf (Processor& processor, Parameter which)
{
    return processor.parameter (which).plainValue();
}

modal::ConcertPitch pitchOf (Processor& processor)
{
    return { plainOf (processor, Parameter::concertPitch) };
}

double batterFine (Processor& processor)
{
    return 0.01 * plainOf (processor, Parameter::batterCents);
}

double resonantFine (Processor& processor)
{
    return 0.01 * plainOf (processor, Parameter::resonantCents);
}

double batterNote (Processor& processor)
{
    return plainOf (processor, Parameter::batterNote) + batterFine (processor);
}

/** The interval including the fine tuning of both heads. */
double soundingInterval (Processor& processor)
{
    return plainOf (processor, Parameter::interval) + resonantFine (processor) - batterFine (processor);
}

/** The range of the interval. */
NoteLimits::Range intervalsOf (Processor& processor, NoteLimits& limits)
{
    return limits.resonant().movedBy (-plainOf (processor, Parameter::batterNote) - resonantFine (processor));
}

/** The range of the batter's note if the resonant head moves along. */
NoteLimits::Range notesTogether (Processor& processor, NoteLimits& limits)
{
    return limits.batter()
        .movedBy (-batterFine (processor))
        .within (limits.resonant().movedBy (-plainOf (processor, Parameter::interval) - resonantFine (processor)));
}

/** Sets a binding from typed text: a note, a note with cents or a frequency. */
juce::String typeNote (Processor& processor, const juce::String& typed, const juce::String& field, const ValueBinding& binding,
                       NoteLimits& limits, modal::HeadSide side)
{
    try
    {
        const double hertz = files::readNote (plainSigns (typed).toStdString(), pitchOf (processor), field.toStdString());
        const double note = midiOfHertz (hertz, pitchOf (processor));
        if (note < binding.low || note > binding.high)
            return field + " " + typed + strings::outOfReach + noteOfMidi (binding.low) + " - " + noteOfMidi (binding.high);
        if (! (side == modal::HeadSide::batter ? limits.batter() : limits.resonant()).contains (note))
            return field + " " + typed + ". " + limits.sentence (side);
        binding.begin();
        binding.set (note);
        binding.end();
        return {};
    }
    catch (const modal::InputError& refused)
    {
        return juce::String::fromUTF8 (refused.what());
    }
}

/** Moves the batter alone by changing its note and the interval, as one step of undo. */
ValueBinding batterAlone (Processor& processor, const std::shared_ptr<NoteLimits>& limits)
{
    auto start = std::make_shared<std::optional<plugin::Values>>();
    ValueBinding binding;
    const auto& spec = plugin::specOf (Parameter::batterNote);
    binding.low = spec.low;
    binding.high = spec.high;
    setSteps (binding, Measure::note);
    binding.get = [&processor] { return batterNote (processor); };
    binding.toText = [] (double note) { return noteOfMidi (note); };
    binding.limits = [limits] { return limits->sentence (modal::HeadSide::batter); };
    binding.set = [&processor, limits] (double note)
    {
        const double resonant = plainOf (processor, Parameter::batterNote) + plainOf (processor, Parameter::interval);
        const double asked = limits->batter().nearest (note) - batterFine (processor);
        const auto& range = plugin::specOf (Parameter::interval);
        const double set = juce::jlimit (resonant - range.high, resonant - range.low, asked);
        processor.parameter (Parameter::batterNote).setWithoutGesture (set);
        processor.parameter (Parameter::interval).setWithoutGesture (resonant - set);
    };
    const auto current = [&processor]
    {
        plugin::Values values{};
        for (std::size_t i = 0; i < plugin::parameterCount; ++i)
            values[i] = static_cast<float> (processor.parameter (static_cast<Parameter> (i)).plainValue());
        return values;
    };
    binding.begin = [start, current] { *start = current(); };
    binding.end = [start, current, &processor]
    {
        if (! start->has_value())
            return;
        const auto after = current();
        // The undo step records the values before the gesture, so they are restored before it is made.
        for (const auto which : { Parameter::batterNote, Parameter::interval })
            processor.parameter (which).setWithoutGesture (static_cast<double> (plugin::valueOf (**start, which)));
        start->reset();
        processor.setValues (after, strings::batterNote().name);
    };
    binding.type = [&processor, binding, limits] (const juce::String& typed)
    { return typeNote (processor, typed, strings::batterNote().name, binding, *limits, modal::HeadSide::batter); };
    return binding;
}

ValueBinding resonantAlone (Processor& processor, const std::shared_ptr<NoteLimits>& limits)
{
    ValueBinding binding = bindingOf (processor, Parameter::interval);
    binding.limits = [limits] { return limits->sentence (modal::HeadSide::resonant); };
    const auto& spec = plugin::specOf (Parameter::interval);
    const auto& note = plugin::specOf (Parameter::batterNote);
    binding.low = note.low + spec.low;
    binding.high = note.high + spec.high;
    binding.get = [&processor] { return batterNote (processor) + soundingInterval (processor); };
    binding.toText = [] (double midi) { return noteOfMidi (midi); };
    binding.set = [&processor, setInterval = binding.set] (double midi)
    { setInterval (midi - plainOf (processor, Parameter::batterNote) - resonantFine (processor)); };
    binding.type = [&processor, binding, limits] (const juce::String& typed)
    { return typeNote (processor, typed, strings::resonantNote().name, binding, *limits, modal::HeadSide::resonant); };
    return binding;
}

/** Moves both heads so that the finished drum has a note; the interval stays. */
class DrumNote
{
public:
    explicit DrumNote (Processor& p) : processor (p) {}

    /** MIDI note number; as set, until the drum has been solved. */
    double get() const
    {
        const auto solved = processor.solvedDrum();
        if (solved == nullptr || solved == solvedWhenSet)
            return note;
        return midiOfHertz (solved->prediction.drumNote, pitchOf (processor));
    }

    void set (double asked)
    {
        if (asked == note && processor.solvedDrum() == solvedWhenSet)
            return;
        try
        {
            const auto request = plugin::requestOf (processor.effectiveValues());
            modal::Tuning tuning = request.tuning;
            tuning.target = modal::ByDrumNote{ hertzOfMidi (asked, pitchOf (processor)), { soundingInterval (processor) } };
            const double tap =
                modal::tapNote (request.drum, modal::HeadSide::batter, modal::tensionsFor (request.drum, tuning).batter);
            const double batter = midiOfHertz (tap, pitchOf (processor)) - batterFine (processor);
            const auto& range = plugin::specOf (Parameter::batterNote);
            if (batter < range.low || batter > range.high)
                throw modal::InputError (range.name, noteOfMidi (batter).toStdString(),
                                         (noteOfMidi (range.low) + " to " + noteOfMidi (range.high)).toStdString());
            processor.parameter (Parameter::batterNote).setWithoutGesture (batter);
            refusal = {};
            note = asked;
            solvedWhenSet = processor.solvedDrum();
        }
        catch (const modal::InputError& refused)
        {
            refusal = juce::String::fromUTF8 (refused.what());
        }
    }

    juce::String refusal; ///< of the last note that was set; empty if it was taken

private:
    Processor& processor;
    double note = 0.0;
    std::shared_ptr<const plugin::SolvedDrum> solvedWhenSet;
};

ValueBinding drumNoteOf (Processor& processor)
{
    auto drum = std::make_shared<DrumNote> (processor);
    auto binding = bindingOf (processor, Parameter::batterNote);
    binding.low -= 12.0; // the drum note may be below the batter's
    binding.get = [drum] { return drum->get(); };
    binding.set = [drum] (double note) { drum->set (note); };
    binding.toText = [] (double note) { return noteOfMidi (note); };
    binding.limits = [drum] { return drum->refusal; };
    binding.type = [drum, binding, &processor] (const juce::String& typed)
    {
        try
        {
            const double hertz = files::readNote (plainSigns (typed).toStdString(), pitchOf (processor),
                                                  strings::drumNoteHandle().name.toStdString());
            binding.begin();
            drum->set (midiOfHertz (hertz, pitchOf (processor)));
            binding.end();
            return drum->refusal;
        }
        catch (const modal::InputError& refused)
        {
            return juce::String::fromUTF8 (refused.what());
        }
    };
    return binding;
}

/** Limits a tuning parameter to the heads' range. */
void keepWithinReach (Processor& processor, Parameter which, ValueBinding& binding)
{
    auto limits = std::make_shared<NoteLimits> (processor);
    const auto range = [&processor, which, limits]
    { return which == Parameter::interval ? intervalsOf (processor, *limits) : notesTogether (processor, *limits); };
    binding.limits = [&processor, which, limits]
    {
        const auto batter = limits->batter().movedBy (-batterFine (processor));
        const bool isBatter = which == Parameter::batterNote && (processor.parameter (Parameter::bottom).plainValue() >= 0.5 ||
                                                                 notesTogether (processor, *limits).high >= batter.high);
        return limits->sentence (isBatter ? modal::HeadSide::batter : modal::HeadSide::resonant);
    };
    binding.set = [set = binding.set, range] (double plain) { set (range().nearest (plain)); };
    binding.type = [&processor, which, type = binding.type, range, limits = binding.limits] (const juce::String& typed)
    {
        const auto& parameter = processor.parameter (which);
        try
        {
            const auto value = plugin::valueFrom (plainSigns (typed).toStdString(), parameter.spec(), pitchOf (processor).a4);
            if (! range().contains (value))
                return juce::String (parameter.spec().name) + " " + typed + ". " + limits();
        }
        catch (const modal::InputError& refused)
        {
            return juce::String::fromUTF8 (refused.what());
        }
        return type (typed);
    };
}

} // namespace

juce::String shownValue (const plugin::DrumParameter& parameter, double plain)
{
    const auto& spec = parameter.spec();
    const bool isInches = spec.measure == Measure::quantity && std::string_view (spec.unit().symbol) == "in";
    const auto text = parameter.textOf (isInches ? 0.01 * std::round (100.0 * plain) : plain);
    return spec.measure == Measure::note ? withMusicSigns (text) : text;
}

ValueBinding bindingOf (Processor& processor, Parameter which)
{
    auto& parameter = processor.parameter (which);
    const auto& spec = parameter.spec();
    ValueBinding binding;
    binding.low = spec.low;
    binding.high = spec.high;
    setSteps (binding, spec.measure);
    binding.get = [&parameter] { return parameter.plainValue(); };
    binding.set = [&parameter] (double plain) { parameter.setWithoutGesture (plain); };
    binding.toText = [&parameter] (double plain) { return shownValue (parameter, plain); };
    binding.type = [&parameter] (const juce::String& typed) { return parameter.setText (plainSigns (typed)); };
    binding.begin = [&parameter] { parameter.beginChangeGesture(); };
    binding.end = [&parameter] { parameter.endChangeGesture(); };
    if (which == Parameter::batterNote || which == Parameter::interval)
        keepWithinReach (processor, which, binding);
    return binding;
}

ControlText textOf (const plugin::ParameterSpec& spec)
{
    const auto unit = [&]() -> juce::String
    {
        switch (spec.measure)
        {
        case Measure::quantity:
            return *spec.unit().symbol != 0 ? juce::String::fromUTF8 (spec.unit().symbol) : "number";
        case Measure::note:
            return "note";
        case Measure::interval:
            return "semitones";
        case Measure::cents:
            return "cents";
        case Measure::decibels:
            return "dB";
        case Measure::pan:
            return "left to right";
        case Measure::whole:
            return "count";
        case Measure::choice:
            return "name";
        case Measure::toggle:
            return "on or off";
        }
        return {};
    };
    return { juce::String (spec.name), unit(), strings::tipFor (spec.id) };
}

LadderView::Bindings ladderBindings (Processor& processor)
{
    auto interval = bindingOf (processor, Parameter::interval);
    interval.get = [&processor] { return soundingInterval (processor); };
    interval.set = [&processor, set = interval.set] (double semitones)
    { set (semitones - resonantFine (processor) + batterFine (processor)); };
    const auto limits = std::make_shared<NoteLimits> (processor);
    return { batterAlone (processor, limits), resonantAlone (processor, limits), interval,
             bindingOf (processor, Parameter::batterNote), drumNoteOf (processor) };
}

} // namespace editor
