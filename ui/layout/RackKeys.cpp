// What the keys do to blanks on the rack: in the hand, and lying on their boards.

#include <QKeyEvent>

#include <algorithm>

#include "core/hand/HandEdits.h"
#include "ui/layout/BoardItem.h"
#include "ui/layout/RackView.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/ReadingPrompt.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString labelOfBlank(const Document& document, BlankId id) {
    const auto place = document.plan ? hand::placeOf(*document.plan, id) : std::nullopt;
    return place ? words(labelOf(document, hand::blankAt(*document.plan, *place).purpose))
                 : QString();
}

} // namespace

void RackView::pickUp() {
    const std::optional<BlankId> blank = m_session.selection().blank;
    if (!blank) {
        say(tr("Select a blank first: click it, or press Tab."));
    } else if (isOnOwnPlan()) {
        m_isAtPointer = false;
        m_hand.lift(*blank, std::nullopt);
    }
}

void RackView::pickUpFromTray(const BlankPurpose& purpose) {
    emit ownPlanWanted();
    m_isAtPointer = false;
    if (m_hand.liftFromTray(purpose)) {
        revealHeld();
        setFocus();
    }
}

void RackView::takeNextCut(int by) {
    if (!isOnOwnPlan()) {
        return;
    }
    m_isAtPointer = false;
    const Selection& selection = m_session.selection();
    const std::optional<Plan>& plan = m_session.document().plan;
    const auto place = selection.blank && plan ? hand::placeOf(*plan, *selection.blank)
                                               : std::optional<hand::TreePlace>();
    if (m_cuts.isHolding()) {
        m_cuts.takeNext(m_cuts.board(), std::nullopt, by);
    } else if (place) {
        m_cuts.takeNext(plan->boards[place->board].board, selection.blank, by);
    } else if (selection.board && plan) {
        m_cuts.takeNext(*selection.board, std::nullopt, by);
    } else {
        say(tr("Select a blank or a board first; C then takes its cuts in the hand."));
    }
}

bool RackView::handKey(QKeyEvent* event) {
    const bool isKnown = moveHeld(event);
    if (isKnown && !m_isDragging) {
        revealHeld();
    }
    return isKnown;
}

bool RackView::moveHeld(QKeyEvent* event) {
    const bool byTen = event->modifiers().testFlag(Qt::ShiftModifier);
    const int up = face() == BoardFace::A ? 1 : -1; // seen from face B the far edge hangs below
    switch (event->key()) {
    case Qt::Key_Right:
        m_hand.nudge(1, 0, byTen);
        return true;
    case Qt::Key_Left:
        m_hand.nudge(-1, 0, byTen);
        return true;
    case Qt::Key_Up:
        m_hand.nudge(0, up, byTen);
        return true;
    case Qt::Key_Down:
        m_hand.nudge(0, -up, byTen);
        return true;
    case Qt::Key_PageDown:
        m_hand.holdOverBoard(1);
        return true;
    case Qt::Key_PageUp:
        m_hand.holdOverBoard(-1);
        return true;
    case Qt::Key_E:
        m_hand.turnEndForEnd();
        return true;
    case Qt::Key_F:
        m_hand.turnFaceOver();
        return true;
    case Qt::Key_N:
        m_hand.takeNearest();
        return true;
    case Qt::Key_P:
        askReading(Dropped::StaysInHand);
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        m_isDragging = false;
        m_hand.lay();
        return true;
    case Qt::Key_Delete:
        m_isDragging = false;
        m_hand.layInTray();
        return true;
    case Qt::Key_Escape:
        putBack();
        return true;
    default:
        return false;
    }
}

bool RackView::putBack() {
    const bool isHolding = m_hand.isHolding() || m_cuts.isHolding();
    m_isDragging = false;
    m_pressedAt.reset();
    m_hand.putBack();
    m_cuts.putBack();
    if (isHolding) {
        viewport()->setCursor(Qt::ArrowCursor);
    }
    return isHolding;
}

