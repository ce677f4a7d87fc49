#include "core/hand/SafeWindow.h"

#include <algorithm>

#include "core/hand/Locks.h"
#include "core/hand/PlanTree.h"
#include "core/planning/PanelWidth.h"
#include "core/units/SaidLength.h"

namespace stavewright::hand {

namespace {

/// Place of the one with this id; the size of the list when there is none.
template <class Each, class Id>
std::size_t indexOf(const std::vector<Each>& all, Id id) {
    return static_cast<std::size_t>(
        std::find_if(all.begin(), all.end(), [id](const Each& each) { return each.id == id; }) -
        all.begin());
}

/// Where blanks change from one mark to the next, so many places between are looked at as well: a
/// knot that only a hair of the way is bad for must not be stepped over.
constexpr int partsOfMark = 4;
/// A stave's glued edge goes with the rip, and a knot at it may be bad for very little of the way.
constexpr int partsOfMarkInRips = 16;

/// All blanks lie on the same wood in both.
bool liesAlike(const BoardLayout& a, const BoardLayout& b) {
    const auto woods = [](const BoardLayout& layout) {
        std::vector<std::pair<BlankId, Rect>> found;
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    found.emplace_back(blank.id, woodOf(blank));
                }
            }
        }
        return found;
    };
    return woods(a) == woods(b);
}

/// From here on the cut is made: sizes may differ from the plan's.
void makeCut(Section& section, CutKind kind) {
    section.state = std::max(section.state, CutState::Cut);
    for (Strip& strip : section.strips) {
        for (Blank& blank : strip.blanks) {
            if (blank.state == CutState::Planned && blank.actual) {
                blank.state = kind == CutKind::Crosscut ? CutState::Cut : CutState::Ripped;
            }
        }
    }
}

void repack(const Packer& packer, Landed& landed, Section& section, std::optional<StripId> only,
            Yielding yielding) {
    for (Strip& strip : section.strips) {
        if (only && strip.id != *only) {
            continue;
        }
        PackedStrip packed = packer.pack(landed.layout, section, strip, yielding);
        landed.lost.insert(landed.lost.end(), packed.lost.begin(), packed.lost.end());
        strip = std::move(packed.strip);
    }
}

} // namespace

SafeWindows::SafeWindows(const Document& document)
    : m_document(document)
    , m_judge(document) {
    if (Result<std::vector<BlankSpec>> specs = blankSpecs(document)) {
        m_specs = std::move(specs).value();
    }
    m_nets = planning::netWidthsIn(*document.plan, m_specs);
}

// ---- where a cut landed ------------------------------------------------------------------------

std::optional<Landed> SafeWindows::landed(BoardId board, const CutRef& cut, Length where) const {
    const BoardLayout* found = layoutOf(*m_document.plan, board);
    const Board* wood = findBoard(m_document, board);
    if (!found || !wood) {
        return std::nullopt;
    }
    Landed begun{*found, {}};
    dropPlannedOffcuts(begun.layout);
    if (!markOf(begun.layout, cut)) {
        return std::nullopt;
    }
    std::shared_ptr<Ground::Known>& known = m_grounds[board];
    if (!known) {
        known = nothingKnown();
    }
    const Packer packer(m_document, m_specs, m_judge, *wood, known);
    switch (cut.kind()) {
    case CutKind::Crosscut:
        return crosscutLanded(packer, std::move(begun), cut, where);
    case CutKind::Rip:
        return ripLanded(packer, std::move(begun), cut, where);
    case CutKind::Second:
        return secondLanded(packer, std::move(begun), cut, where);
    }
    return std::nullopt;
}

