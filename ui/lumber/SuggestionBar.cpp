#include "ui/lumber/SuggestionBar.h"
#include "ui/photo/FaceKey.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QSpinBox>
#include <QToolButton>

#include <algorithm>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Marking.h"
#include "ui/entry/EntryModel.h"
#include "ui/lumber/BoardSheet.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr int sureEnough = 70;  // percent, to begin with
constexpr int sameOverlap = 25; // percent: a mark that covers so much of a suggestion is it

bool isMarked(const Board& board, const FoundMark& found) {
    return std::any_of(board.defects.begin(), board.defects.end(), [&](const Defect& defect) {
        const std::optional<FaceMark>& mark = found.face == BoardFace::A ? defect.onA : defect.onB;
        return mark && overlapPercent(mark->outline, found.outline) >= sameOverlap;
    });
}

} // namespace

SuggestionBar::SuggestionBar(DocumentSession& session, BoardSheet& sheet,
                             std::function<const Board*()> board, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_sheet(sheet)
    , m_board(std::move(board))
    , m_words(new QLabel(this))
    , m_percent(new QSpinBox(this)) {
    setObjectName("suggestionBar");
    m_worker.setMaxThreadCount(1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 0, 8, 4);
    column->setSpacing(0);
    auto* row = new QHBoxLayout;
    row->setSpacing(4);
    const auto button = [&](const char* name, const QString& text, const QString& tip) {
        auto* made = new QToolButton(this);
        made->setObjectName(name);
        made->setText(text);
        made->setToolTip(tip);
        made->setAutoRaise(true);
        return made;
    };
    m_search = button("suggestMarks", tr("Suggest marks"),
                      tr("M: looks for knots, holes and cracks in the photographs"));
    m_take = button("takeSuggestion", tr("Take it"), tr("Enter, with a suggestion picked (M)"));
    m_dismiss = button("dismissSuggestion", tr("Dismiss"), tr("Del, with a suggestion picked (M)"));
    m_takeSure = button("takeSure", tr("Take all from"),
                        tr("Marks all suggestions that are at least so sure; one undo step"));
    m_percent->setObjectName("surePercent");
    m_percent->setAccessibleName(tr("Least sureness of suggestions that are taken together"));
    m_percent->setRange(20, 100);
    m_percent->setSingleStep(5);
    m_percent->setValue(sureEnough);
    m_percent->setSuffix(tr(" %"));
    m_dismissAll = button("dismissAll", tr("Dismiss all"), tr("Takes none of them"));
    m_takeOutline =
        button("takeOutline", tr("Take outline"),
               tr("The dashed line round the board, seen in the photograph, becomes its "
                  "outline; Ctrl+Z brings the old one back"));
    m_words->setObjectName("suggestionWords");
    m_words->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    row->addWidget(m_search);
    row->addStretch(1);
    for (QToolButton* each : {m_take, m_dismiss, m_takeOutline}) {
        row->addWidget(each);
    }
    // What takes or leaves them all stands below, or the bar would be wider than the drawing.
    auto* all = new QHBoxLayout;
    all->setSpacing(4);
    all->addWidget(m_words, 1);
    for (QWidget* each : std::initializer_list<QWidget*>{m_takeSure, m_percent, m_dismissAll}) {
        all->addWidget(each);
    }
    column->addLayout(row);
    column->addLayout(all);
    connect(m_search, &QToolButton::clicked, this, &SuggestionBar::search);
    connect(m_take, &QToolButton::clicked, this, [this] {
        if (const auto picked = m_sheet.pickedSuggestion()) {
            takeOne(*picked);
        }
    });
    connect(m_dismiss, &QToolButton::clicked, this, [this] {
        if (const auto picked = m_sheet.pickedSuggestion()) {
            dismissOne(*picked);
        }
    });
    connect(m_takeSure, &QToolButton::clicked, this, &SuggestionBar::takeSure);
    connect(m_dismissAll, &QToolButton::clicked, this, &SuggestionBar::dismissAll);
    connect(m_takeOutline, &QToolButton::clicked, this, &SuggestionBar::takeOutline);
    connect(m_percent, &QSpinBox::valueChanged, this, &SuggestionBar::say);
    connect(&m_sheet, &BoardSheet::suggestionTaken, this, &SuggestionBar::takeOne);
    connect(&m_sheet, &BoardSheet::suggestionDismissed, this, &SuggestionBar::dismissOne);
    connect(&m_sheet, &BoardSheet::suggestionsWanted, this, &SuggestionBar::search);
    connect(&m_sheet, &BoardSheet::lookChanged, this, &SuggestionBar::say);
    connect(&m_session, &DocumentSession::adopted, this, [this] { m_kept.clear(); });
    refresh();
}

SuggestionBar::~SuggestionBar() {
    m_stop.request_stop();
    m_worker.clear();
    m_worker.waitForDone();
}

void SuggestionBar::search() {
    const Board* board = m_board();
    if (board == nullptr) {
        return;
    }
    if (board->photos.empty()) {
        emit said(tr("Suggestions come from photographs; board %1 has none yet (I).")
                      .arg(words(board->mark)),
                  true);
        return;
    }
    if (m_searching > 0) {
        return;
    }
    ++m_searching;
    say();
    std::vector<FaceOrder> orders;
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        orders.push_back(faceOrder(*board, face, 0));
    }
    m_worker.start(
        [this, orders, id = board->id, key = photosKey(*board), stop = m_stop.get_token()] {
            std::vector<FoundOnFace> faces;
            for (const FaceOrder& order : orders) {
                faces.push_back(foundOnFace(order, stop));
            }
            // The destructor waits for this thread, so the object is there to be told.
            QMetaObject::invokeMethod(
                this,
                [this, id, key, faces] {
                    --m_searching;
                    keep(id, key, faces);
                },
                Qt::QueuedConnection);
        });
}

