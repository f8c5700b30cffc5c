#include "Find.h"

#include "Parallel.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <set>

namespace finding
{

namespace
{

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double fineStep = 5.0; // cents between tunings that are looked at
constexpr double met = 0.5;      // steps: what rounding and interpolation may leave
constexpr double alike = 50.0;   // cents: two tunings whose heads are all nearer than that are of one kind
constexpr double asNear = 2.0;   // steps: as near to a wish as the nearest
constexpr std::size_t mostGivenUp = 3;

using Mask = std::uint32_t;

MapArea areaOf (const Ground& ground)
{
    return ground.within.value_or (ground.map.area());
}

/** All tunings that are looked at, with what they miss. */
class Field
{
public:
    Field (const Ground& ground, const std::vector<Wish>& wished)
        : wishes (wished), batter (finelyBetween (areaOf (ground).batter, ground.present ? ground.present->batterNote : 0.0)),
          resonant (finelyBetween (areaOf (ground).resonant, ground.present ? ground.present->resonantNote : 0.0)),
          misses (batter.size() * resonant.size() * wishes.size()), rings (batter.size() * resonant.size())
    {
        inParallel (
            batter.size(), 0,
            [&] (std::size_t b)
            {
                for (std::size_t r = 0; r < resonant.size(); ++r)
                {
                    const auto figures = figuresAt (ground, batter[b], resonant[r]);
                    const auto cell = b * resonant.size() + r;
                    rings[cell] = static_cast<float> (of (figures, Figure::ring));

                    for (std::size_t w = 0; w < wishes.size(); ++w)
                        misses[cell * wishes.size() + w] =
                            static_cast<float> (missOf (wishes[w], of (figures, wishes[w].figure)));
                }
            },
            std::atomic<bool> (false));

        for (std::size_t cell = 0; cell < size(); ++cell)
            if (isTuning (cell))
                masks.insert (maskOf (cell));
    }

    std::size_t size() const noexcept { return rings.size(); }
    double batterAt (std::size_t cell) const { return batter[cell / resonant.size()]; }
    double resonantAt (std::size_t cell) const { return resonant[cell % resonant.size()]; }
    double ringAt (std::size_t cell) const { return rings[cell]; }
    double missAt (std::size_t cell, std::size_t wish) const { return std::abs (misses[cell * wishes.size() + wish]); }

    /** Whether the drum has a drum note there. */
    bool isTuning (std::size_t cell) const { return ! std::isnan (rings[cell]); }

    /** A bit for each wish that is met. */
    Mask maskOf (std::size_t cell) const
    {
        Mask mask = 0;

        for (std::size_t w = 0; w < wishes.size(); ++w)
            mask |= missAt (cell, w) <= met ? Mask{ 1 } << w : Mask{ 0 };

        return mask;
    }

    /** Whether some tuning meets all of these. */
    bool areMetTogether (Mask wanted) const
    {
        return std::any_of (masks.begin(), masks.end(), [wanted] (Mask mask) { return (mask & wanted) == wanted; });
    }

    /** The tuning with the least score; none if all are infinite. */
    std::optional<std::size_t> least (const std::function<double (std::size_t)>& score) const
    {
        std::optional<std::size_t> best;
        double lowest = infinite;

        for (std::size_t cell = 0; cell < size(); ++cell)
            if (isTuning (cell))
                if (const double value = score (cell); value < lowest)
                {
                    lowest = value;
                    best = cell;
                }

        return best;
    }

    /** Squares of the misses of all wishes but one. */
    double missesBut (std::size_t cell, std::size_t left) const
    {
        constexpr double unknown = 1.0e5; // steps, of a figure that is not known or endless
        double sum = 0.0;

        for (std::size_t w = 0; w < wishes.size(); ++w)
            if (w != left)
                sum += std::pow (std::min (missAt (cell, w), unknown), 2);

        return sum;
    }

private:
    static std::vector<double> finelyBetween (modal::NoteRange range, double also)
    {
        auto notes = notesBetween (range, fineStep);

        if (also > range.lowest && also < range.highest)
            notes.insert (std::lower_bound (notes.begin(), notes.end(), also), also);

        return notes;
    }

