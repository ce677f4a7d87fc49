#include "ui/midjob/ShopEvents.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTime>

#include <algorithm>

#include "core/hand/CutDrag.h"
#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/layout/PieceState.h"
#include "core/layout/StateNames.h"
#include "core/lumber/MarkPlace.h"
#include "core/midjob/MadeCuts.h"
#include "core/midjob/Mishaps.h"
#include "core/midjob/PlanRest.h"
#include "core/midjob/Standby.h"
#include "ui/midjob/LogPage.h"
#include "ui/midjob/ShopDialog.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

using midjob::Note;
using midjob::ShopEvent;

Note noteOf(const ShopDialog::Said& said) {
    return {QDateTime::currentSecsSinceEpoch(), said.why, said.unlock};
}

Result<ShopDialog::Made> made(Result<ShopEvent> event) {
    if (!event) {
        return event.error();
    }
    QStringList remedies;
    for (const std::string& remedy : event.value().remedies) {
        remedies << words(remedy);
    }
    const bool loses = !event.value().lost.empty() || !event.value().missing.empty();
    return ShopDialog::Made{std::move(event.value().edit), words(event.value().sentence), remedies,
                            loses};
}

Result<ShopDialog::Made> cutMoved(const Document& now, BoardId board, const hand::CutRef& cut,
                                  Length where, std::size_t failuresBefore) {
    const Result<Edit> edit = hand::moveCut(now, board, cut, where);
    if (!edit) {
        return edit.error();
    }
    Document tried = now;
    if (const Result<Edit> done = apply(tried, edit.value()); !done) {
        return done.error();
    }
    const AuditReport report = audit(tried);
    if (report.failures() > failuresBefore) {
        return Error{ErrorCode::BadInput, report.findings.front().sentence, {}};
    }
    return ShopDialog::Made{
        edit.value(), ShopEvents::tr("Everything still comes out of it."), {}, false};
}

Result<ShopDialog::Made> ruleKept(const Document& now, const BoardRule& rule,
                                  const LengthStyle& style) {
    Document tried = now;
    tried.boardRules.push_back(rule);
    if (const Status sound = validate(tried); !sound) {
        return sound.error();
    }
    const AuditReport report = audit(tried);
    const auto against =
        std::count_if(report.findings.begin(), report.findings.end(), [](const Finding& finding) {
            return finding.kind == FindingKind::AgainstBoardRule;
        });
    const QString place = rule.along ? ShopEvents::tr(" from %1 to %2")
                                           .arg(readingText(rule.along->from, style),
                                                readingText(rule.along->to, style))
                                     : QString();
    const QString kept =
        (rule.kind == BoardRule::Kind::KeptFor ? ShopEvents::tr("Board %1%2 is kept for %3")
                                               : ShopEvents::tr("Board %1%2 is not for %3"))
            .arg(words(findBoard(now, rule.board)->mark), place,
                 words(findPart(now, rule.part)->mark));
    return ShopDialog::Made{
        Edit{ReplaceBoardRules{tried.boardRules}},
        !now.plan ? kept + '.'
        : against == 0
            ? ShopEvents::tr("%1; the plan keeps to that already.").arg(kept)
            : ShopEvents::tr(
                  "%1; %2 of the plan's blanks lie against it: plan again, or move them.")
                  .arg(kept)
                  .arg(against),
        {},
        false};
}

/// A mark as it is typed.
struct FoundMark {
    DefectKind kind = {};
    midjob::OnBlank where; ///< or, in the same words, on the board
    bool isThrough = false;
};

Result<Defect> markedOnBoard(const Document& now, BoardId board, const FoundMark& mark) {
    if (mark.where.length <= Length() || mark.where.width <= Length()) {
        return Error{ErrorCode::BadInput, "The mark needs a length and a width above nothing.", {}};
    }
    Defect defect;
    defect.kind = mark.kind;
    defect.through = mark.isThrough;
    (mark.where.face == BoardFace::A ? defect.onA : defect.onB) =
        markAt(findBoard(now, board)->outline, mark.kind,
               {mark.where.along, mark.where.across, mark.where.length, mark.where.width});
    return defect;
}

QStringList kindNames() {
    QStringList names;
    for (const DefectKind kind : allDefectKinds) {
        names << words(nameOf(kind));
    }
    return names;
}

} // namespace

ShopEvents::ShopEvents(DocumentSession& session, QWidget* window)
    : QObject(window)
    , m_session(session)
    , m_window(window) {}