void SuggestionBar::keep(BoardId id, const std::string& key,
                         const std::vector<FoundOnFace>& faces) {
    Kept kept;
    kept.key = key;
    QString trouble;
    for (const FoundOnFace& face : faces) {
        kept.marks.insert(kept.marks.end(), face.marks.begin(), face.marks.end());
        if (!kept.outline) {
            kept.outline = face.outline;
        }
        if (!face.errors.empty() && trouble.isEmpty()) {
            trouble = QString::fromStdString(describe(face.errors.front()));
        }
    }
    m_kept[id] = std::move(kept);
    refresh();
    if (!trouble.isEmpty()) {
        emit said(trouble, true);
    }
}

void SuggestionBar::refresh() {
    const Board* board = m_board();
    m_shown.clear();
    m_outline.reset();
    if (board != nullptr) {
        const auto found = m_kept.find(board->id);
        if (found != m_kept.end() && found->second.key == photosKey(*board)) {
            const Kept& kept = found->second;
            for (const FoundMark& mark : kept.marks) {
                const bool dismissed = std::find(kept.dismissed.begin(), kept.dismissed.end(),
                                                 mark) != kept.dismissed.end();
                if (!dismissed && !isMarked(*board, mark)) {
                    m_shown.push_back(mark);
                }
            }
            if (kept.outline && *kept.outline != board->outline) {
                m_outline = kept.outline;
            }
        }
    }
    std::vector<SuggestedMark> marks;
    for (const FoundMark& mark : m_shown) {
        marks.push_back({mark.face, mark.kind, mark.outline, mark.confidencePercent});
    }
    m_sheet.setSuggestions(std::move(marks));
    m_sheet.setSuggestedOutline(m_outline);
    setVisible(board != nullptr && !board->photos.empty());
    say();
}

void SuggestionBar::say() {
    const bool any = !m_shown.empty();
    const auto picked = m_sheet.pickedSuggestion();
    const Board* board = m_board();
    const bool looked = board != nullptr && m_kept.contains(board->id) &&
                        m_kept.at(board->id).key == photosKey(*board);
    QString sentence;
    if (m_searching > 0) {
        sentence = tr("Looking at the photographs...");
    } else if (picked && any) {
        const FoundMark& mark = m_shown[static_cast<std::size_t>(*picked)];
        sentence = tr("%1, %2 % sure: Enter takes it, Del dismisses it")
                       .arg(words(nameOf(mark.kind)))
                       .arg(mark.confidencePercent);
    } else if (any) {
        const auto sure = std::count_if(m_shown.begin(), m_shown.end(), [&](const FoundMark& mark) {
            return mark.confidencePercent >= m_percent->value();
        });
        sentence = m_shown.size() == 1 ? tr("1 suggestion (M picks it)")
                                       : tr("%1 suggestions (M), %2 from %3 % on")
                                             .arg(m_shown.size())
                                             .arg(sure)
                                             .arg(m_percent->value());
    } else if (looked) {
        sentence = tr("Nothing more suggested. Look for yourself all the same.");
    }
    m_words->setText(sentence);
    m_words->setVisible(!sentence.isEmpty());
    m_words->setToolTip(sentence);
    m_search->setEnabled(m_searching == 0);
    for (QWidget* widget : std::initializer_list<QWidget*>{m_takeSure, m_percent, m_dismissAll}) {
        widget->setVisible(any && !picked);
    }
    m_take->setVisible(picked && any);
    m_dismiss->setVisible(picked && any);
    m_takeOutline->setVisible(m_outline.has_value() && !picked);
}

