#include "Bank.h"

#include "KernelView.h"
#include "Rings.h"

#include <array>
#include <cmath>

namespace engine
{
namespace
{

/** A head mode that moves the wires' contacts less than this share of the strongest is left uncoupled from them (-40 dB). */
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

/** Positions of the contacts: the quadrant x, y > 0 with symmetry, all four without. Quadrants in the order ++, +-, -+, --. */
struct Bed
{
    const StrandGeometry& strands;
    bool isSymmetric;

    int quadrantSize() const { return strands.halfPoints() * strands.pairs(); }
    int contacts() const { return quadrantSize() * (isSymmetric ? 1 : 4); }
    double signX (int contact) const { return contact / quadrantSize() < 2 ? 1.0 : -1.0; }
    double signY (int contact) const { return (contact / quadrantSize()) % 2 == 0 ? 1.0 : -1.0; }
    int point (int contact) const { return (contact % quadrantSize()) / strands.pairs(); }
    int pair (int contact) const { return contact % strands.pairs(); }
    double x (int contact) const { return signX (contact) * strands.pointX (point (contact)); }
    double y (int contact) const { return signY (contact) * strands.strandY (pair (contact)); }
    /** From motion at one contact to motion of a normalised combination of its four images. */
    double combinationFactor() const { return isSymmetric ? 2.0 : 1.0; }
};

std::vector<Candidate> headCandidates (const DrumSetup& setup, const Bed* bed)
{
    const auto& modes = setup.modes;
    Eigen::MatrixXd coupling (bed != nullptr ? bed->contacts() : 0, modes.size());
    for (int i = 0; i < coupling.rows(); ++i)
        coupling.row (i) = -bed->combinationFactor() *
                           modes.resonantShapeAt (std::hypot (bed->x (i), bed->y (i)), std::atan2 (bed->y (i), bed->x (i)));
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
        if (bed != nullptr)
        {
            c.parityClass = bed->isSymmetric ? parityClassOf (mode) : 0;
            c.shape = coupling.col (k);
            c.isWired = c.shape.cwiseAbs().maxCoeff() > weakestCoupling * strongest;
        }
        candidates.push_back (std::move (c));
    }
    return candidates;
}

std::vector<Candidate> strandCandidates (const DrumSetup& setup, const Bed& bed)
{
    std::vector<Candidate> candidates;
    for (int pair = 0; pair < bed.strands.pairs(); ++pair)
        for (int n = 1; n <= bed.strands.modeCount(); ++n)
            for (const bool isOpposed : { false, true })
            {
                Candidate c;
                c.entry.kind = BankEntry::Kind::strand;
                c.entry.stringMode = n;
                c.entry.pair = pair;
                c.entry.isOpposed = isOpposed;
                c.entry.frequency = bed.strands.frequency (n, pair);
                if (c.entry.frequency > highestShareOfRate * setup.sampleRate)
                    continue;
                c.entry.recursion = ModalRecursion::from (c.entry.frequency, bed.strands.decay (n, pair), 1.0 / setup.sampleRate);
                c.parityClass = bed.isSymmetric ? (isOpposed ? 1 : 0) + (n % 2 == 0 ? 2 : 0) : 0;
                c.isWired = true;
                c.shape = Eigen::VectorXd::Zero (bed.contacts());
                for (int i = 0; i < bed.contacts(); ++i)
                    if (bed.pair (i) == pair)
                        c.shape[i] = bed.combinationFactor() * std::sqrt (0.5) * bed.strands.shape (n, bed.point (i)) *
                                     (isOpposed ? bed.signY (i) : 1.0) * (n % 2 == 0 ? bed.signX (i) : 1.0);
                candidates.push_back (std::move (c));
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
    std::optional<Bed> bed;
    if (wired)
    {
        const auto& detail = setup.wireDetail;
        bank.strands.emplace (setup.wires, 2.0 * setup.modes.radius, detail.strands, detail.points, detail.modes);
        bed.emplace (Bed{ *bank.strands, setup.modes.isUniform });
        bank.contactsInQuadrant = bed->contacts();
        bank.combinations = roundUp (bank.contactsInQuadrant, tileModes);
    }

    auto candidates = headCandidates (setup, bed ? &*bed : nullptr);
    if (bed)
        for (auto& strand : strandCandidates (setup, *bed))
            candidates.push_back (std::move (strand));

    const int classCount = bed ? (bed->isSymmetric ? 4 : 1) : 0;
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
