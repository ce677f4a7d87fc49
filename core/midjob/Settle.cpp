#include "core/midjob/Settle.h"

#include <algorithm>

#include "core/audit/Audit.h"
#include "core/audit/BoardJudge.h"
#include "core/base/ListedText.h"
#include "core/hand/Finish.h"
#include "core/hand/Locks.h"
#include "core/hand/PlanTree.h"
#include "core/layout/PieceState.h"
#include "core/midjob/PlanRest.h"
#include "core/midjob/PlanedWood.h"
#include "core/midjob/Remedies.h"
#include "core/midjob/Reuse.h"
#include "core/midjob/ShopMarks.h"
#include "core/midjob/Words.h"
#include "core/units/QuantityText.h"

namespace stavewright::midjob {

namespace {

/// Work for the short search that looks once more for what the quick laying did not place.
constexpr std::int64_t searchWork = 150;
constexpr int mostRounds = 500;
/// Ways to use a lost piece for another part that are followed to the end.
constexpr std::size_t mostReuses = 3;
/// A part that nothing happened to leaves its place for no less.
constexpr Money worthMoving = Money::cents(1);

bool isAbout(const std::vector<Finding>& findings, BlankId id) {
    return std::any_of(findings.begin(), findings.end(),
                       [id](const Finding& finding) { return finding.blank == id; });
}

class Settling {
  public:
    Settling(const Document& before, Happened happened)
        : m_before(before)
        , m_happened(std::move(happened))
        , m_after(m_happened.after) {}

    Result<ShopEvent> settle(const Note& note) {
        for (const BlankId id : m_happened.lost) {
            lose(id);
        }
        clearWhatFails();
        notePlaned(m_before, m_after, m_happened.touched);
        // Against the plan before: what has become cut since is marked for offcuts anew.
        Document base = m_after;
        base.plan = m_before.plan;
        Result<Edit> plan = hand::finished(base, *m_after.plan, m_happened.touched, m_after.nextId,
                                           "No place was found for it any more.");
        if (!plan) {
            return plan.error();
        }
        if (Result<Edit> done = apply(m_after, plan.value()); !done) {
            return done.error();
        }
        findPlaces();
        return told(note);
    }

  private:
    /// Counts the piece as lost; it stands in the plan before.
    void lose(BlankId id) {
        const std::optional<hand::TreePlace> place = hand::placeOf(*m_before.plan, id);
        if (!place) {
            return;
        }
        const Blank& blank = hand::blankAt(*m_before.plan, *place);
        const Board* board = findBoard(m_before, m_before.plan->boards[place->board].board);
        m_lost.push_back(id);
        const Section& section = hand::sectionAt(*m_before.plan, *place);
        const Rect wood = woodOf(blank);
        m_lostWood.push_back({blank.purpose, board->id, section.id,
                              toOuter(section.frame, Point{wood.x0, wood.y0}), wood});
        m_event.lost.push_back(blank.purpose);
        const BoardFeet lumber = BoardFeet::ofVolume(wood.area() * board->quarter.nominal());
        m_event.lumberLost += lumber;
        m_event.moneyLost += priceOf(board->pricePerBoardFoot, lumber);
        if (isMilled(section.facing, blank)) {
            keepMilled(board->id, section.id, section.strips[place->strip].id);
        }
    }

    /// The wood is milled although none of its blanks may be left to say so.
    void keepMilled(BoardId board, SectionId id, StripId stripId) {
        BoardLayout* layout = layoutIn(*m_after.plan, board);
        if (!layout) {
            return;
        }
        for (Section& section : layout->sections) {
            if (section.id != id || section.state == CutState::Planned) {
                continue;
            }
            if (section.facing == FirstFacing::Whole) {
                section.state = std::max(section.state, CutState::Milled);
                continue;
            }
            for (Strip& strip : section.strips) {
                strip.milled = strip.milled || strip.id == stripId;
            }
        }
    }