/// With a cut in the hand.
bool RackView::cutKey(QKeyEvent* event) {
    const int by = event->modifiers().testFlag(Qt::ShiftModifier) ? 10 : 1;
    const int up = face() == BoardFace::A ? by : -by;
    switch (event->key()) {
    case Qt::Key_Right:
        m_cuts.nudge(by);
        return true;
    case Qt::Key_Left:
        m_cuts.nudge(-by);
        return true;
    case Qt::Key_Up:
        m_cuts.nudge(up);
        return true;
    case Qt::Key_Down:
        m_cuts.nudge(-up);
        return true;
    case Qt::Key_N:
        m_cuts.takeNearest();
        return true;
    case Qt::Key_P:
        askCutReading();
        return true;
    case Qt::Key_C:
        takeNextCut(by == 1 ? 1 : -1); // Shift goes back
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        m_cuts.lay();
        return true;
    case Qt::Key_Escape:
        putBack();
        return true;
    default:
        return false;
    }
}

/// With nothing in the hand: keys for the selected blank.
bool RackView::planKey(QKeyEvent* event) {
    return !(event->modifiers() & ~Qt::KeyboardModifiers(Qt::KeypadModifier)) &&
           press(event->key());
}

bool RackView::press(int key) {
    switch (key) {
    case Qt::Key_M:
        pickUp();
        return true;
    case Qt::Key_C:
        takeNextCut(1);
        return true;
    case Qt::Key_E:
        turnSelected(true);
        return true;
    case Qt::Key_F:
        turnSelected(false);
        return true;
    case Qt::Key_K:
        toggleLock();
        return true;
    case Qt::Key_Delete:
        layInTray();
        return true;
    case Qt::Key_P:
        pickUp();
        if (m_hand.isHolding()) {
            askReading(Dropped::PutsBack);
        }
        return true;
    case Qt::Key_X: {
        const std::optional<BlankId> blank = m_session.selection().blank;
        if (!blank) {
            pickUp(); // which says what is in the way
        } else if (!isOnOwnPlan()) {
            m_swapping.reset();
        } else if (m_swapping && *m_swapping != *blank) {
            swapWith(*blank);
        } else {
            m_swapping = blank;
            say(swapWords(std::nullopt));
        }
        return true;
    }
    default:
        return false;
    }
}

void RackView::turnSelected(bool endForEnd) {
    pickUp();
    if (!m_hand.isHolding()) {
        return;
    }
    if (endForEnd) {
        m_hand.turnEndForEnd();
    } else {
        m_hand.turnFaceOver();
    }
    const QString label = labelOfBlank(m_session.document(), *m_session.selection().blank);
    if (m_hand.held()->isLegal && m_hand.lay()) {
        say((endForEnd ? tr("%1 is turned end for end. Ctrl+Z takes it back.")
                       : tr("%1 is turned face over. Ctrl+Z takes it back."))
                .arg(label));
    } // else it stays in the hand, with what is in the way and the nearest place that would do
}

QString RackView::swapWords(std::optional<BlankId> under) const {
    const QString first = labelOfBlank(m_session.document(), *m_swapping);
    return under && *under != *m_swapping
               ? tr("Click, and %1 and %2 change places. Esc ends it.")
                     .arg(first, labelOfBlank(m_session.document(), *under))
               : tr("%1 changes places with the blank you click, or go to and press X. Esc ends "
                    "it.")
                     .arg(first);
}

void RackView::swapWith(BlankId blank) {
    const BlankId first = *m_swapping;
    m_swapping.reset();
    const Document& document = m_session.document();
    const QString one = labelOfBlank(document, first);
    const QString other = labelOfBlank(document, blank);
    const Result<Edit> edit = hand::swap(document, first, blank);
    if (!edit) {
        say(words(edit.error().message));
        return;
    }
    Document tried = document;
    if (!apply(tried, edit.value())) {
        return;
    }
    const AuditReport report = audit(tried);
    if (report.failures() > m_session.auditReport().failures()) {
        // What was wrong before is not why.
        const std::vector<Finding>& before = m_session.auditReport().findings;
        const auto why = std::find_if(
            report.findings.begin(), report.findings.end(), [&](const Finding& finding) {
                return finding.severity == Severity::Failure &&
                       std::none_of(before.begin(), before.end(), [&](const Finding& known) {
                           return known.sentence == finding.sentence;
                       });
            });
        say(tr("%1 and %2 cannot change places. %3")
                .arg(one, other,
                     words(why == report.findings.end() ? std::string() : why->sentence)));
        return;
    }
    if (m_session.edit(tr("Swap %1 and %2").arg(one, other), edit.value())) {
        say(tr("%1 and %2 have changed places. Ctrl+Z takes it back.").arg(one, other));
    }
}