ShopDialog* ShopEvents::dialog(const QString& title, const QString& step) {
    auto* shown = new ShopDialog(title, m_session, m_window);
    connect(shown, &ShopDialog::taken, this,
            [this, step](const Edit& edit, const QString& sentence, const QStringList& remedies) {
                take(step, edit, sentence, remedies);
            });
    return shown;
}

void ShopEvents::take(const QString& step, const Edit& edit, const QString& sentence,
                      const QStringList& remedies) {
    const std::optional<Plan> before = m_session.document().plan;
    if (!m_session.edit(step, edit)) {
        return;
    }
    const std::optional<Plan>& after = m_session.document().plan;
    bool isWorthPlanning = false;
    if (before && after) {
        const midjob::Moved moved = midjob::movedBetween(*before, *after);
        isWorthPlanning = !after->unplaced.empty() || !moved.moved.empty() || !moved.lost.empty();
    }
    emit told(sentence, remedies, isWorthPlanning);
}

const Board* ShopEvents::board() {
    const Document& document = m_session.document();
    const Selection& selection = m_session.selection();
    if (selection.blank && document.plan) {
        if (const auto place = hand::placeOf(*document.plan, *selection.blank)) {
            return findBoard(document, document.plan->boards[place->board].board);
        }
    }
    return selection.board ? findBoard(document, *selection.board) : nullptr;
}

const Board* ShopEvents::planned() {
    if (!m_session.document().plan) {
        emit refused(tr("There is no plan yet. Plan first (F9); then the shop's work is marked."));
        return nullptr;
    }
    const Board* found = board();
    if (found == nullptr) {
        emit refused(tr("Select the board first, or a blank on it."));
    }
    return found;
}

void ShopEvents::cutMade(BoardId id, const hand::CutRef& cut) {
    const Document& document = m_session.document();
    const Board* on = findBoard(document, id);
    if (on == nullptr || !document.plan) {
        return;
    }
    const std::optional<Length> mark = hand::markOf(document, id, cut);
    if (!mark) {
        return;
    }
    const hand::SafeWindows windows(document);
    const QString title =
        tr("%1 made on board %2").arg(words(hand::nameOf(cut.kind())), words(on->mark));
    ShopDialog* shown = dialog(title, title);
    const std::optional<hand::CutWindow> window = windows.windowOf(id, cut);
    shown->say(window ? tr("Mark %1: %2.")
                            .arg(readingText(*mark, m_session.lengthStyle()),
                                 words(hand::sentenceOf(document, *window)))
                      : tr("Mark %1. The plan has other troubles here, so no limits are known.")
                            .arg(readingText(*mark, m_session.lengthStyle())));
    shown->sayLater([id, window](const Document& now) {
        QStringList sentences;
        for (const std::string& standby : midjob::standbysFor(now, id, window)) {
            sentences << words(standby);
        }
        return sentences;
    });
    LengthEdit* where = shown->length(
        "where",
        cut.kind() == hand::CutKind::Rip      ? tr("Made at, from the straightened edge")
        : cut.kind() == hand::CutKind::Second ? tr("Made at, on the tape along the strip")
                                              : tr("Made at, on the tape"),
        *mark);
    const QComboBox* before = nullptr;
    if (const int earlier = static_cast<int>(midjob::earlierThan(document, id, cut).size())) {
        before = shown->choice("earlier",
                               earlier == 1 ? tr("The cut before it")
                                            : tr("The %1 cuts before it").arg(earlier),
                               {earlier == 1 ? tr("made on its mark") : tr("made on their marks"),
                                tr("still to be made")});
    }
    shown->begin(
        [id, cut, where, before](const ShopDialog::Said& said) -> ShopDialog::Work {
            const bool isStill = before != nullptr && before->currentIndex() == 1;
            return [id, cut, at = where->value(), note = noteOf(said),
                    earlier = isStill ? midjob::Earlier::StillToMake
                                      : midjob::Earlier::MadeOnTheirMarks](const Document& now) {
                return made(midjob::cutMade(now, id, cut, at, note, earlier));
            };
        },
        tr("Record the cut"));
}

