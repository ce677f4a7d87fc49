#include "ui/lumber/PhotoDesk.h"

#include <QComboBox>
#include <QSplitter>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/CanvasPicture.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"
#include "ui/widgets/WrapLayout.h"

namespace stavewright::ui {

PhotoDesk::PhotoDesk(DocumentSession& session, std::function<const Board*()> board, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_board(std::move(board))
    , m_list(new QComboBox(this))
    , m_face(new QToolButton(this))
    , m_bar(new QWidget(this))
    , m_canvas(new PhotoCanvas(this))
    , m_picture(new CanvasPicture(*m_canvas, m_worker, this))
    , m_words(new FractionLabel({}, this)) {
    setObjectName("photoDesk");
    m_worker.setMaxThreadCount(1);
    makeBar();
    makeTables();
    m_marks->setMinimumWidth(170);
    m_facts->setMinimumWidth(160);
    m_marks->fitColumns();
    m_facts->fitColumns();
    auto* tables = new QSplitter(Qt::Horizontal, this);
    tables->setChildrenCollapsible(false);
    tables->addWidget(m_marks);
    // Three facts are as high as three rows; the marks may have more room than that.
    auto* measured = new QWidget(this);
    auto* measuredColumn = new QVBoxLayout(measured);
    measuredColumn->setContentsMargins(0, 0, 0, 0);
    measuredColumn->addWidget(m_facts);
    measuredColumn->addStretch(1);
    tables->addWidget(measured);
    tables->setStretchFactor(0, 1);
    tables->setStretchFactor(1, 0);
    tables->setSizes({420, 180});
    auto* lower = new QWidget(this);
    auto* lowerColumn = new QVBoxLayout(lower);
    lowerColumn->setContentsMargins(0, 0, 0, 0);
    lowerColumn->setSpacing(0);
    m_words->setObjectName("photoWords");
    m_words->setWrapped(true);
    m_words->setContentsMargins(8, 4, 8, 4);
    QSizePolicy asHighAsItsLines = m_words->sizePolicy();
    asHighAsItsLines.setVerticalPolicy(QSizePolicy::Maximum);
    m_words->setSizePolicy(asHighAsItsLines);
    lowerColumn->addWidget(m_words);
    lowerColumn->addWidget(tables, 1);
    auto* split = new QSplitter(Qt::Vertical, this);
    split->setChildrenCollapsible(false);
    split->addWidget(m_canvas);
    split->addWidget(lower);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 1);
    split->setSizes({430, 250});
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_bar);
    layout->addWidget(split, 1);
    connect(m_canvas, &PhotoCanvas::changed, this, &PhotoDesk::takeMarks);
    connect(m_canvas, &PhotoCanvas::anotherWanted, this, &PhotoDesk::showNext);
    m_canvas->setRefit([this](const photo::PhotoControls& controls) { return fitOf(controls); });
    connect(m_canvas, &PhotoCanvas::leaveWanted, this, &PhotoDesk::leaveWanted);
    connect(m_canvas, &PhotoCanvas::pickedChanged, this, [this] {
        const BoardPhoto* shown = photo();
        int row = -1;
        if (shown != nullptr && m_canvas->picked()) {
            const std::vector<PhotoMark> marks = marksOf(shown->controls);
            const auto found = std::find(marks.begin(), marks.end(), *m_canvas->picked());
            row = found == marks.end() ? -1 : static_cast<int>(found - marks.begin());
        }
        m_marks->showRow(row);
    });
    connect(m_canvas, &PhotoCanvas::readingWanted, this, [this] {
        const int row = m_marks->currentIndex().row();
        if (row >= 0) {
            m_marks->setFocus();
            m_marks->openRow(row, 1);
        }
    });
    connect(m_marks, &EntryView::rowChosen, this, [this](int row) {
        if (const BoardPhoto* shown = photo()) {
            const std::vector<PhotoMark> marks = marksOf(shown->controls);
            if (row >= 0 && static_cast<std::size_t>(row) < marks.size()) {
                m_canvas->setPicked(marks[static_cast<std::size_t>(row)]);
            }
        }
    });
    connect(m_marks, &EntryView::entered, m_canvas,
            [this] { m_canvas->setFocus(); }); // a reading is done: the next mark
    connect(m_canvas, &PhotoCanvas::toolChanged, this, [this] {
        for (std::size_t i = 0; i < m_tools.size(); ++i) {
            m_tools[i]->setChecked(static_cast<int>(m_canvas->tool()) == static_cast<int>(i));
        }
    });
    refresh();
}