    const std::vector<Wish>& wishes;
    std::vector<double> batter, resonant;
    std::vector<float> misses; ///< the wish runs fastest
    std::vector<float> rings;  ///< NaN where there is no tuning
    std::set<Mask> masks;      ///< that occur
};

/** Builds the list: adds tunings that differ from those on it. */
class Listing
{
public:
    Listing (const Ground& theGround, const std::vector<Wish>& wished, const Field& theField, Mask allWishes)
        : ground (theGround), wishes (wished), field (theField), all (allWishes)
    {
    }

    /** Adds a tuning unless one of its kind is on the list, or it is full. */
    void add (const std::string& kind, std::optional<std::size_t> cell)
    {
        if (! cell || found.size() == mostFound ||
            std::any_of (found.begin(), found.end(), [&] (const FoundTuning& other) { return isLike (other, *cell); }))
            return;

        auto tuning = solvedAt (field.batterAt (*cell), field.resonantAt (*cell));

        if (field.maskOf (*cell) == all)
            bringWithin (tuning);

        tuning.kind = kind;

        if (ground.played != nullptr)
            ground.played->play (tuning.figures, ground.tuner, tuning.batterNote, tuning.resonantNote);

        tuning.misses = missesOf (tuning.figures);
        found.push_back (std::move (tuning));
    }

    /** Whether a tuning on the list is as near to a wish as the drum can come. */
    bool covers (std::size_t wish, double best) const
    {
        return std::any_of (found.begin(), found.end(),
                            [&] (const FoundTuning& tuning) { return std::abs (tuning.misses[wish]) <= best + asNear + met; });
    }

    std::vector<FoundTuning> found;

private:
    std::vector<double> missesOf (const Figures& figures) const
    {
        std::vector<double> misses;

        for (const auto& wish : wishes)
        {
            const double miss = missOf (wish, of (figures, wish.figure));
            misses.push_back (std::abs (miss) <= met ? 0.0 : miss);
        }

        return misses;
    }

    FoundTuning solvedAt (double batterNote, double resonantNote) const
    {
        FoundTuning tuning;
        tuning.batterNote = batterNote;
        tuning.resonantNote = resonantNote;
        tuning.figures = figuresOf (ground.tuner, ground.solver, batterNote, resonantNote, ground.present);
        addBeyondMap (tuning.figures, batterNote, resonantNote, ground.played, ground.place);
        return tuning;
    }

    double totalMiss (const FoundTuning& tuning) const
    {
        double sum = 0.0;

        for (const double miss : missesOf (tuning.figures))
            sum += miss * miss;

        return sum;
    }

    /** Moves a tuning that meets the wishes between solved tunings of the map, but not quite when solved itself, by a few cents.
     */
    void bringWithin (FoundTuning& tuning) const
    {
        for (double step = 10.0; step > 1.0 && totalMiss (tuning) > 0.0; step *= 0.5) // cents
            for (const double batter : { -step, 0.0, step })
                for (const double resonant : { -step, 0.0, step })
                    if (const double b = tuning.batterNote * std::exp2 (batter / 1200.0),
                        r = tuning.resonantNote * std::exp2 (resonant / 1200.0);
                        areaOf (ground).contains (b, r))
                        if (auto moved = solvedAt (b, r); totalMiss (moved) < totalMiss (tuning))
                            tuning = std::move (moved);
    }

    bool isLike (const FoundTuning& tuning, std::size_t cell) const
    {
        return std::abs (modal::centsBetween (tuning.batterNote, field.batterAt (cell))) < alike &&
               std::abs (modal::centsBetween (tuning.resonantNote, field.resonantAt (cell))) < alike;
    }