bool SuggestionBar::mark(const std::vector<FoundMark>& marks, const QString& step) {
    const Board* board = m_board();
    if (board == nullptr || marks.empty()) {
        return false;
    }
    Board changed = *board;
    std::int64_t next = m_session.document().nextId;
    int outside = 0;
    for (const FoundMark& found : marks) {
        Defect defect;
        defect.id = DefectId{next};
        defect.mark = freeDefectMark(changed);
        defect.kind = found.kind;
        FaceMark face;
        face.outline = found.outline;
        (found.face == BoardFace::A ? defect.onA : defect.onB) = face;
        Board tried = changed;
        tried.defects.push_back(defect);
        if (allowed(m_session.document(), replacing(tried))) {
            changed = std::move(tried);
            ++next;
        } else {
            ++outside;
        }
    }
    if (outside > 0) {
        emit said(
            outside == 1
                ? tr("One suggestion lies mostly outside the board and was left.")
                : tr("%1 suggestions lie mostly outside the board and were left.").arg(outside),
            true);
    }
    return changed.defects.size() > board->defects.size() &&
           m_session.edit(step, replacing(std::move(changed)));
}

void SuggestionBar::takeOne(int index) {
    if (index < 0 || static_cast<std::size_t>(index) >= m_shown.size()) {
        return;
    }
    const FoundMark taken = m_shown[static_cast<std::size_t>(index)];
    const Board* board = m_board();
    if (mark({taken},
             tr("Board %1: suggested %2").arg(words(board->mark), words(nameOf(taken.kind))))) {
        m_sheet.pickSuggestion(m_shown.empty() ? std::nullopt
                                               : std::optional<int>(std::min(
                                                     index, static_cast<int>(m_shown.size()) - 1)));
    }
}

void SuggestionBar::dismissOne(int index) {
    const Board* board = m_board();
    if (board == nullptr || index < 0 || static_cast<std::size_t>(index) >= m_shown.size()) {
        return;
    }
    m_kept[board->id].dismissed.push_back(m_shown[static_cast<std::size_t>(index)]);
    refresh();
    m_sheet.pickSuggestion(m_shown.empty() ? std::nullopt
                                           : std::optional<int>(std::min(
                                                 index, static_cast<int>(m_shown.size()) - 1)));
}

void SuggestionBar::takeSure() {
    std::vector<FoundMark> sure;
    std::copy_if(
        m_shown.begin(), m_shown.end(), std::back_inserter(sure),
        [&](const FoundMark& mark) { return mark.confidencePercent >= m_percent->value(); });
    const Board* board = m_board();
    if (board != nullptr && sure.empty()) {
        emit said(tr("No suggestion is %1 % sure.").arg(m_percent->value()), false);
    } else if (board != nullptr) {
        mark(sure, tr("Board %1: %2 suggested marks").arg(words(board->mark)).arg(sure.size()));
    }
}

void SuggestionBar::dismissAll() {
    if (const Board* board = m_board()) {
        std::vector<FoundMark>& dismissed = m_kept[board->id].dismissed;
        dismissed.insert(dismissed.end(), m_shown.begin(), m_shown.end());
        refresh();
    }
}

void SuggestionBar::takeOutline() {
    const Board* board = m_board();
    if (board == nullptr || !m_outline) {
        return;
    }
    Board changed = *board;
    changed.outline = *m_outline;
    const Length length = boundingBox(changed.outline).length();
    for (LookedAt& look : changed.lookedAt) { // a shorter board was not looked at beyond its end
        look.stretch.to = std::min(look.stretch.to, length);
    }
    std::erase_if(changed.lookedAt,
                  [](const LookedAt& look) { return look.stretch.from >= look.stretch.to; });
    const Edit edit = replacing(changed);
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        emit said(QString::fromStdString(fits.error().message), true);
    } else {
        m_session.edit(tr("Board %1: outline from the photograph").arg(words(board->mark)), edit);
    }
}

} // namespace stavewright::ui