std::optional<Landed> SafeWindows::crosscutLanded(const Packer& packer, Landed landed,
                                                  const CutRef& cut, Length where) const {
    std::vector<Section>& sections = landed.layout.sections;
    const Rect box = boundingBox(findBoard(m_document, landed.layout.board)->outline);
    const std::size_t s = indexOf(sections, cut.section);
    const Length kerf = m_document.shop.machines.crosscut.kerf;
    const Length begins = cut.high ? sections[s].along.from
                          : s == 0 ? box.x0
                                   : sections[s - 1].along.to + kerf;
    const Length ends = cut.high ? box.x1 : sections[s].along.to;
    if (where <= begins || where >= ends) {
        return std::nullopt; // beside the piece: nothing is cut
    }
    const Length was = cut.high ? sections[s].along.to : sections[s].along.from;
    (cut.high ? sections[s].along.to : sections[s].along.from) = where;
    bool isNextTouched = false;
    if (cut.high && s + 1 < sections.size()) {
        Stretch& next = sections[s + 1].along;
        const bool isShared = next.from == was + kerf;
        isNextTouched = isShared || next.from < where + kerf;
        next.from = isNextTouched ? where + kerf : next.from;
        if (next.from >= next.to) { // the saw went past all of it
            for (const Strip& strip : sections[s + 1].strips) {
                landed.lost.insert(landed.lost.end(), strip.blanks.begin(), strip.blanks.end());
            }
            sections.erase(sections.begin() + static_cast<std::ptrdiff_t>(s) + 1);
            isNextTouched = false;
        }
    }
    repack(packer, landed, sections[s], {}, cut.high ? Yielding::HighEnd : Yielding::LowEnd);
    makeCut(sections[s], CutKind::Crosscut);
    if (isNextTouched) {
        repack(packer, landed, sections[s + 1], {}, Yielding::LowEnd);
        makeCut(sections[s + 1], CutKind::Crosscut);
    }
    return landed;
}

std::optional<Landed> SafeWindows::ripLanded(const Packer& packer, Landed landed, const CutRef& cut,
                                             Length where) const {
    Section& section = landed.layout.sections[indexOf(landed.layout.sections, cut.section)];
    std::vector<Strip>& strips = section.strips;
    const std::size_t s = indexOf(strips, *cut.strip);
    const Length kerf = ripKerfOf(m_document.shop, section);
    const Length begins = cut.high ? strips[s].across.from
                          : s == 0 ? Length()
                                   : strips[s - 1].across.to + kerf;
    if (where <= begins || (!cut.high && where >= strips[s].across.to)) {
        return std::nullopt;
    }
    const Length was = cut.high ? strips[s].across.to : strips[s].across.from;
    (cut.high ? strips[s].across.to : strips[s].across.from) = where;
    std::optional<StripId> touched;
    if (cut.high && s + 1 < strips.size()) {
        Stretch& next = strips[s + 1].across;
        if (next.from == was + kerf || next.from < where + kerf) {
            next.from = where + kerf;
            touched = strips[s + 1].id;
            if (next.from >= next.to) {
                landed.lost.insert(landed.lost.end(), strips[s + 1].blanks.begin(),
                                   strips[s + 1].blanks.end());
                strips.erase(strips.begin() + static_cast<std::ptrdiff_t>(s) + 1);
                touched.reset();
            }
        }
    }
    repack(packer, landed, section, *cut.strip, Yielding::HighEnd);
    if (touched) {
        repack(packer, landed, section, touched, Yielding::HighEnd);
    }
    makeCut(section, CutKind::Rip);
    return landed;
}