void ShopEvents::moveCut(BoardId id, const hand::CutRef& cut) {
    const Document& document = m_session.document();
    const Board* on = findBoard(document, id);
    if (on == nullptr || !document.plan) {
        return;
    }
    const std::optional<Length> mark = hand::markOf(document, id, cut);
    if (!mark) {
        return;
    }
    const QString title = cut.strip ? tr("Move a rip on board %1").arg(words(on->mark))
                                    : tr("Move a crosscut on board %1").arg(words(on->mark));
    ShopDialog* shown = dialog(title, title);
    shown->leaveOutWhy();
    LengthEdit* where = shown->length(
        "where", cut.strip ? tr("From the straightened edge") : tr("On the tape"), *mark);
    shown->begin(
        [this, id, cut, where](const ShopDialog::Said&) -> ShopDialog::Work {
            return [id, cut, at = where->value(), failures = m_session.auditReport().failures()](
                       const Document& now) { return cutMoved(now, id, cut, at, failures); };
        },
        tr("Move it"));
}

void ShopEvents::keepBoard(BoardId id) {
    const Document& document = m_session.document();
    const Board* on = findBoard(document, id);
    if (on == nullptr || document.parts.empty()) {
        return;
    }
    const QString mark = words(on->mark);
    ShopDialog* shown = dialog(tr("Board %1 and a part").arg(mark), tr("Keep board %1").arg(mark));
    shown->leaveOutWhy();
    QComboBox* kind = shown->choice("kind", tr("The board is"),
                                    {tr("kept for the part"), tr("not for the part")});
    QStringList names;
    for (const Part& part : document.parts) {
        names << QString("%1  %2").arg(words(part.mark), words(part.name));
    }
    QComboBox* part = shown->choice("part", tr("Part"), names);
    LengthEdit* from = shown->length("from", tr("From, on the tape"), Length());
    LengthEdit* to = shown->length("to", tr("To"), lengthOf(*on));
    shown->begin(
        [this, id, kind, part, from, to](const ShopDialog::Said&) -> ShopDialog::Work {
            const Document& asIs = m_session.document();
            BoardRule rule;
            rule.kind =
                kind->currentIndex() == 0 ? BoardRule::Kind::KeptFor : BoardRule::Kind::KeptOff;
            rule.board = id;
            rule.part = asIs.parts[static_cast<std::size_t>(part->currentIndex())].id;
            if (from->value() > Length() || to->value() < lengthOf(*findBoard(asIs, id))) {
                rule.along = Stretch{from->value(), to->value()};
            }
            return [rule, style = m_session.lengthStyle()](const Document& now) {
                return ruleKept(now, rule, style);
            };
        },
        tr("Set the rule"));
}

void ShopEvents::setAside(BoardId id, bool aside) {
    const Document& document = m_session.document();
    const Result<Edit> edit = hand::setAside(document, id, aside);
    if (!edit) {
        emit refused(words(edit.error().message));
        return;
    }
    const QString mark = words(findBoard(document, id)->mark);
    m_session.edit(aside ? tr("Set board %1 aside").arg(mark) : tr("Let board %1 be cut").arg(mark),
                   edit.value());
}

void ShopEvents::lockSection(SectionId section, bool locked) {
    const Result<Edit> edit = hand::setLocked(m_session.document(), section, locked);
    if (!edit) {
        emit refused(words(edit.error().message));
        return;
    }
    m_session.edit(locked ? tr("Lock a section") : tr("Unlock a section"), edit.value());
}

void ShopEvents::nextCutMade() {
    const Board* on = planned();
    if (on == nullptr) {
        return;
    }
    const std::vector<hand::CutRef> cuts = hand::cutsOn(m_session.document(), on->id);
    if (cuts.empty()) {
        emit refused(tr("No cut is left to make on board %1.").arg(words(on->mark)));
        return;
    }
    cutMade(on->id, cuts.front());
}

void ShopEvents::allCutsMade() {
    const Board* on = planned();
    if (on == nullptr) {
        return;
    }
    const QString title = tr("All cuts made on board %1").arg(words(on->mark));
    ShopDialog* shown = dialog(title, title);
    shown->say(tr("Each on its mark. Where one landed off, mark that one by itself first."));
    shown->begin(
        [id = on->id](const ShopDialog::Said& said) -> ShopDialog::Work {
            return [id, note = noteOf(said)](const Document& now) {
                return made(midjob::allCutsMade(now, id, note));
            };
        },
        tr("They are made"));
}

Length ShopEvents::inUnits(Length inInches, Length inMillimetres) const {
    return m_session.document().info.units == UnitSystem::Inches ? inInches : inMillimetres;
}

