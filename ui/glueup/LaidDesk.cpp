#include "ui/glueup/LaidDesk.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QShortcut>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/document/Limits.h"
#include "core/glueup/LaidPlace.h"
#include "core/panels/LaidEdits.h"
#include "ui/glueup/JointCanvas.h"
#include "ui/layout/FacePictures.h"
#include "ui/lumber/CanvasPicture.h"
#include "ui/lumber/PhotoCanvas.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthEdit.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

LaidDesk::LaidDesk(DocumentSession& session, std::function<const panels::Panel*()> panel,
                   QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_panel(std::move(panel))
    , m_canvases(new QStackedWidget(this))
    , m_corners(new PhotoCanvas(this))
    , m_picture(new CanvasPicture(*m_corners, m_worker, this))
    , m_joints(new JointCanvas(this)) {
    setObjectName("laidDesk");
    setAcceptDrops(true);
    m_worker.setMaxThreadCount(1);
    m_canvases->addWidget(m_corners);
    m_canvases->addWidget(m_joints);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(makeBar());
    layout->addWidget(m_canvases, 1);
    layout->addWidget(makeFoot());
    connectCanvases();
    setFocusProxy(m_corners);
    auto* add = new QShortcut(QKeySequence("Ctrl+Shift+I"), this);
    add->setContext(Qt::WidgetWithChildrenShortcut);
    connect(add, &QShortcut::activated, this, &LaidDesk::addPhoto);
}

LaidDesk::~LaidDesk() {
    m_stop.request_stop();
    m_worker.clear();
    m_worker.waitForDone();
}

QWidget* LaidDesk::makeBar() {
    auto* bar = new QWidget(this);
    auto* rows = new QVBoxLayout(bar);
    rows->setContentsMargins(8, 4, 8, 4);
    rows->setSpacing(2);
    auto* first = new QHBoxLayout;
    auto* second = new QHBoxLayout;
    for (QHBoxLayout* row : {first, second}) {
        row->setSpacing(4);
        rows->addLayout(row);
    }
    const auto button = [bar](QHBoxLayout* row, const char* name, const QString& text,
                              const QString& tip, bool checkable = false) {
        auto* made = new QToolButton(bar);
        made->setObjectName(name);
        made->setText(text);
        made->setToolTip(tip);
        made->setAutoRaise(true);
        made->setCheckable(checkable);
        made->setFocusPolicy(Qt::TabFocus);
        row->addWidget(made);
        return made;
    };
    auto* leave = button(first, "laidLeave", tr("To the panel"), tr("Back to the panel (Esc)"));
    m_showFace = button(first, "laidShowFace", tr("Show face"),
                        tr("The photograph of the face that shows"), true);
    m_back = button(first, "laidBack", tr("Back"),
                    tr("A photograph of the other face, if you want one (V)"), true);
    first->addStretch(1);
    auto* add = button(first, "laidAdd", tr("Add..."),
                       tr("Lay the staves side by side as the panel stands here, this face up, and "
                          "take them from above (Ctrl+Shift+I; a file can also be dropped here)"));
    auto* remove =
        button(first, "laidRemove", tr("Remove"),
               tr("Takes the photograph off the panel; Ctrl+Z brings it back (Shift+Del)"));
    m_cornersTool = button(second, "laidCorners", tr("Corners"),
                           tr("Where the four corners of all staves together lie (C)"), true);
    m_jointsTool =
        button(second, "laidJoints", tr("Joints"), tr("Where the staves meet (J)"), true);
    auto* turn = button(second, "laidTurn", tr("Turn round"),
                        tr("The photograph was taken from the other side of the bench: corners 1 "
                           "and 3, 2 and 4 change places (R)"));
    second->addStretch(1);
    auto* find = button(second, "laidFind", tr("Find joints"),
                        tr("Looks for each joint near where the widths put it (F)"));
    auto* widths = button(second, "laidWidths", tr("By the widths"),
                          tr("Puts the joints where the widths of the staves put them (W)"));
    auto* stands = button(second, "laidAsItStands", tr("As the panel stands"),
                          tr("The staves lie in the photograph as the panel stands now: order, "
                             "ends and faces are taken from it"));
    m_forPhoto = {remove, m_cornersTool, m_jointsTool, turn, find, widths, stands};
    connect(leave, &QToolButton::clicked, this, &LaidDesk::leaveWanted);
    connect(add, &QToolButton::clicked, this, &LaidDesk::addPhoto);
    connect(remove, &QToolButton::clicked, this, &LaidDesk::removeShown);
    connect(m_showFace, &QToolButton::clicked, this, [this] { setFace(BoardFace::A); });
    connect(m_back, &QToolButton::clicked, this, [this] { setFace(BoardFace::B); });
    connect(m_cornersTool, &QToolButton::clicked, this, [this] { setStage(Stage::Corners); });
    connect(m_jointsTool, &QToolButton::clicked, this, [this] { setStage(Stage::Joints); });
    connect(find, &QToolButton::clicked, this, &LaidDesk::findJoints);
    connect(widths, &QToolButton::clicked, m_joints, &JointCanvas::widthsWanted);
    connect(turn, &QToolButton::clicked, this, &LaidDesk::turnRound);
    connect(stands, &QToolButton::clicked, this, &LaidDesk::asItStands);
    return bar;
}

QWidget* LaidDesk::makeFoot() {
    auto* foot = new QWidget(this);
    auto* column = new QVBoxLayout(foot);
    column->setContentsMargins(12, 4, 12, 6);
    column->setSpacing(4);
    m_words = new FractionLabel({}, foot);
    m_words->setObjectName("laidWords");
    m_words->setWrapped(true);
    column->addWidget(m_words);
    auto* sizes = new QHBoxLayout;
    const auto field = [&](const char* name, const QString& text, const QString& tip) {
        auto* words = new QLabel(text, foot);
        auto* edit = new LengthEdit(foot);
        edit->setObjectName(name);
        edit->setToolTip(tip);
        edit->field()->setAccessibleName(text);
        words->setBuddy(edit->field());
        sizes->addWidget(words);
        sizes->addWidget(edit);
        return edit;
    };
    m_length =
        field("laidLength", tr("&Length"), tr("Of all staves together, between the corners"));
    m_width = field("laidWidth", tr("&Width"), tr("Of all staves together, between the corners"));
    m_length->setRange(Length::millimetres(1), limits::longestBoard);
    m_width->setRange(Length::millimetres(1), limits::widestPart);
    sizes->addStretch(1);
    column->addLayout(sizes);
    connect(m_length, &LengthEdit::committed, this,
            [this](Length length) { takeSize(length, m_width->value()); });
    connect(m_width, &LengthEdit::committed, this,
            [this](Length width) { takeSize(m_length->value(), width); });
    return foot;
}

void LaidDesk::connectCanvases() {
    connect(m_corners, &PhotoCanvas::changed, this, &LaidDesk::takeMarks);
    connect(m_corners, &PhotoCanvas::leaveWanted, this, &LaidDesk::leaveWanted);
    m_corners->setRefit(
        [this](const photo::PhotoControls& controls) -> std::optional<photo::Straightening> {
            const LaidOut* laid = shown();
            if (laid == nullptr) {
                return std::nullopt;
            }
            auto fit = photo::straighten(controls, laid->photo.size);
            return fit ? std::optional(std::move(fit).value()) : std::nullopt;
        });
    connect(m_joints, &JointCanvas::leaveWanted, this, &LaidDesk::leaveWanted);
    connect(m_joints, &JointCanvas::findWanted, this, &LaidDesk::findJoints);
    connect(m_joints, &JointCanvas::widthsWanted, this, [this] {
        if (const LaidOut* now = shown()) {
            LaidOut laid = *now;
            laid.joints = panels::predictedJoints(laid);
            laid.lies.clear();
            change(tr("Joints of %1 by the widths").arg(label()), std::move(laid));
        }
    });
    connect(m_joints, &JointCanvas::placed, this,
            [this](std::size_t joint, Length at, const JointLie& lie, bool nudge) {
                const LaidOut* now = shown();
                if (now != nullptr && joint < now->joints.size()) {
                    change(tr("Move joint %1 of %2").arg(joint + 1).arg(label()),
                           panels::withJoint(*now, joint, at, lie),
                           nudge ? std::optional(static_cast<int>(joint) + 600) : std::nullopt);
                }
            });
    m_joints->setPicture([this]() -> const FacePhoto* {
        const LaidOut* laid = shown();
        return laid != nullptr
                   ? FacePictures::of(m_session).findBest(glueup::asBoard(*laid), laid->photo.face)
                   : nullptr;
    });
    connect(&FacePictures::of(m_session), &FacePictures::ready, m_joints,
            [this] { m_joints->update(); });
}

const LaidOut* LaidDesk::shown() const {
    const panels::Panel* panel = m_panel();
    return panel != nullptr ? panels::findLaidOut(m_session.document().glueUp, panel->name, m_face)
                            : nullptr;
}

QString LaidDesk::label() const {
    const panels::Panel* panel = m_panel();
    return panel != nullptr ? words(panel->label) : QString();
}

void LaidDesk::keyPressEvent(QKeyEvent* event) {
    if (event->modifiers() == Qt::ShiftModifier && event->key() == Qt::Key_Delete) {
        return removeShown();
    }
    if (event->modifiers() != Qt::NoModifier) {
        return QWidget::keyPressEvent(event);
    }
    switch (event->key()) {
    case Qt::Key_C:
        return setStage(Stage::Corners);
    case Qt::Key_J:
        return setStage(Stage::Joints);
    case Qt::Key_R:
        return turnRound();
    case Qt::Key_V:
        return setFace(m_face == BoardFace::A ? BoardFace::B : BoardFace::A);
    case Qt::Key_Escape:
        return emit leaveWanted();
    default:
        QWidget::keyPressEvent(event);
    }
}

void LaidDesk::setFace(BoardFace face) {
    m_face = face;
    m_corners->setPicked(std::nullopt);
    refresh();
}

void LaidDesk::setStage(Stage stage) {
    m_stage = stage;
    m_canvases->setCurrentIndex(stage == Stage::Corners ? 0 : 1);
    setFocusProxy(m_canvases->currentWidget());
    refresh();
    m_canvases->currentWidget()->setFocus(Qt::TabFocusReason);
}

void LaidDesk::refresh() {
    const LaidOut* laid = shown();
    m_showFace->setChecked(m_face == BoardFace::A);
    m_back->setChecked(m_face == BoardFace::B);
    m_cornersTool->setChecked(m_stage == Stage::Corners);
    m_jointsTool->setChecked(m_stage == Stage::Joints);
    for (QToolButton* tool : m_forPhoto) {
        tool->setEnabled(laid != nullptr);
    }
    const LengthStyle style = m_session.lengthStyle();
    for (LengthEdit* edit : {m_length, m_width}) {
        edit->setStyleOfLength(style);
        edit->setEnabled(laid != nullptr);
    }
    m_fit.reset();
    m_trouble.clear();
    if (laid != nullptr) {
        m_length->setValue(laid->photo.size.length);
        m_width->setValue(laid->photo.size.widthAtDatum);
        auto fit = photo::straighten(laid->photo.controls, laid->photo.size);
        if (fit) {
            m_fit = std::move(fit).value();
        } else {
            m_trouble = words(fit.error().message);
        }
        m_corners->setMarks(laid->photo.controls, laid->photo.size, m_fit);
        const panels::Panel* panel = m_panel();
        std::vector<QString> labels;
        for (const LaidStave& stave : laid->staves) {
            QString name = tr("no longer planned");
            for (const panels::PanelStave& each : panel->staves) {
                if (glueup::isSameWood(stave, each.board, each.frame, each.net)) {
                    name = words(each.label);
                }
            }
            labels.push_back(name);
        }
        m_joints->setLaidOut(*laid, std::move(labels));
    } else {
        if (const panels::Panel* panel = m_panel()) { // what will be asked of it
            m_length->setValue(panels::laidSize(*panel).length);
            m_width->setValue(panels::laidSize(*panel).widthAtDatum);
        }
        m_joints->clear(tr("No photograph of this face of the staves yet."));
    }
    load();
    say();
}

LengthStyle LaidDesk::wholeUnits() const { return {m_session.lengthStyle().units, 8, true}; }

void LaidDesk::say() {
    const LaidOut* laid = shown();
    const QString lean = readingText(mostJointLean, wholeUnits());
    const QString gap = readingText(mostJointGap, wholeUnits());
    if (m_reading > 0) {
        m_words->setSign(Sign::None);
        m_words->setText(tr("Reading the photograph..."));
    } else if (laid == nullptr) {
        m_words->setSign(Sign::None);
        m_words->setText(
            tr("Lay the milled staves side by side as the panel stands here, ends even, and take "
               "them from above. The photograph replaces those of the boards. A stave that lies "
               "askew can be put right here up to %1 over its length and %2 from its neighbour; "
               "one that was slid lengthwise cannot.")
                .arg(lean, gap));
    } else if (!m_fit) {
        m_words->setSign(Sign::Triangle);
        m_words->setText(m_trouble);
    } else if (m_stage == Stage::Corners) {
        constexpr Length muchOff = Length::inches(1, 4);
        m_words->setSign(m_fit->worstExpected > muchOff ? Sign::Triangle : Sign::Tick);
        m_words->setText(
            tr("Corners: 1 and 2 on the near edge, left and right, 3 and 4 on the far edge, right "
               "and left. Drag them, or pick them by 1 to 4 and move them by the arrows. What lies "
               "between may be off by about %1.")
                .arg(readingText(m_fit->worstExpected, {m_session.lengthStyle().units, 64, true})));
    } else {
        m_words->setSign(Sign::Tick);
        m_words->setText(
            tr("Joints: Tab picks one, Up and Down move it (Shift far, Ctrl fine); Left and Right "
               "lean it, up to %1, + and − open a gap, up to %2; F finds them, W puts them by the "
               "widths. Staves that lie worse, or not with their ends even: push them together "
               "and take them again.")
                .arg(lean, gap));
    }
}

} // namespace stavewright::ui