namespace {

/// What is left of a strip round one of its blanks, between the second crosscuts made so far.
struct PieceOfStrip {
    std::size_t first = 0;    ///< of its blanks
    std::size_t end = 0;      ///< one past the last of them
    std::optional<Length> to; ///< u; nothing where it reaches to the strip's end
};

PieceOfStrip pieceRound(const std::vector<Blank>& blanks, std::size_t at, Length kerf) {
    PieceOfStrip piece{at, at + 1, std::nullopt};
    while (piece.first > 0 && !blanks[piece.first].lowEndCut &&
           !blanks[piece.first - 1].highEndCut) {
        --piece.first;
    }
    while (piece.end < blanks.size() && !blanks[piece.end - 1].highEndCut &&
           !blanks[piece.end].lowEndCut) {
        ++piece.end;
    }
    if (blanks[piece.end - 1].highEndCut) {
        piece.to = woodOf(blanks[piece.end - 1]).x1;
    } else if (piece.end < blanks.size()) {
        piece.to = woodOf(blanks[piece.end]).x0 - kerf;
    }
    return piece;
}

} // namespace

/// The blank at the cut lies in one piece, those after it in the other; the cuts before are as
/// marked, so that what lies before is off the strip already. Whichever piece a blank comes out of,
/// it is not lost.
std::optional<Landed> SafeWindows::secondLanded(const Packer& packer, Landed landed,
                                                const CutRef& cut, Length where) const {
    Section& section = landed.layout.sections[indexOf(landed.layout.sections, cut.section)];
    Strip& strip = section.strips[indexOf(section.strips, *cut.strip)];
    const std::size_t at = indexOf(strip.blanks, *cut.blank);
    const Length kerf = m_document.shop.machines.stripCrosscut.kerf;
    const Stretch along = alongStrip(section, strip);
    const Length u = where + along.from;
    const Rect wood = woodOf(strip.blanks[at]);
    const PieceOfStrip piece = pieceRound(strip.blanks, at, kerf);
    const Length begins = cut.high  ? wood.x0
                          : at == 0 ? along.from
                                    : woodOf(strip.blanks[at - 1]).x1 + kerf;
    if (u <= begins || u >= piece.to.value_or(along.to)) {
        return std::nullopt; // beside the piece: nothing is cut
    }
    if (cut.high && at + 1 < piece.end && woodOf(strip.blanks[at + 1]).x0 == wood.x1 + kerf) {
        strip.blanks[at + 1].lowEndCut = true; // the same cut
    }
    const auto packThese = [&](std::vector<Blank> these, Yielding yielding, PieceEnds ends) {
        Strip part = strip;
        part.blanks = std::move(these);
        return packer.pack(landed.layout, section, part, yielding, ends);
    };
    const auto between = [&](std::size_t from, std::size_t to) {
        return std::vector<Blank>(strip.blanks.begin() + static_cast<std::ptrdiff_t>(from),
                                  strip.blanks.begin() + static_cast<std::ptrdiff_t>(to));
    };
    std::vector<Blank> blanks = between(0, at);
    const auto take = [&](PackedStrip packed) {
        landed.lost.insert(landed.lost.end(), packed.lost.begin(), packed.lost.end());
        blanks.insert(blanks.end(), packed.strip.blanks.begin(), packed.strip.blanks.end());
    };
    const auto packRest = [&](const std::vector<Blank>& these, Length begin) {
        const PieceEnds ends{begin, piece.to};
        PackedStrip rest = packThese(these, Yielding::HighEnd, ends);
        // Otherwise the one at the cut gives way instead of the last.
        return rest.lost.empty() ? rest : packThese(these, Yielding::LowEnd, ends);
    };
    if (!cut.high) {
        PackedStrip rest = packRest(between(at, piece.end), u);
        // What lies before the cut is no waste where one more blank comes out of it.
        std::optional<PackedStrip> near;
        for (std::size_t i = at; i < piece.end && !rest.lost.empty(); ++i) {
            std::vector<Blank> others = between(at, piece.end);
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(i - at));
            PackedStrip one = packThese(between(i, i + 1), Yielding::LowEnd, {begins, u - kerf});
            if (!one.lost.empty()) {
                continue;
            }
            PackedStrip beyond = packRest(others, u);
            if (beyond.lost.size() < rest.lost.size()) {
                near = std::move(one);
                rest = std::move(beyond);
            }
        }
        if (near) {
            Blank& blank = near->strip.blanks.front();
            blank.highEndCut = true;
            blank = reaching({woodOf(blank).x0, u - kerf}, landed.layout, strip.id, blank);
            take(std::move(*near));
        }
        if (!rest.strip.blanks.empty()) {
            Blank& blank = rest.strip.blanks.front();
            blank.lowEndCut = true;
            if (blank.id != *cut.blank) { // which has taken its place, and more waste with it
                blank = reaching({u, woodOf(blank).x1}, landed.layout, strip.id, blank);
            }
        }
        take(std::move(rest));
    } else {
        PackedStrip near = packThese(between(at, at + 1), Yielding::HighEnd, {wood.x0, u});
        PackedStrip rest = packRest(between(at + 1, piece.end), u + kerf);
        // Too short at the near end, it may still come out of what lies beyond the cut.
        PackedStrip all = near.lost.empty() ? rest : packRest(between(at, piece.end), u + kerf);
        if (!near.lost.empty() && all.lost.size() < near.lost.size() + rest.lost.size()) {
            for (Blank& blank : all.strip.blanks) {
                blank.lowEndCut = blank.id == all.strip.blanks.front().id;
            }
            take(std::move(all));
        } else {
            for (Blank& blank : near.strip.blanks) {
                blank.highEndCut = true;
            }
            take(std::move(near));
            take(std::move(rest));
        }
    }
    blanks.insert(blanks.end(), strip.blanks.begin() + static_cast<std::ptrdiff_t>(piece.end),
                  strip.blanks.end());
    strip.blanks = std::move(blanks);
    for (Blank& blank : strip.blanks) {
        blank.state = std::max(blank.state, CutState::Ripped);
    }
    makeCut(section, CutKind::Second);
    return landed;
}