void RackView::layInTray() {
    const std::optional<BlankId> blank = m_session.selection().blank;
    if (!blank) {
        pickUp(); // which says what is in the way
        return;
    }
    if (!isOnOwnPlan()) {
        return;
    }
    const QString label = labelOfBlank(m_session.document(), *blank);
    const Result<Edit> edit = hand::backToTray(m_session.document(), *blank);
    if (!edit) {
        say(words(edit.error().message));
        return;
    }
    if (m_session.edit(tr("Lay %1 in the tray").arg(label), edit.value())) {
        say(tr("%1 lies in the tray, below the parts. Ctrl+Z takes it back.").arg(label));
    }
}

void RackView::toggleLock() {
    const Selection& selection = m_session.selection();
    const Document& document = m_session.document();
    if (!document.plan || (!selection.blank && !selection.board)) {
        say(tr("Select a blank or a board of the plan first; K then locks it where it is."));
        return;
    }
    if (!isOnOwnPlan()) {
        return;
    }
    if (selection.blank) {
        const auto place = hand::placeOf(*document.plan, *selection.blank);
        const bool locked = place && hand::blankAt(*document.plan, *place).locked;
        const Result<Edit> edit = hand::setLocked(document, *selection.blank, !locked);
        if (!edit) {
            say(words(edit.error().message));
            return;
        }
        const QString label = labelOfBlank(document, *selection.blank);
        const bool stays = locked && (hand::sectionAt(*document.plan, *place).locked ||
                                      document.plan->boards[place->board].locked);
        m_session.edit(locked ? tr("Unlock %1").arg(label) : tr("Lock %1").arg(label),
                       edit.value());
        say(stays ? tr("%1 is unlocked, but its section or its board is locked.").arg(label)
            : locked
                ? tr("%1 is unlocked: planning may move it.").arg(label)
                : tr("%1 is locked: planning leaves it where it is. K unlocks it.").arg(label));
        return;
    }
    if (selection.board) {
        const BoardLayout* layout = hand::layoutOf(*document.plan, *selection.board);
        const bool locked = layout != nullptr && layout->locked;
        const Result<Edit> edit = hand::setLocked(document, *selection.board, !locked);
        if (!edit) {
            say(words(edit.error().message));
            return;
        }
        const QString mark = words(findBoard(document, *selection.board)->mark);
        m_session.edit(locked ? tr("Unlock board %1").arg(mark) : tr("Lock board %1").arg(mark),
                       edit.value());
        say(locked ? tr("Board %1 is unlocked: planning may cut it otherwise.").arg(mark)
                   : tr("Board %1 is locked: nothing on it moves. K unlocks it.").arg(mark));
    }
}

void RackView::askReading(Dropped dropped) {
    const Rect box = boundingBox(m_hand.held()->outline);
    const ReadingPrompt* prompt = ask(tr("Datum-side end at"), box.x0, [this](Length reading) {
        m_hand.holdAtReading(reading);
        revealHeld();
    });
    if (dropped == Dropped::PutsBack) { // it was lifted for the question alone
        connect(prompt, &ReadingPrompt::dropped, &m_hand, &HandTool::putBack);
    }
}

void RackView::askCutReading() {
    ask(tr("Cut at"), m_cuts.held()->where,
        [this](Length reading) { m_cuts.holdAtReading(reading); });
}

ReadingPrompt* RackView::ask(const QString& question, Length now,
                             const std::function<void(Length)>& take) {
    auto* prompt = new ReadingPrompt(question, now, m_session.lengthStyle(), this);
    prompt->move(viewport()->geometry().topLeft() + QPoint(12, 12));
    connect(prompt, &ReadingPrompt::given, this, [this, take](Length reading) {
        take(reading);
        setFocus();
    });
    connect(prompt, &ReadingPrompt::dropped, this, [this] { setFocus(); });
    prompt->show();
    prompt->begin();
    return prompt;
}

} // namespace stavewright::ui