void ShopEvents::freshEnd() {
    const Board* on = planned();
    if (on == nullptr) {
        return;
    }
    const QString title = tr("Fresh end on board %1").arg(words(on->mark));
    ShopDialog* shown = dialog(title, title);
    // At least what is off already.
    const Length off = inUnits(Length::inches(1), Length::millimetres(25));
    const Length low = std::max(on->trimAtDatum, off);
    const Length high = lengthOf(*on) - std::max(on->trimAtFar, off);
    QComboBox* end = shown->choice("end", tr("At the"), {tr("datum end"), tr("far end")});
    LengthEdit* where = shown->length("where", tr("The end stands now at, on the tape"), low);
    shown->startAt(where); // mostly it is the datum end
    connect(end, &QComboBox::currentIndexChanged, where,
            [where, low, high](int at) { where->setValue(at == 0 ? low : high); });
    shown->begin(
        [id = on->id, end, where](const ShopDialog::Said& said) -> ShopDialog::Work {
            return [id, which = end->currentIndex() == 0 ? hand::End::Low : hand::End::High,
                    at = where->value(), note = noteOf(said)](const Document& now) {
                return made(midjob::freshEnd(now, id, which, at, note));
            };
        },
        tr("Record the fresh end"));
}

void ShopEvents::knotFound() {
    const Board* on = planned();
    if (on == nullptr) {
        return;
    }
    const Document& document = m_session.document();
    const std::optional<BlankId> blank = m_session.selection().blank;
    const auto place = blank ? hand::placeOf(*document.plan, *blank) : std::nullopt;
    const QString title =
        place ? tr("Found on %1")
                    .arg(words(labelOf(document, hand::blankAt(*document.plan, *place).purpose)))
              : tr("Found on board %1").arg(words(on->mark));
    ShopDialog* shown = dialog(title, title);
    shown->say(place ? tr("Measured on the blank, from its own left end and near edge, as its part "
                          "lies.")
                     : tr("Measured on the board, from its datum end and near edge."));
    QComboBox* kind = shown->choice("kind", tr("What"), kindNames());
    QComboBox* face = shown->choice("face", tr("On"), {tr("face A"), tr("face B")});
    const Length half = inUnits(Length::inches(1, 2), Length::millimetres(10));
    LengthEdit* along = shown->length("along", tr("Begins, along"),
                                      inUnits(Length::inches(2), Length::millimetres(50)));
    LengthEdit* across = shown->length("across", tr("Begins, across"), half);
    LengthEdit* length = shown->length("length", tr("Long"), half);
    LengthEdit* width = shown->length("width", tr("Wide"), half);
    QCheckBox* through = shown->tick("through", tr("goes through to the other face"));
    shown->begin(
        [id = on->id, blank = place ? blank : std::nullopt, kind, face, along, across, length,
         width, through](const ShopDialog::Said& said) -> ShopDialog::Work {
            FoundMark mark;
            mark.kind = allDefectKinds[static_cast<std::size_t>(kind->currentIndex())];
            mark.isThrough = through->isChecked();
            mark.where = {along->value(), across->value(), length->value(), width->value(),
                          face->currentIndex() == 0 ? BoardFace::A : BoardFace::B};
            return [id, blank, mark, note = noteOf(said)](const Document& now) {
                const Result<Defect> defect =
                    blank
                        ? midjob::markedOnBlank(now, *blank, mark.kind, mark.where, mark.isThrough)
                        : markedOnBoard(now, id, mark);
                return defect ? made(midjob::defectFound(now, id, defect.value(), note))
                              : Result<ShopDialog::Made>(defect.error());
            };
        },
        tr("Record the defect"));
}

void ShopEvents::spoiled() {
    const Document& document = m_session.document();
    const std::optional<BlankId> blank = m_session.selection().blank;
    const auto place =
        blank && document.plan ? hand::placeOf(*document.plan, *blank) : std::nullopt;
    if (!place) {
        emit refused(tr("Select the blank that is spoiled, on its board or in the list of parts."));
        return;
    }
    const QString title =
        tr("%1 is spoiled")
            .arg(words(labelOf(document, hand::blankAt(*document.plan, *place).purpose)));
    ShopDialog* shown = dialog(title, title);
    shown->begin(
        [id = *blank](const ShopDialog::Said& said) -> ShopDialog::Work {
            return [id, note = noteOf(said)](const Document& now) {
                return made(midjob::spoiled(now, id, note));
            };
        },
        tr("Mark it spoiled"));
}