/// The blank's wood reaches to where the saw went, so that neither the next cut nor what is laid
/// anew takes the piece to be longer; left as it is where the part would not come out of the longer
/// wood as the audit looks for it.
Blank SafeWindows::reaching(Stretch ends, BoardLayout layout, StripId strip,
                            const Blank& blank) const {
    Blank tried = blank;
    const Rect wood = woodOf(blank);
    tried.actual = Rect{std::min(wood.x0, ends.from), wood.y0, std::max(wood.x1, ends.to), wood.y1};
    tried.state = std::max(tried.state, CutState::Ripped);
    for (Section& section : layout.sections) {
        const bool isIts = std::any_of(section.strips.begin(), section.strips.end(),
                                       [&](const Strip& each) { return each.id == strip; });
        section.strips.resize(isIts ? section.strips.size() : 0);
        section.offcuts.clear();
        for (Strip& each : section.strips) {
            each.blanks = each.id == strip ? std::vector<Blank>{tried} : std::vector<Blank>();
        }
        if (isIts) {
            makeCut(section, CutKind::Second);
        }
    }
    return *tried.actual != wood && m_judge.failures(layout).empty() ? tried : blank;
}

// ---- what is lost ------------------------------------------------------------------------------

std::optional<PanelMissed> SafeWindows::panelMissed(const BoardLayout& before,
                                                    const BoardLayout& after) const {
    std::map<BlankPurpose, Length> change;
    const auto add = [&](const BoardLayout& layout, int sign) {
        for (const Section& section : layout.sections) {
            for (const Strip& strip : section.strips) {
                for (const Blank& blank : strip.blanks) {
                    const BlankSpec* spec = specOf(m_specs, blank.purpose);
                    if (spec && spec->staves) {
                        change[planning::wholeOf(blank.purpose)] +=
                            planning::netWidthOf(blank, *spec->staves) * sign;
                    }
                }
            }
        }
    };
    add(before, -1);
    add(after, 1);
    for (const auto& [panel, more] : change) {
        const StavePool& pool = *specOf(m_specs, panel)->staves;
        const Length was = m_nets.at(panel);
        const Length now = was + more;
        if (now < pool.netWanted && was >= pool.netWanted) {
            return PanelMissed{panel, PanelMissed::By::TooNarrow};
        }
        if (now > pool.netMost && now > was) {
            return PanelMissed{panel, PanelMissed::By::TooWide};
        }
    }
    return std::nullopt;
}