    /// Until the audit finds nothing new on the boards that were touched.
    void clearWhatFails() {
        const BoardJudge before(m_before);
        const BoardJudge after(m_after);
        for (BoardLayout& layout : m_after.plan->boards) {
            if (!m_happened.touched.contains(layout.board)) {
                continue;
            }
            std::set<std::string> stood;
            if (const BoardLayout* was = hand::layoutOf(*m_before.plan, layout.board)) {
                for (const Finding& finding : before.failures(*was)) {
                    stood.insert(finding.sentence);
                }
            }
            for (int round = 0; round < mostRounds; ++round) {
                const std::vector<Finding> findings = after.failures(layout);
                const auto fails =
                    std::find_if(findings.begin(), findings.end(), [&](const Finding& finding) {
                        return finding.blank.isSet() && !stood.contains(finding.sentence);
                    });
                if (fails == findings.end()) {
                    break;
                }
                clear(after, layout, fails->blank);
            }
        }
    }

    void clear(const BoardJudge& judge, BoardLayout& layout, BlankId id) {
        for (Section& section : layout.sections) {
            for (Strip& strip : section.strips) {
                for (Blank& blank : strip.blanks) {
                    if (blank.id != id) {
                        continue;
                    }
                    const bool isCut = blank.state != CutState::Planned;
                    if (isCut && mayBeTurned(blank) && turns(judge, layout, blank)) {
                        m_event.turned.push_back(blank.purpose);
                        return;
                    }
                    if (isCut) {
                        lose(id);
                    }
                    hand::takeOut(layout, id);
                    return;
                }
            }
        }
    }

    /// Once glued, what is up is up.
    static bool mayBeTurned(const Blank& blank) {
        return blank.state == CutState::Cut || blank.state == CutState::Milled ||
               blank.state == CutState::Ripped;
    }

    static bool turns(const BoardJudge& judge, const BoardLayout& layout, Blank& blank) {
        const Pose was = blank.pose;
        for (const Pose pose :
             {Pose{!was.endForEnd, was.faceOver}, Pose{was.endForEnd, !was.faceOver},
              Pose{!was.endForEnd, !was.faceOver}}) {
            blank.pose = pose;
            if (!isAbout(judge.failures(layout), blank.id)) {
                return true;
            }
        }
        blank.pose = was;
        return false;
    }

    void findPlaces() {
        if (newlyMissing(*m_after.plan).empty()) {
            return;
        }
        const Document before = m_after;
        layMissing(m_after, newlyMissing(*m_after.plan));
        for (const LostWood& wood : m_lostWood) {
            reuse(before, wood);
        }
        if (newlyMissing(*m_after.plan).empty()) {
            return;
        }
        PlanOptions options;
        options.seconds = 0;
        options.work = searchWork;
        options.threads = 1;
        const Result<RestOutcome> rest = planRest(m_after, RestMode::KeepPlaces, options);
        if (rest && rest.value().outcome.plan.unplaced.size() <= m_after.plan->unplaced.size()) {
            m_after.plan = rest.value().outcome.plan;
        }
    }

    /// The lost piece becomes another part where that is cheaper: the wood which that part gives
    /// free may do for what is missing. Otherwise what nothing happened to stays where it is.
    void reuse(const Document& before, const LostWood& wood) {
        const auto isBetter = [](const Plan& plan, const Plan& than) {
            return plan.unplaced.size() != than.unplaced.size()
                       ? plan.unplaced.size() < than.unplaced.size()
                       : plan.totals.cost + worthMoving <= than.totals.cost;
        };
        for (Reuse& way : reusesOf(before, wood, mostReuses)) {
            layMissing(way.after, newlyMissing(*way.after.plan));
            if (isBetter(*way.after.plan, *m_after.plan) && audit(way.after).passed()) {
                if (!m_reused) {
                    m_unmoved = *m_after.plan;
                }
                m_after = std::move(way.after);
                m_reused = Reused{wood.was, way.becomes, way.from};
            }
        }
    }

    /// A part that what is left of a lost piece is used for.
    struct Reused {
        BlankPurpose was, becomes;
        BoardId from; ///< that it was planned on
    };

    [[nodiscard]] std::vector<BlankPurpose> newlyMissing(const Plan& plan) const {
        std::vector<BlankPurpose> missing;
        const std::vector<Unplaced>& was = m_before.plan->unplaced;
        for (const Unplaced& each : plan.unplaced) {
            if (std::none_of(was.begin(), was.end(), [&](const Unplaced& other) {
                    return other.purpose == each.purpose;
                })) {
                missing.push_back(each.purpose);
            }
        }
        return missing;
    }

