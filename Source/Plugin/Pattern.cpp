#include "Pattern.h"

#include "Files/ObjectReader.h"
#include "Score/PatternText.h"

#include "Modal/InputError.h"

namespace plugin
{
namespace
{
const char* const format = "snarewright-pattern";
constexpr int version = 1;
constexpr std::size_t longestText = 1024;

/** A beat lasts a second at this tempo, so that seconds are beats. */
constexpr double beatASecond = 60.0;

template <class Value>
Value required (std::optional<Value> value, const files::ObjectReader& reader, const char* key, const char* allowed)
{
    if (! value)
        throw modal::InputError (reader.pathOf (key), "a missing value", allowed);
    return *value;
}
} // namespace

Pattern readPattern (const std::string& text, const std::string& source)
{
    const auto document = files::parseJson (text, source);
    files::ObjectReader reader (document, source);
    required (reader.choice ("format", { format }), reader, "format", format);
    required (reader.count ("version", version, version), reader, "version", "1");

    Pattern pattern;
    pattern.name = required (reader.text ("name"), reader, "name", "a name");
    pattern.formerName = reader.text ("former_name").value_or ("");
    pattern.stepsPerBeat = required (reader.count ("steps_per_beat", 1, 16), reader, "steps_per_beat", "1 to 16");
    const score::PatternTempo tempo{ beatASecond, pattern.stepsPerBeat };
    pattern.text = required (reader.text ("text"), reader, "text", "strokes and rests");
    reader.finish();

    if (pattern.text.size() > longestText)
        throw modal::InputError (reader.pathOf ("text"), std::to_string (pattern.text.size()) + " letters",
                                 "at most 1024 letters");

    pattern.strokes = score::readPattern (pattern.text, tempo, reader.pathOf ("text"));
    pattern.beats = score::patternLength (pattern.text, tempo);
    return pattern;
}

} // namespace plugin