bool SafeWindows::holds(const BoardLayout& planned, const Landed& there) const {
    return there.lost.empty() && !panelMissed(planned, there.layout) &&
           locksBroken(planned, there.layout).empty();
}

bool SafeWindows::isSafe(BoardId board, const CutRef& cut, const std::optional<Landed>& there,
                         Judged judged) const {
    if (!there || !holds(*layoutOf(*m_document.plan, board), *there)) {
        return false;
    }
    if (judged == Judged::Board) {
        return m_judge.failures(there->layout).empty();
    }
    BoardLayout near = there->layout;
    const std::size_t at = indexOf(near.sections, cut.section);
    for (std::size_t s = 0; s < near.sections.size(); ++s) {
        if (s != at && !(cut.kind() == CutKind::Crosscut && s == at + 1)) {
            near.sections[s].strips.clear();
            near.sections[s].offcuts.clear();
        }
    }
    return m_judge.failures(near).empty();
}

bool SafeWindows::isSafe(BoardId board, const CutRef& cut, Length where) const {
    return isSafe(board, cut, landed(board, cut, where), Judged::Board);
}

std::optional<Length> SafeWindows::unsafeBetween(BoardId board, const CutRef& cut, Length from,
                                                 Length to, const Landed& before,
                                                 const Landed& there) const {
    // Where only waste grows or shrinks, what limits that has no gaps.
    const BoardLayout& planned = *layoutOf(*m_document.plan, board);
    const int parts = liesAlike(before.layout, there.layout) ? 1
                      : cut.kind() == CutKind::Rip           ? partsOfMarkInRips
                                                             : partsOfMark;
    for (int part = 1; part < parts; ++part) {
        const Length where = from + (to - from) * part / parts;
        // The packing knows what bars each place exactly; the judge is asked at the marks.
        const std::optional<Landed> half = landed(board, cut, where);
        if (!half || !holds(planned, *half)) {
            return where;
        }
    }
    return isSafe(board, cut, there, Judged::AtCut) ? std::nullopt : std::optional(to);
}

SafeWindows::Loss SafeWindows::lossOf(const Landed& beyond) const {
    Loss loss;
    for (const Blank& blank : beyond.lost) {
        loss.blanks.push_back(blank.purpose);
    }
    if (!loss.blanks.empty()) {
        return loss;
    }
    const std::vector<Finding> findings = m_judge.failures(beyond.layout);
    for (const Finding& finding : findings) {
        const auto place = placeOf(Plan{{beyond.layout}, {}, {}, {}, {}}, finding.blank);
        if (place) {
            loss.why = finding.sentence;
            loss.blanks.push_back(beyond.layout.sections[place->section]
                                      .strips[place->strip]
                                      .blanks[place->blank]
                                      .purpose);
            return loss;
        }
    }
    if (!findings.empty()) {
        loss.why = findings.front().sentence;
        return loss;
    }
    const BoardLayout& planned = *layoutOf(*m_document.plan, beyond.layout.board);
    const std::vector<Lock> broken = locksBroken(planned, beyond.layout);
    if (!broken.empty()) {
        loss.why = namesOf(m_document, broken) +
                   (broken.size() == 1 ? " is locked and would not stay as it is"
                                       : " are locked and would not stay as they are");
        return loss;
    }
    loss.panel = panelMissed(planned, beyond.layout);
    if (loss.panel) {
        loss.why = "panel " + labelOf(m_document, loss.panel->panel) +
                   (loss.panel->by == PanelMissed::By::TooNarrow ? " becomes too narrow"
                                                                 : " becomes too wide");
    }
    return loss;
}