    ShopEvent told(const Note& note) {
        m_event.plan = *m_after.plan;
        m_event.missing = newlyMissing(*m_after.plan);
        const Moved moved = movedBetween(*m_before.plan, *m_after.plan);
        std::set<BlankPurpose> turned(m_event.turned.begin(), m_event.turned.end());
        for (const BlankPurpose& purpose : moved.moved) {
            if (!turned.contains(purpose)) {
                m_event.moved.push_back(purpose);
            }
        }
        // A panel that lacked staves before counts as missing already; that it loses more of them
        // must be said all the same.
        for (const BlankPurpose& purpose : moved.lost) {
            const bool lacksMore =
                std::any_of(m_after.plan->unplaced.begin(), m_after.plan->unplaced.end(),
                            [&](const Unplaced& each) { return each.purpose == purpose; });
            if (lacksMore && std::find(m_event.missing.begin(), m_event.missing.end(), purpose) ==
                                 m_event.missing.end()) {
                m_lacksMore.push_back(purpose);
            }
        }
        m_event.lumberMore = moved.lumberMore;
        m_event.costsMore = moved.costsMore;
        m_event.remedies = remediesFor(m_before, m_after, m_event.missing, m_lost);
        m_event.sentence = m_happened.what + ' ' + consequences();
        LogEntry entry;
        entry.time = note.time;
        entry.what = m_event.sentence;
        entry.why = note.why;
        EditSequence steps;
        for (const BoardId id : m_happened.replaced) {
            steps.edits.push_back({ReplaceBoard{*findBoard(m_after, id)}});
        }
        steps.edits.push_back({ReplacePlan{m_after.plan}});
        steps.edits.push_back({AppendLog{std::move(entry)}});
        m_event.edit = Edit{std::move(steps)};
        return std::move(m_event);
    }

    [[nodiscard]] std::string consequences() const {
        const JobInfo& info = m_before.info;
        std::string text;
        const auto add = [&](const std::string& sentence) {
            text += (text.empty() || sentence.empty() ? "" : " ") + sentence;
        };
        if (!m_event.lost.empty()) {
            add("Lost: " + namesOf(m_before, m_event.lost) + ", " +
                lumberText(m_event.lumberLost, info.units) + " of wood worth " +
                formatMoney(m_event.moneyLost, info.currency) + ".");
        }
        if (!m_event.turned.empty()) {
            add(namesOf(m_before, m_event.turned) + " can still be made, turned the other way.");
        }
        std::vector<BlankPurpose> elsewhere = m_event.moved;
        if (m_reused) {
            add("What is left of " + labelOf(m_before, m_reused->was) + " becomes " +
                labelOf(m_before, m_reused->becomes) + ", which was planned on board " +
                findBoard(m_before, m_reused->from)->mark + whyReused() + ".");
            std::erase(elsewhere, m_reused->becomes);
        }
        if (!elsewhere.empty()) {
            add("Now " + placesOf(m_before, m_event.plan, elsewhere) + ".");
        }
        add(otherSizes());
        if (!m_event.missing.empty()) {
            add("Without a place: " + namesOf(m_before, m_event.missing) + ".");
        }
        if (!m_lacksMore.empty()) {
            add("Less is laid out of " + namesOf(m_before, m_lacksMore) +
                ", which had no place for all of it before.");
        }
        if (text.empty()) {
            add("Everything else stays as planned.");
        }
        const int fills = m_event.plan.totals.fills - m_before.plan->totals.fills;
        if (fills > 0) {
            add(fills == 1 ? "One fill more is needed."
                           : std::to_string(fills) + " fills more are needed.");
        }
        for (const std::string& sentence : groupsApart()) {
            add(sentence);
        }
        add(costSentence(m_before, m_event.costsMore, m_event.lumberMore));
        return text;
    }

    /// What it is worth that a part left its place for the lost piece: "; otherwise no place was
    /// found for X1", "; that saves $1.23".
    [[nodiscard]] std::string whyReused() const {
        std::vector<BlankPurpose> without = newlyMissing(m_unmoved);
        std::erase_if(without, [&](const BlankPurpose& purpose) {
            return std::find(m_event.missing.begin(), m_event.missing.end(), purpose) !=
                   m_event.missing.end();
        });
        if (!without.empty()) {
            return "; otherwise no place was found for " + namesOf(m_before, without);
        }
        const Money saved = m_unmoved.totals.cost - m_event.plan.totals.cost;
        return saved < worthMoving ? std::string()
                                   : "; that saves " + formatMoney(saved, m_before.info.currency);
    }