void ShopEvents::sizeMeasured(BlankId blank) {
    const Document& document = m_session.document();
    const auto place = document.plan ? hand::placeOf(*document.plan, blank) : std::nullopt;
    if (!place) {
        return;
    }
    const Blank& asIs = hand::blankAt(*document.plan, *place);
    const Rect wood = woodOf(asIs);
    const QString title = tr("%1 measured").arg(words(labelOf(document, asIs.purpose)));
    ShopDialog* shown = dialog(title, title);
    shown->say(tr("As it lies on the bench, cut off its strip."));
    LengthEdit* length = shown->length("length", tr("Long"), wood.length());
    LengthEdit* width = shown->length("width", tr("Wide"), wood.width());
    shown->begin(
        [blank, length, width](const ShopDialog::Said& said) -> ShopDialog::Work {
            return [blank, is = std::pair(length->value(), width->value()),
                    note = noteOf(said)](const Document& now) {
                return made(midjob::sizeMeasured(now, blank, is.first, is.second, note));
            };
        },
        tr("Record the size"));
}

void ShopEvents::boardRejected() {
    const Board* on = planned();
    if (on == nullptr) {
        return;
    }
    const QString title = tr("Board %1 is rejected").arg(words(on->mark));
    ShopDialog* shown = dialog(title, title);
    shown->begin(
        [id = on->id](const ShopDialog::Said& said) -> ShopDialog::Work {
            return [id, note = noteOf(said)](const Document& now) {
                return made(midjob::boardRejected(now, id, note));
            };
        },
        tr("Reject it"));
}

void ShopEvents::warpMeasured() {
    const Board* on = planned();
    if (on == nullptr) {
        return;
    }
    const Document& document = m_session.document();
    const std::optional<BlankId> blank = m_session.selection().blank;
    const auto place = blank ? hand::placeOf(*document.plan, *blank) : std::nullopt;
    Stretch along{Length(), lengthOf(*on)};
    if (place) {
        along = hand::sectionAt(*document.plan, *place).along;
    }
    const QString title = tr("Warp of board %1 measured again").arg(words(on->mark));
    ShopDialog* shown = dialog(title, title);
    shown->say(place ? tr("Measured on the section from %1 to %2.")
                           .arg(readingText(along.from, m_session.lengthStyle()),
                                readingText(along.to, m_session.lengthStyle()))
                     : tr("Measured on the whole board."));
    LengthEdit* bow = shown->length("bow", tr("Bow"), place ? Length() : on->warp.bow);
    LengthEdit* cup = shown->length("cup", tr("Cup"), place ? Length() : on->warp.cup);
    LengthEdit* twist = shown->length("twist", tr("Twist"), place ? Length() : on->warp.twist);
    shown->begin(
        [id = on->id, along, width = widthOf(*on), bow, cup,
         twist](const ShopDialog::Said& said) -> ShopDialog::Work {
            Warp measured;
            measured.bow = bow->value();
            measured.cup = cup->value();
            measured.twist = twist->value();
            return [id, along, width, measured, note = noteOf(said)](const Document& now) {
                return made(midjob::warpMeasured(now, id, along, width, measured, note));
            };
        },
        tr("Record the warp"));
}

void ShopEvents::stateReached(BlankId blank, CutState state) {
    const Document& document = m_session.document();
    const auto place = document.plan ? hand::placeOf(*document.plan, blank) : std::nullopt;
    if (!place) {
        return;
    }
    const QString label = words(labelOf(document, hand::blankAt(*document.plan, *place).purpose));
    const Result<ShopEvent> event = midjob::stateReached(document, blank, state, noteOf({}));
    if (!event) {
        emit refused(words(event.error().message));
        return;
    }
    take(tr("%1 is %2").arg(label, words(nameOf(state))), event.value().edit,
         words(event.value().sentence), {});
}

void ShopEvents::nextState() {
    const Document& document = m_session.document();
    const std::optional<BlankId> blank = m_session.selection().blank;
    const auto place =
        blank && document.plan ? hand::placeOf(*document.plan, *blank) : std::nullopt;
    if (!place) {
        emit refused(tr("Select the blank first, on its board or in the list of parts."));
        return;
    }
    const Blank& now = hand::blankAt(*document.plan, *place);
    const CutState is = stateOf(hand::sectionAt(*document.plan, *place), now);
    for (const CutState state : midjob::statesFor(document, now.purpose)) {
        if (state > is) {
            stateReached(*blank, state);
            return;
        }
    }
    emit refused(tr("%1 is at its final size already.").arg(words(labelOf(document, now.purpose))));
}

void ShopEvents::showLog() {
    auto* page = new LogPage(m_session, m_window);
    page->open();
}

} // namespace stavewright::ui