PhotoDesk::~PhotoDesk() {
    m_stop.request_stop();
    m_worker.clear();
    m_worker.waitForDone();
}

void PhotoDesk::makeBar() {
    m_bar->setObjectName("photoBar");
    auto* column = new QVBoxLayout(m_bar);
    column->setContentsMargins(8, 4, 8, 4);
    column->setSpacing(2);
    auto* files = new WrapLayout;
    auto* tools = new WrapLayout;
    files->setSpacing(4);
    tools->setSpacing(2);
    const auto button = [this](const char* name, const QString& text, const QString& tip) {
        auto* made = new QToolButton(m_bar);
        made->setObjectName(name);
        made->setText(text);
        made->setToolTip(tip);
        made->setAutoRaise(true);
        return made;
    };
    auto* back = button("photoBack", tr("Back"), tr("To the drawing of the board (Esc)"));
    m_list->setObjectName("photoList");
    m_list->setAccessibleName(tr("Photographs of the board"));
    m_list->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_list->setMinimumContentsLength(16);
    auto* add = button("photoAdd", tr("Add..."),
                       tr("Ctrl+Shift+I; files can also be dropped or pasted here"));
    m_face->setObjectName("photoFace");
    m_face->setAutoRaise(true);
    m_face->setToolTip(tr("The face that the photograph shows; press to change it"));
    auto* remove = button("photoRemove", tr("Remove"),
                          tr("Takes the photograph off the board; Ctrl+Z brings it back"));
    files->addWidget(back);
    files->addWidget(m_list);
    files->addWidget(m_face);
    files->addWidget(add);
    files->addWidget(remove);
    const struct {
        const char* name;
        QString text;
        QString tip;
    } kinds[] = {
        {"photoPick", tr("Pick"),
         tr("Drag marks, or pick them with Tab and nudge with the arrows. 1 to 4: the corners")},
        {"photoTape", tr("Tape"), tr("T: a place on the tape; then type what it reads")},
        {"photoNear", tr("Near edge"), tr("N: a place on the near edge of the board")},
        {"photoFar", tr("Far edge"), tr("F: a place on the far edge of the board")},
        {"photoSpot", tr("Spot"),
         tr("S: a knot or a cross that overlapping photographs show; mark it in each of them")}};
    for (std::size_t i = 0; i < std::size(kinds); ++i) {
        QToolButton* tool = button(kinds[i].name, kinds[i].text, kinds[i].tip);
        tool->setCheckable(true);
        tool->setChecked(i == 0);
        tool->setFocusPolicy(Qt::NoFocus);
        connect(tool, &QToolButton::clicked, this, [this, i] {
            m_canvas->setTool(static_cast<PhotoCanvas::Tool>(i));
            m_canvas->setFocus();
        });
        m_tools.push_back(tool);
        tools->addWidget(tool);
    }
    column->addLayout(files);
    column->addLayout(tools);
    connect(back, &QToolButton::clicked, this, &PhotoDesk::leaveWanted);
    connect(add, &QToolButton::clicked, this, [this] {
        const BoardPhoto* shown = photo();
        addPhotos(shown != nullptr ? shown->face : BoardFace::A);
    });
    connect(remove, &QToolButton::clicked, this, &PhotoDesk::removeShown);
    connect(m_face, &QToolButton::clicked, this, [this] {
        const Board* board = m_board();
        const BoardPhoto* shown = photo();
        if (board != nullptr && shown != nullptr) {
            const BoardPhoto turned = asOfOtherFace(*shown);
            m_session.edit(
                tr("Photograph shows face %1").arg(turned.face == BoardFace::A ? "A" : "B"),
                replacingPhoto(*board, turned));
        }
    });
    connect(m_list, &QComboBox::activated, this, [this](int row) {
        const Board* board = m_board();
        if (board != nullptr && row >= 0 && static_cast<std::size_t>(row) < board->photos.size()) {
            showPhoto(board->photos[static_cast<std::size_t>(row)].id);
            m_canvas->setFocus();
        }
    });
}

} // namespace stavewright::ui