    /// Blanks that are smaller than planned now, or larger, and still give their parts: the sheets
    /// that are printed say otherwise.
    [[nodiscard]] std::string otherSizes() const {
        std::vector<std::string> sizes;
        for (const BoardLayout& layout : m_event.plan.boards) {
            for (const Section& section : layout.sections) {
                for (const Strip& strip : section.strips) {
                    for (const Blank& blank : strip.blanks) {
                        const auto was = hand::placeOf(*m_before.plan, blank.id);
                        if (!was || m_happened.measured.contains(blank.id)) {
                            continue;
                        }
                        const Rect& now = woodOf(blank);
                        const Rect& then = woodOf(hand::blankAt(*m_before.plan, *was));
                        const std::string size = sizeChange(then, now);
                        if (!size.empty()) {
                            sizes.push_back(labelOf(m_before, blank.purpose) + " " + size);
                        }
                    }
                }
            }
        }
        constexpr std::size_t most = 4;
        return sizes.empty() ? std::string()
                             : "Other sizes now: " + listed(sizes, most) +
                                   "; the sheets have to be printed again.";
    }

    /// "2 5/8 in wide instead of 2 13/16 in"; empty where a tape tells no difference.
    [[nodiscard]] std::string sizeChange(const Rect& then, const Rect& now) const {
        std::string text;
        const auto compare = [&](Length before, Length after, const char* which) {
            const std::string old = saidReading(m_before, before);
            const std::string fresh = saidReading(m_before, after);
            if (old != fresh) {
                text += (text.empty() ? "" : " and ") + fresh + " " + which + " instead of " + old;
            }
        };
        compare(then.width(), now.width(), "wide");
        compare(then.length(), now.length(), "long");
        return text;
    }

    /// Groups that come from more boards now than one, or from others than before.
    [[nodiscard]] std::vector<std::string> groupsApart() const {
        std::vector<std::string> found;
        if (m_before.groups.empty()) {
            return found;
        }
        const auto apartIn = [](const Document& document) {
            std::vector<std::string> sentences;
            for (const Finding& finding : audit(document).findings) {
                if (finding.kind == FindingKind::GroupApart) {
                    sentences.push_back(finding.sentence);
                }
            }
            return sentences;
        };
        const std::vector<std::string> before = apartIn(m_before);
        found = apartIn(m_after);
        std::erase_if(found, [&](const std::string& sentence) {
            return std::find(before.begin(), before.end(), sentence) != before.end();
        });
        return found;
    }

    const Document& m_before;
    Happened m_happened;
    Document& m_after;
    ShopEvent m_event;
    std::vector<BlankId> m_lost;
    std::vector<BlankPurpose> m_lacksMore;
    std::vector<LostWood> m_lostWood;
    /// A lost piece, and what comes out of it instead.
    std::optional<Reused> m_reused;
    Plan m_unmoved; ///< without that
};

/// The plan with all its locks but these.
Plan without(Plan plan, const std::vector<hand::Lock>& locks) {
    std::vector<hand::Lock> kept = hand::locksOf(plan);
    std::erase_if(kept, [&](const hand::Lock& lock) {
        return std::find(locks.begin(), locks.end(), lock) != locks.end();
    });
    return hand::withLocks(std::move(plan), kept);
}

} // namespace

Error refused(std::string message) { return {ErrorCode::BadInput, std::move(message), {}}; }

Result<ShopEvent> settle(const Document& before, Happened happened, const Note& note) {
    Document base = before;
    while (true) {
        Result<ShopEvent> event = Settling(base, happened).settle(note);
        if (!event) {
            return event;
        }
        const std::vector<hand::Lock> broken = hand::locksBroken(*base.plan, event.value().plan);
        if (broken.empty()) {
            return event;
        }
        const std::string names = hand::namesOf(before, broken);
        const bool isOne = broken.size() == 1;
        if (!note.unlock) {
            return refused(names + (isOne
                                        ? " is locked and would not stay as it is. Unlock it first."
                                        : " are locked and would not stay as they are. Unlock "
                                          "them first."));
        }
        base.plan = without(std::move(*base.plan), broken);
        happened.after.plan = without(std::move(*happened.after.plan), broken);
        happened.what += (isOne ? " The lock on " : " The locks on ") + names +
                         (isOne ? " is" : " are") + " taken off.";
    }
}

} // namespace stavewright::midjob