std::optional<CutWindow> SafeWindows::windowOf(BoardId board, const CutRef& cut) const {
    const std::optional<Length> mark = markOf(m_document, board, cut);
    const std::optional<Landed> onMark = mark ? landed(board, cut, *mark) : std::nullopt;
    if (!isSafe(board, cut, onMark, Judged::Board)) {
        return std::nullopt; // the plan has other troubles there
    }
    CutWindow window;
    window.cut = cut;
    window.mark = *mark;
    const Length step = tapeMarksOf(m_document, {}).step;
    const auto widest = farthest / step;
    const auto lookTowards = [&](int sign, bool& open, Length& beyond, Loss& loss) {
        const auto at = [&](std::int64_t marks) { return window.mark + step * (marks * sign); };
        // Mark by mark: between two safe places there may be one that is not.
        Landed before = *onMark;
        for (std::int64_t safe = 0;; ++safe) {
            if (safe == widest) {
                open = true;
                return at(safe);
            }
            std::optional<Landed> there = landed(board, cut, at(safe + 1));
            if (!there) {
                open = true; // beside the piece nothing is cut
                return at(safe);
            }
            beyond = at(safe + 1);
            if (const auto bad = unsafeBetween(board, cut, at(safe), beyond, before, *there)) {
                beyond = *bad;
                loss = lossOf(*landed(board, cut, beyond));
                return at(safe);
            }
            before = std::move(*there);
        }
    };
    Loss below;
    Loss above;
    window.window.from = lookTowards(-1, window.openBelow, window.beyondBelow, below);
    window.window.to = lookTowards(1, window.openAbove, window.beyondAbove, above);
    window.lostBelow = std::move(below.blanks);
    window.lostAbove = std::move(above.blanks);
    window.whyBelow = std::move(below.why);
    window.whyAbove = std::move(above.why);
    window.panelBelow = below.panel;
    window.panelAbove = above.panel;
    return window;
}

std::vector<CutWindow> SafeWindows::onBoard(BoardId board, const std::stop_token& stop) const {
    std::vector<CutWindow> windows;
    for (const CutRef& cut : cutsOn(m_document, board)) {
        if (stop.stop_requested()) {
            break;
        }
        if (std::optional<CutWindow> window = windowOf(board, cut)) {
            windows.push_back(std::move(*window));
        }
    }
    return windows;
}

// ---- words -------------------------------------------------------------------------------------

std::string namesOf(const Document& document, const std::vector<BlankPurpose>& lost) {
    std::string text;
    for (const BlankPurpose& purpose : lost) {
        text += (text.empty() ? "" : ", ") + labelOfAll(document, purpose);
    }
    return text;
}

std::string sentenceOf(const Document& document, const CutWindow& window) {
    const LengthStyle style{document.info.units, document.info.inchDenominator, true};
    const std::string from = saidReading(window.window.from, style);
    const std::string to = saidReading(window.window.to, style);
    std::string text = from == to
                           ? "nothing but " + from + " still gives every part"
                           : "anything from " + from + " to " + to + " still gives every part";
    const auto consequence = [&](const std::vector<BlankPurpose>& lost, const std::string& why) {
        const std::string names = namesOf(document, lost);
        return names.empty() ? why : names + (lost.size() > 1 ? " are lost" : " is lost");
    };
    std::string below = consequence(window.lostBelow, window.whyBelow);
    std::string above = consequence(window.lostAbove, window.whyAbove);
    for (std::string* each : {&below, &above}) {
        if (each->ends_with('.')) {
            each->pop_back();
        }
    }
    if (!below.empty() && below == above) {
        return text + "; beyond, " + below;
    }
    text += below.empty() ? "" : "; below, " + below;
    text += above.empty() ? "" : "; above, " + above;
    return text;
}

} // namespace stavewright::hand
