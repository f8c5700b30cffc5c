#include "HeadText.h"

#include "Fields.h"
#include "NearestWord.h"
#include "PartPresets.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <cctype>
#include <cmath>

namespace files
{

using Head = modal::HeadConstruction;

namespace
{
/** The words of a line; a number and a unit that stand apart count as one word. */
class Words
{
public:
    explicit Words (std::string_view line)
    {
        std::string word;

        for (const char c : std::string (line) + ' ')
        {
            if (c != ' ' && c != '\t' && c != ',')
                word += c;
            else if (! word.empty())
                add (std::exchange (word, {}));
        }
    }

    bool atEnd() const { return next == words.size(); }
    std::string take() { return atEnd() ? std::string() : words[next++]; }

private:
    void add (std::string word)
    {
        if (! words.empty() && isBareNumber (words.back()))
            words.back() += word;
        else
            words.push_back (std::move (word));
    }

    static bool isBareNumber (std::string_view word)
    {
        return modal::takeNumber (word).has_value() && (word.empty() || word == "x");
    }

    std::vector<std::string> words;
    std::size_t next = 0;
};

std::string spelled (double value, const Quantity& quantity)
{
    const auto spelling = spell (value, quantity);
    return modal::exactText (spelling.value) + spelling.unit->symbol;
}
} // namespace

void setArealDensity (modal::HeadConstruction& head, double density, const std::string& field)
{
    const auto& limits = modal::numberOf (&Head::plyThickness);
    const auto perMetre = head.plies * modal::Film::density;
    const auto thickness = (density - head.coatingDensity) / perMetre;

    if (! (thickness >= limits.low && thickness <= limits.high))
        throw modal::InputError (field, modal::asText (density) + " kg/m2",
                                 modal::asText (head.coatingDensity + limits.low * perMetre, 4) + " to " +
                                     modal::asText (head.coatingDensity + limits.high * perMetre, 4) + " kg/m2");

    head.plyThickness = thickness;
}

namespace
{
/** A word that begins with a letter names a preset. */
bool isName (const std::string& word)
{
    return ! word.empty() && std::isalpha (static_cast<unsigned char> (word.front())) != 0;
}

const modal::HeadConstruction& namedHead (const std::string& name, const std::string& field)
{
    if (const auto* preset = findPart (headPresets(), name))
        return preset->part;

    throw modal::InputError (field, '"' + name + '"',
                             "a thickness such as 10mil, an areal density, or a head by name: " +
                                 listedFor (name, namesOf (headPresets())));
}

/** Film and plies, or the areal density of the whole head instead. */
std::optional<double> readFilm (std::string film, modal::HeadConstruction& head, const std::string& field)
{
    if (film.starts_with ("2x") || film.starts_with ("1x"))
    {
        head.plies = film[0] - '0';
        film.erase (0, 2);
    }

    const auto density = takeQuantity (film, Quantity::arealDensity);

    if (! density)
        head.plyThickness = readQuantity (film, &Head::plyThickness, field);

    return density;
}

/** A ply's thickness, or the areal density of the whole head where no unit says the thickness in a few digits. */
std::string filmText (const modal::HeadConstruction& head)
{
    // Heads are sold by the mil, in whatever unit one was given.
    const auto mils = head.plyThickness / modal::units::mil, wholeMils = std::round (mils);

    if (std::abs (mils - wholeMils) < 1.0e-6)
        return modal::asText (wholeMils) + "mil";

    const auto isOdd = spell (head.plyThickness, Quantity::thickness).unit == &Quantity::thickness.si();
    return isOdd ? modal::asText (head.baseDensity()) + Quantity::arealDensity.si().symbol
                 : spelled (head.plyThickness, Quantity::thickness);
}
} // namespace

modal::HeadConstruction readHeadText (std::string_view text, const std::string& field)
{
    Words words (text);
    const auto first = words.take();
    modal::HeadConstruction head;
    std::optional<double> density;

    if (isName (first))
        head = namedHead (first, field);
    else
        density = readFilm (first, head, field);

    while (! words.atEnd())
    {
        const auto word = words.take();

        if (word == "coated")
            head.coatingDensity = usualCoating;
        else if (word == "coating")
            head.coatingDensity = readQuantity (words.take(), &Head::coatingDensity, field + ", coating");
        else if (word == "dot")
        {
            head.dotDiameter = readQuantity (words.take(), &Head::dotDiameter, field + ", diameter of the dot");
            head.dotThickness = readQuantity (words.take(), &Head::dotThickness, field + ", thickness of the dot");
        }
        else if (word == "ring")
        {
            head.ringWidth = readQuantity (words.take(), &Head::ringWidth, field + ", width of the ring");
            head.ringThickness = readQuantity (words.take(), &Head::ringThickness, field + ", thickness of the ring");
        }
        else if (word != "clear")
            throw modal::InputError (field, '"' + word + '"', "coated, clear, coating 30g/m2, dot 100mm 7mil, ring 25mm 10mil");
    }

    if (density)
        setArealDensity (head, inLimits (*density, Quantity::arealDensity.si(), limitsOf (modal::arealDensityRange), field),
                         field);

    return head;
}

std::string headText (const modal::HeadConstruction& head)
{
    auto text = (head.plies == 1 ? "" : std::to_string (head.plies) + "x") + filmText (head);

    if (head.coatingDensity == usualCoating)
        text += " coated";
    else if (head.coatingDensity > 0.0)
        text += " coating " + spelled (head.coatingDensity, Quantity::arealDensity);

    if (head.dotDiameter > 0.0)
        text += " dot " + spelled (head.dotDiameter, Quantity::length) + " " + spelled (head.dotThickness, Quantity::thickness);

    if (head.ringWidth > 0.0)
        text += " ring " + spelled (head.ringWidth, Quantity::length) + " " + spelled (head.ringThickness, Quantity::thickness);

    return text;
}

} // namespace files