    const Ground& ground;
    const std::vector<Wish>& wishes;
    const Field& field;
    Mask all;
};

/** Steps from the nearest limit of a wish, for a value within. */
double roomIn (const Wish& wish, double value)
{
    double room = 0.0;

    for (const auto& range : wish.ranges)
        if (value >= range.low && value <= range.high)
        {
            const double below = std::isinf (range.low) ? infinite : stepsBetween (wish.figure, range.low, value);
            const double above = std::isinf (range.high) ? infinite : stepsBetween (wish.figure, value, range.high);
            room = std::max (room, std::min (below, above));
        }

    return room;
}

void listThoseThatMeetAll (Listing& listing, const Ground& ground, const std::vector<Wish>& wishes, const Field& field, Mask all)
{
    const auto among = [&] (const std::function<double (std::size_t)>& score)
    { return field.least ([&] (std::size_t cell) { return field.maskOf (cell) == all ? score (cell) : infinite; }); };
    const auto intervalAt = [&] (std::size_t cell)
    { return modal::centsBetween (field.batterAt (cell), field.resonantAt (cell)); };

    if (ground.present)
        listing.add ("least to turn",
                     among (
                         [&] (std::size_t cell)
                         {
                             return std::abs (modal::centsBetween (ground.present->batterNote, field.batterAt (cell))) +
                                    std::abs (modal::centsBetween (ground.present->resonantNote, field.resonantAt (cell)));
                         }));

    if (! wishes.empty())
        listing.add ("well within the wishes", among (
                                                   [&] (std::size_t cell)
                                                   {
                                                       const auto figures =
                                                           figuresAt (ground, field.batterAt (cell), field.resonantAt (cell));
                                                       double room = 1.0e4;

                                                       for (const auto& wish : wishes)
                                                           room = std::min (room, roomIn (wish, of (figures, wish.figure)));

                                                       return -room;
                                                   }));

    listing.add ("widest interval", among ([&] (std::size_t cell) { return -intervalAt (cell); }));
    listing.add ("narrowest interval", among (intervalAt));
    listing.add ("longest ring", among ([&] (std::size_t cell) { return -field.ringAt (cell); }));
    listing.add ("shortest ring", among ([&] (std::size_t cell) { return field.ringAt (cell); }));
}

void listThoseThatMissLeast (Listing& listing, const std::vector<Wish>& wishes, const Field& field, Mask all)
{
    struct GivenUp
    {
        std::size_t wish, cell;
    };
    std::vector<GivenUp> givenUp;
    std::vector<double> best (wishes.size(), infinite);

    for (std::size_t w = 0; w < wishes.size(); ++w)
    {
        const auto others = all & ~(Mask{ 1 } << w);
        const auto nearest = field.least ([&] (std::size_t cell) { return field.missAt (cell, w); });
        best[w] = nearest ? field.missAt (*nearest, w) : infinite;

        if (! field.areMetTogether (others))
            continue;

        if (const auto cell = field.least ([&] (std::size_t c)
                                           { return (field.maskOf (c) & others) == others ? field.missAt (c, w) : infinite; }))
            givenUp.push_back ({ w, *cell });
    }

    std::stable_sort (givenUp.begin(), givenUp.end(),
                      [&] (const GivenUp& a, const GivenUp& b)
                      { return field.missAt (a.cell, a.wish) < field.missAt (b.cell, b.wish); });

    for (std::size_t i = 0; i < std::min (givenUp.size(), mostGivenUp); ++i)
        listing.add ("all but " + wishes[givenUp[i].wish].text, givenUp[i].cell);

    for (std::size_t w = 0; w < wishes.size(); ++w)
        if (std::isfinite (best[w]) && ! listing.covers (w, best[w]))
            listing.add (
                (best[w] > 0.0 ? "nearest to " : "keeps ") + wishes[w].text,
                field.least ([&] (std::size_t cell)
                             { return field.missAt (cell, w) <= best[w] + asNear ? field.missesBut (cell, w) : infinite; }));

    listing.add ("best compromise", field.least ([&] (std::size_t cell) { return field.missesBut (cell, wishes.size()); }));
}

/** The smallest sets that exclude each other: single wishes, pairs, triples; else one set from which none can be left out. */
std::vector<Mask> excludingSets (const Field& field, std::size_t count, Mask all)
{
    std::vector<Mask> sets;
    const auto consider = [&] (Mask wanted)
    {
        const bool holdsSmaller = std::any_of (sets.begin(), sets.end(), [wanted] (Mask set) { return (wanted & set) == set; });

        if (! holdsSmaller && ! field.areMetTogether (wanted))
            sets.push_back (wanted);
    };
    const auto bit = [] (std::size_t w) { return Mask{ 1 } << w; };

    for (std::size_t i = 0; i < count; ++i)
        consider (bit (i));

    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i + 1; j < count; ++j)
            consider (bit (i) | bit (j));

    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i + 1; j < count; ++j)
            for (std::size_t k = j + 1; k < count; ++k)
                consider (bit (i) | bit (j) | bit (k));

    if (sets.empty() && ! field.areMetTogether (all))
    {
        Mask left = all;

        for (std::size_t i = 0; i < count; ++i)
            if (! field.areMetTogether (left & ~bit (i)))
                left &= ~bit (i);

        sets.push_back (left);
    }

