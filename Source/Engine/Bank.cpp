#include "Bank.h"

#include "FilmUnderWire.h"
#include "KernelView.h"
#include "Rings.h"
#include "WireModes.h"

#include <array>
#include <cmath>

namespace engine
{
namespace
{

/** Head modes whose coupling to the wires is below this share of the strongest (-40 dB) are not coupled to them. */
constexpr double weakestCoupling = 1.0e-2;

struct Candidate
{
    BankEntry entry;
    int parityClass = 0;
    bool isWired = false;
    Eigen::VectorXd shape;
};

int parityClassOf (const modal::Mode& mode)
{
    const bool oddInY = mode.parity == modal::Parity::sine;
    const bool oddInX = oddInY ? mode.m % 2 == 0 : mode.m % 2 == 1;
    return (oddInY ? 1 : 0) + (oddInX ? 2 : 0);
}

/** Positions of the wire contacts: the quadrant x, y > 0 if the layout is symmetric, otherwise all four in the order ++, +-, -+,
   --. */
struct WireLayout
{
    const StrandGeometry& strands;
    bool isSymmetric;

    int quadrantSize() const { return strands.halfPoints() * strands.pairs(); }
    int contacts() const { return quadrantSize() * (isSymmetric ? 1 : 4); }
    double signX (int contact) const { return contact / quadrantSize() < 2 ? 1.0 : -1.0; }
    double signY (int contact) const { return (contact / quadrantSize()) % 2 == 0 ? 1.0 : -1.0; }
    double x (int contact) const { return signX (contact) * strands.pointX ((contact % quadrantSize()) / strands.pairs()); }
    double y (int contact) const { return signY (contact) * strands.strandY (contact % strands.pairs()); }
    /** Factor from the motion at one contact to that of the normalised combination of its four mirror images. */
    double combinationFactor() const { return isSymmetric ? 2.0 : 1.0; }
};

std::vector<Candidate> headCandidates (const DrumSetup& setup, const WireLayout* layout)
{
    const auto& modes = setup.modes;
    Eigen::MatrixXd coupling (layout != nullptr ? layout->contacts() : 0, modes.size());
    for (int i = 0; i < coupling.rows(); ++i)
        coupling.row (i) = -layout->combinationFactor() * modes.resonantShapeAt (std::hypot (layout->x (i), layout->y (i)),
                                                                                 std::atan2 (layout->y (i), layout->x (i)));
    const double strongest = coupling.size() > 0 ? coupling.cwiseAbs().maxCoeff() : 0.0;

    std::vector<Candidate> candidates;
    for (int k = 0; k < modes.size(); ++k)
    {
        const auto& mode = modes.modes[static_cast<std::size_t> (k)];
        if (mode.frequency > highestShareOfRate * setup.sampleRate)
            continue;
        Candidate c;
        c.entry.kind = BankEntry::Kind::head;
        c.entry.drumMode = k;
        c.entry.frequency = mode.frequency;
        c.entry.recursion = ModalRecursion::from (mode.frequency, mode.decay.total(), 1.0 / setup.sampleRate);
        if (layout != nullptr)
        {
            c.parityClass = layout->isSymmetric ? parityClassOf (mode) : 0;
            c.shape = layout->strands.groupShare (mode.frequency) * coupling.col (k);
            c.isWired = coupling.col (k).cwiseAbs().maxCoeff() > weakestCoupling * strongest;
        }
        candidates.push_back (std::move (c));
    }
    return candidates;
}

/** In the order of the parity classes, whether the drum is symmetric or not. */
std::vector<Candidate> wireCandidates (const DrumSetup& setup, const WireLayout& layout)
{
    std::vector<Candidate> candidates;
    for (int parity = 0; parity < maxCouplingClasses; ++parity)
    {
        const bool isOddInY = (parity & 1) != 0, isOddInX = (parity & 2) != 0;
        for (const auto& mode : solveWireModes (layout.strands, setup.wires, { isOddInX, isOddInY }))
        {
            if (mode.frequency > highestShareOfRate * setup.sampleRate)
                continue;
            Candidate c;
            c.entry.kind = BankEntry::Kind::wires;
            c.entry.frequency = mode.frequency;
            c.entry.recursion = ModalRecursion::from (mode.frequency, mode.decay, 1.0 / setup.sampleRate);
            c.parityClass = layout.isSymmetric ? parity : 0;
            c.isWired = true;
            c.shape.resize (layout.contacts());
            for (int i = 0; i < layout.contacts(); ++i)
                c.shape[i] = layout.combinationFactor() * mode.shape[i % layout.quadrantSize()] *
                             (isOddInY ? layout.signY (i) : 1.0) * (isOddInX ? layout.signX (i) : 1.0);
            candidates.push_back (std::move (c));
        }
    }
    return candidates;
}

/** One for each contact, as combinations of the four quadrants like everything that the wires touch. */
std::vector<Candidate> filmCandidates (const DrumSetup& setup, const WireLayout& layout)
{
    const auto film = filmUnderWire (setup);
    std::vector<Candidate> candidates;
    if (! film.hasWave)
        return candidates;
    Candidate c;
    c.entry.kind = BankEntry::Kind::film;
    c.entry.frequency = film.waveFrequency;
    c.entry.recursion = ModalRecursion::from (film.waveFrequency, film.waveDecay, 1.0 / setup.sampleRate);
    c.isWired = true;
    for (c.parityClass = 0; c.parityClass < (layout.isSymmetric ? 4 : 1); ++c.parityClass)
        for (int contact = 0; contact < layout.contacts(); ++contact)
        {
            c.shape = film.waveShape * Eigen::VectorXd::Unit (layout.contacts(), contact);
            candidates.push_back (c);
        }
    return candidates;
}

void pad (std::vector<BankEntry>& entries)
{
    while (entries.size() % tileModes != 0)
        entries.emplace_back();
}

int roundUp (int count, int step)
{
    return (count + step - 1) / step * step;
}

} // namespace

Bank buildBank (const DrumSetup& setup)
{
    Bank bank;
    const bool wired = setup.wires.on && setup.modes.bottom == modal::Bottom::head;
    std::optional<WireLayout> layout;
    if (wired)
    {
        const auto& detail = setup.wireDetail;
        bank.strands.emplace (setup.wires, 2.0 * setup.modes.radius, detail.strands, detail.points, detail.modes);
        layout.emplace (WireLayout{ *bank.strands, setup.modes.isUniform });
        bank.contactsInQuadrant = layout->contacts();
        bank.combinations = roundUp (bank.contactsInQuadrant, tileModes);
    }

    auto candidates = headCandidates (setup, layout ? &*layout : nullptr);
    if (layout)
        for (auto* make : { wireCandidates, filmCandidates })
            for (auto& candidate : make (setup, *layout))
                candidates.push_back (std::move (candidate));

    const int classCount = layout ? (layout->isSymmetric ? 4 : 1) : 0;
    for (int group = 0; group < classCount; ++group)
    {
        BankClass members;
        members.first = bank.size();
        std::vector<const Eigen::VectorXd*> shapes;
        for (const auto& c : candidates)
            if (c.isWired && c.parityClass == group)
            {
                bank.entries.push_back (c.entry);
                shapes.push_back (&c.shape);
            }
        pad (bank.entries);
        members.count = bank.size() - members.first;
        members.shapes = Eigen::MatrixXd::Zero (bank.combinations, members.count);
        for (std::size_t k = 0; k < shapes.size(); ++k)
            members.shapes.col (static_cast<Eigen::Index> (k)).head (bank.contactsInQuadrant) = *shapes[k];
        bank.classes.push_back (std::move (members));
    }
    for (const auto& c : candidates)
        if (! c.isWired)
            bank.entries.push_back (c.entry);

    bank.rings = ringModes (setup);
    for (std::size_t i = 0; i < bank.rings.size(); ++i)
    {
        BankEntry entry;
        entry.kind = BankEntry::Kind::ring;
        entry.ring = static_cast<int> (i);
        entry.frequency = bank.rings[i].frequency;
        entry.recursion = ModalRecursion::from (entry.frequency, bank.rings[i].decay, 1.0 / setup.sampleRate);
        bank.entries.push_back (entry);
    }
    pad (bank.entries);
    return bank;
}

} // namespace engine