    return sets;
}

Conflict conflictOf (const Ground& ground, const Field& field, const std::vector<Wish>& wishes, Mask set)
{
    Conflict conflict;

    for (std::size_t w = 0; w < wishes.size(); ++w)
        if (set & (Mask{ 1 } << w))
        {
            const auto others = set & ~(Mask{ 1 } << w);
            const auto cell = field.least ([&] (std::size_t c)
                                           { return (field.maskOf (c) & others) == others ? field.missAt (c, w) : infinite; });
            conflict.wishes.push_back (w);
            conflict.nearest.push_back (
                cell ? of (figuresAt (ground, field.batterAt (*cell), field.resonantAt (*cell)), wishes[w].figure)
                     : std::numeric_limits<double>::quiet_NaN());
        }

    return conflict;
}

void checkWishes (const Ground& ground, const std::vector<Wish>& wishes)
{
    if (wishes.size() > mostWishes)
        throw modal::InputError ("wishes", std::to_string (wishes.size()), "at most " + std::to_string (mostWishes));

    if (needsPlaying (wishes) && ground.played == nullptr)
        throw modal::InputError::fault ("wishes", "ask for what only strokes show", "a map of played strokes");

    for (const auto& wish : wishes)
    {
        if (wish.figure == Figure::lasts && ground.place == nullptr)
            throw modal::InputError::fault (infoOf (wish.figure).name, "has no place to be heard in", "a place");

        if ((wish.figure == Figure::batterMove || wish.figure == Figure::resonantMove) && ! ground.present)
            throw modal::InputError::fault (infoOf (wish.figure).name, "has nothing to count from",
                                            "the present tap notes of both heads");
    }
}

} // namespace

void addBeyondMap (Figures& figures, double batterNote, double resonantNote, const PlayedMap* played,
                   const place::NoteAtListener* place)
{
    if (place != nullptr)
        of (figures, Figure::lasts) = place->lasts (of (figures, Figure::drumNote), of (figures, Figure::ring));

    if (played != nullptr)
        played->addTo (figures, batterNote, resonantNote);
}

Figures figuresAt (const Ground& ground, double batterNote, double resonantNote)
{
    auto figures = ground.map.at (batterNote, resonantNote, ground.present);
    addBeyondMap (figures, batterNote, resonantNote, ground.played, ground.place);
    return figures;
}

MapArea areaFor (const std::vector<Wish>& wishes, const MapArea& whole, const MapArea& prudent)
{
    return { isWished (wishes, Figure::batterStrength) ? whole.batter : prudent.batter,
             isWished (wishes, Figure::resonantStrength) ? whole.resonant : prudent.resonant };
}

bool FoundTuning::meetsAll() const
{
    return std::all_of (misses.begin(), misses.end(), [] (double miss) { return miss == 0.0; });
}

bool isWished (const std::vector<Wish>& wishes, Figure figure)
{
    return std::any_of (wishes.begin(), wishes.end(), [figure] (const Wish& wish) { return wish.figure == figure; });
}

bool needsPlaying (const std::vector<Wish>& wishes)
{
    return std::any_of (wishes.begin(), wishes.end(), [] (const Wish& wish) { return infoOf (wish.figure).isPlayed; });
}

bool meetsAll (const Figures& figures, const std::vector<Wish>& wishes)
{
    return std::all_of (wishes.begin(), wishes.end(),
                        [&] (const Wish& wish) { return std::abs (missOf (wish, of (figures, wish.figure))) <= met; });
}

FindResult find (const Ground& ground, const std::vector<Wish>& wishes)
{
    checkWishes (ground, wishes);
    const Field field (ground, wishes);
    const auto all = static_cast<Mask> ((std::uint64_t{ 1 } << wishes.size()) - 1);
    Listing listing (ground, wishes, field, all);
    FindResult result;
    result.areAllMet = field.areMetTogether (all);

    if (result.areAllMet)
    {
        listThoseThatMeetAll (listing, ground, wishes, field, all);
    }
    else
    {
        listThoseThatMissLeast (listing, wishes, field, all);

        for (const auto set : excludingSets (field, wishes.size(), all))
            result.conflicts.push_back (conflictOf (ground, field, wishes, set));
    }

    result.list = std::move (listing.found);
    return result;
}

} // namespace finding
