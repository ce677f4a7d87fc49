#include "ui/piece/PieceView.h"

#include <QAction>
#include <QApplication>
#include <QSplitter>
#include <QStackedWidget>

#include <algorithm>

#include "core/milling/PartZones.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/PlaceParts.h"
#include "ui/entry/Reading.h"
#include "ui/piece/ChainRows.h"
#include "ui/piece/JointCells.h"
#include "ui/piece/MakeUpFacts.h"
#include "ui/piece/PartCells.h"
#include "ui/piece/PartSheet.h"
#include "ui/piece/PartSteps.h"
#include "ui/piece/ZoneCells.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr int sideWide = 420;
constexpr int partsWide = 430;

bool holdsFocus(const QWidget* widget) {
    const QWidget* focus = QApplication::focusWidget();
    return focus != nullptr && (focus == widget || widget->isAncestorOf(focus));
}

std::vector<EntryTitle> chainTitles() {
    return {{PieceView::tr("Stage"), PieceView::tr("What adds to the size, walking back")},
            {PieceView::tr("Long"), {}},
            {PieceView::tr("Wide"), {}},
            {PieceView::tr("Thick"), {}}};
}

} // namespace

PieceView::PieceView(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_split(new QSplitter(Qt::Horizontal))
    , m_stack(new QStackedWidget(this))
    , m_banner(new Banner(this)) {
    setObjectName("piecePlace");
    m_split->setObjectName("pieceSplit");
    m_split->setChildrenCollapsible(false);
    m_split->addWidget(makePartsSide());
    m_split->addWidget(makeMiddle());
    m_split->addWidget(makeFactSide());
    m_split->setStretchFactor(1, 1);
    auto* empty = new EmptyState(
        "pieceEmpty",
        tr("There are no parts yet. Put in the finished parts of the piece, one row for each."),
        tr("Add a part"), tr("Insert"), m_stack);
    connect(empty, &EmptyState::begun, this, &PieceView::addPart);
    m_stack->addWidget(m_split);
    m_stack->addWidget(empty);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addWidget(m_stack, 1);
    makeKeys();
    connect(&m_session, &DocumentSession::changed, this, &PieceView::refresh);
    connect(&m_session, &DocumentSession::adopted, this, &PieceView::refresh);
    connect(&m_session, &DocumentSession::selectionChanged, this, &PieceView::refreshSelection);
    refresh();
}

PieceView::~PieceView() = default;

QWidget* PieceView::makePartsSide() {
    m_partModel = new EntryModel(
        m_session, partTitles(), [this] { return m_session.document().parts.size(); },
        [this](int row, int column) {
            return partCell(m_session, m_session.document().parts[static_cast<std::size_t>(row)],
                            static_cast<PartColumn>(column));
        },
        this);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    auto* row = new QHBoxLayout;
    row->setContentsMargins(8, 6, 8, 6);
    auto* add = smallButton("addPart", tr("Add part"), tr("Insert or Ctrl+Return"), side);
    auto* copy = smallButton("duplicatePart", tr("Duplicate"), tr("Ctrl+D"), side);
    auto* remove = smallButton("removePart", tr("Remove"), tr("Del; Ctrl+Z brings it back"), side);
    for (QPushButton* button : {add, copy, remove}) {
        row->addWidget(button);
    }
    row->addStretch(1);
    m_parts = new EntryView("parts", tr("Parts of the piece"), m_partModel, side);
    layout->addLayout(row);
    layout->addWidget(m_parts, 1);
    connect(add, &QPushButton::clicked, this, &PieceView::addPart);
    connect(copy, &QPushButton::clicked, this, &PieceView::duplicatePart);
    connect(remove, &QPushButton::clicked, this, &PieceView::removePart);
    connect(m_parts, &EntryView::rowChosen, this, &PieceView::selectPart);
    return side;
}

QWidget* PieceView::makeMiddle() {
    auto* middle = new QSplitter(Qt::Vertical);
    middle->setObjectName("pieceMiddle");
    middle->setChildrenCollapsible(false);
    m_sheet = new PartSheet(middle);
    auto* box = new QWidget(middle);
    auto* layout = new QVBoxLayout(box);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    m_chainModel = new EntryModel(
        m_session, chainTitles(), [this] { return m_chainRows.size(); },
        [this](int row, int column) {
            const ChainRow& stage = m_chainRows[static_cast<std::size_t>(row)];
            EntryCell cell;
            if (column == 0) {
                cell.text = stage.stage;
                cell.tip = stage.stage;
                return cell;
            }
            const std::size_t at = static_cast<std::size_t>(column) - 1;
            cell.kind = EntryCell::Kind::Number;
            const LengthStyle style = finest(m_session.lengthStyle());
            if (stage.added[at]) {
                cell.text = lengthText(stage.after[at], style);
                cell.tip = tr("adds %1").arg(lengthText(*stage.added[at], style));
            }
            return cell;
        },
        this);
    m_chain = new EntryView("chain", tr("From finished size back to rough"), m_chainModel, box);
    m_chain->setSelectionMode(QAbstractItemView::NoSelection);
    m_chainWords = new FractionLabel({}, box);
    m_chainWords->setObjectName("chainWords");
    m_chainWords->setWrapped(true);
    m_chainWords->setContentsMargins(12, 2, 12, 6);
    layout->addWidget(heading(tr("Why this size? From finished back to rough"), box));
    auto* line = new QHBoxLayout;
    line->setContentsMargins(6, 0, 8, 4);
    line->addWidget(m_chainWords, 1);
    layout->addLayout(line);
    layout->addWidget(m_chain, 1);
    middle->addWidget(m_sheet);
    middle->addWidget(box);
    middle->setStretchFactor(0, 3);
    middle->setStretchFactor(1, 2);
    middle->setSizes({400, 300});
    connect(m_sheet, &PartSheet::zoneClicked, this, [this](int row) {
        m_zones->showRow(row);
        m_sheet->setSelectedZone(row);
    });
    connect(m_sheet, &PartSheet::placeChosen, this, &PieceView::addZone);
    return middle;
}

EntryView* PieceView::addTable(SideColumn* side, const QString& title, const char* name,
                               EntryModel* model, const QString& button, const char* buttonName) {
    auto* row = new QHBoxLayout;
    row->addWidget(heading(title, side->sheet()), 1);
    auto* add = smallButton(buttonName, button, tr("Insert in this table; Del takes a row away"),
                            side->sheet());
    row->addWidget(add);
    auto* view = new EntryView(name, title, model, side->sheet());
    view->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    side->column()->addLayout(row);
    side->column()->addWidget(view);
    connect(add, &QPushButton::clicked, this, [this, view] { addRowTo(view); });
    return view;
}

QWidget* PieceView::makeFactSide() {
    auto* side = new SideColumn("partFactsSide", tr("How the part is made"));
    side->setMinimumWidth(280);
    m_makeUpModel = new FactModel(
        m_session,
        [this] {
            return part() != nullptr ? makeUpFacts(m_session, *part()) : std::vector<Fact>();
        },
        this);
    m_makeUp =
        new EntryView("makeUp", tr("Make-up and sizes that lean"), m_makeUpModel, side->sheet());
    m_makeUp->showAsFacts();
    side->column()->addWidget(heading(tr("Make-up, and sizes that lean on others"), side->sheet()));
    side->column()->addWidget(m_makeUp);
    m_zoneModel = new EntryModel(
        m_session, zoneTitles(),
        [this] {
            return part() != nullptr ? zonesOrDefaults(m_session.document().shop, *part()).size()
                                     : 0;
        },
        [this](int row, int column) {
            return zoneCell(m_session, *part(), static_cast<std::size_t>(row), column);
        },
        this);
    m_zones = addTable(side, tr("Zones"), "zones", m_zoneModel, tr("Add zone"), "addZone");
    m_zoneWords = new FractionLabel({}, side->sheet());
    m_zoneWords->setWrapped(true);
    m_zoneWords->setQuiet(true);
    m_zoneWords->setObjectName("zoneWords");
    side->column()->addWidget(m_zoneWords);
    connect(m_zones, &EntryView::rowChosen, m_sheet, &PartSheet::setSelectedZone);
    m_jointModel = new EntryModel(
        m_session, jointTitles(),
        [this] {
            return part() != nullptr ? jointRows(m_session.document(), part()->id).size() : 0;
        },
        [this](int row, int column) {
            const std::vector<JointRow> rows = jointRows(m_session.document(), part()->id);
            return jointCell(m_session, rows[static_cast<std::size_t>(row)], column);
        },
        this);
    m_joints = addTable(side, tr("Joints"), "joints", m_jointModel, tr("Add joint"), "addJoint");
    m_groupModel = new EntryModel(
        m_session, groupTitles(), [this] { return m_session.document().groups.size(); },
        [this](int row, int column) {
            return groupCell(m_session, static_cast<std::size_t>(row), column);
        },
        this);
    m_groups = addTable(side, tr("Parts that should match"), "groups", m_groupModel,
                        tr("Add group"), "addGroup");
    side->column()->addStretch(1);
    return side;
}

void PieceView::makeKeys() {
    const auto add = [this](const char* name, const QList<QKeySequence>& keys, auto slot) {
        auto* action = new QAction(this);
        action->setObjectName(name);
        action->setShortcuts(keys);
        action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
        connect(action, &QAction::triggered, this, slot);
        addAction(action);
    };
    add("addRow", {QKeySequence("Ctrl+Return"), QKeySequence("Ctrl+Enter"), QKeySequence("Ins")},
        &PieceView::addRow);
    add("duplicateRow", {QKeySequence("Ctrl+D")}, &PieceView::duplicatePart);
    add("removeRow", {QKeySequence("Del")}, &PieceView::removeRow);
    add("nextPane", {QKeySequence("F6")}, [this] {
        const std::vector<QWidget*> panes = {m_parts,  m_makeUp, m_zones,
                                             m_joints, m_groups, m_chain};
        const auto now = std::find_if(panes.begin(), panes.end(),
                                      [](const QWidget* pane) { return holdsFocus(pane); });
        const std::size_t next =
            now == panes.end() ? 0 : static_cast<std::size_t>(now - panes.begin()) + 1;
        panes[next % panes.size()]->setFocus();
    });
}

// ---- what the keys do --------------------------------------------------------------------------

void PieceView::addRow() {
    for (EntryView* table : {m_zones, m_joints, m_groups}) {
        if (holdsFocus(table)) {
            return addRowTo(table);
        }
    }
    addPart();
}

void PieceView::addRowTo(EntryView* table) {
    const Part* shown = part();
    if (shown == nullptr || !table->finishEntry()) {
        return;
    }
    shown = part(); // what was being typed has made another of it
    if (table == m_zones) {
        addZone({});
    } else if (table == m_joints) {
        change(tr("Add joint"), Edit{ReplaceJoints{withJoint(m_session.document(), *shown)}});
    } else {
        change(tr("Add match group"),
               Edit{ReplaceGroups{withGroup(m_session.document(), shown->id)}});
    }
    const int last = table->model()->rowCount() - 1;
    if (last >= 0) {
        table->openRow(last);
    }
}

void PieceView::addZone(const ZoneArea& area) {
    if (const Part* shown = part()) {
        change(tr("Add zone"), replacing(withZone(m_session.document(), *shown, area)));
        const int last = m_zoneModel->rowCount() - 1;
        m_zones->showRow(last);
        m_sheet->setSelectedZone(last);
    }
}

void PieceView::change(const QString& step, const Edit& edit) {
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        m_banner->showMessage(Sign::Cross, words(fits.error().message));
        return;
    }
    m_session.edit(step, edit);
}

void PieceView::addPart() {
    if (!m_parts->finishEntry()) {
        return;
    }
    const Part made = newPart(m_session.document());
    const std::size_t at = m_session.document().parts.size();
    if (m_session.edit(tr("Add part %1").arg(words(made.mark)), Edit{InsertPart{at, made}})) {
        selectPart(static_cast<int>(at));
        m_parts->openRow(static_cast<int>(at));
    }
}

void PieceView::duplicatePart() {
    if (part() == nullptr || !m_parts->finishEntry()) {
        return;
    }
    const std::vector<Part>& parts = m_session.document().parts;
    const std::size_t at = static_cast<std::size_t>(part() - parts.data()) + 1;
    const Part copy = copyOf(m_session.document(), *part());
    if (m_session.edit(tr("Duplicate part"), Edit{InsertPart{at, copy}})) {
        selectPart(static_cast<int>(at));
    }
}

void PieceView::removeRow() {
    const Part* shown = part();
    if (shown == nullptr) {
        return;
    }
    if (holdsFocus(m_zones)) {
        const std::size_t row =
            static_cast<std::size_t>(std::max(0, m_zones->currentIndex().row()));
        if (row < shown->zones.size()) {
            Part changed = *shown;
            changed.zones.erase(changed.zones.begin() + static_cast<std::ptrdiff_t>(row));
            change(tr("Remove zone"), replacing(std::move(changed)));
        }
    } else if (holdsFocus(m_joints)) {
        const std::vector<JointRow> rows = jointRows(m_session.document(), shown->id);
        const int row = m_joints->currentIndex().row();
        if (row >= 0 && static_cast<std::size_t>(row) < rows.size()) {
            std::vector<Joint> joints = m_session.document().joints;
            joints.erase(joints.begin() +
                         static_cast<std::ptrdiff_t>(rows[static_cast<std::size_t>(row)].joint));
            change(tr("Remove joint"), Edit{ReplaceJoints{std::move(joints)}});
        }
    } else if (holdsFocus(m_groups)) {
        std::vector<MatchGroup> groups = m_session.document().groups;
        const int row = m_groups->currentIndex().row();
        if (row >= 0 && static_cast<std::size_t>(row) < groups.size()) {
            groups.erase(groups.begin() + row);
            change(tr("Remove match group"), Edit{ReplaceGroups{std::move(groups)}});
        }
    } else if (holdsFocus(m_parts)) {
        removePart();
    }
}

void PieceView::removePart() {
    const Part* shown = part();
    if (shown == nullptr) {
        return;
    }
    const std::vector<Part>& parts = m_session.document().parts;
    const int row = static_cast<int>(shown - parts.data());
    const bool hadPlan = m_session.document().plan.has_value();
    const QString mark = words(shown->mark);
    const Result<Edit> edit = removal(m_session.document(), shown->id);
    if (!edit) {
        m_banner->showMessage(Sign::Cross, words(edit.error().message));
        return;
    }
    if (!m_session.edit(tr("Remove part %1").arg(mark), edit.value())) {
        return;
    }
    const int count = static_cast<int>(m_session.document().parts.size());
    if (count > 0) {
        selectPart(std::min(row, count - 1));
    }
    if (hadPlan) {
        m_banner->showMessage(
            Sign::Triangle,
            tr("Part %1 went, and the plan with it; undo (Ctrl+Z) brings both back.").arg(mark));
    }
}

// ---- selection and what is shown ---------------------------------------------------------------

const Part* PieceView::part() const {
    return shownPart(m_session.document(), m_session.selection().part);
}

void PieceView::selectPart(int row) {
    const std::vector<Part>& parts = m_session.document().parts;
    if (row < 0 || static_cast<std::size_t>(row) >= parts.size()) {
        return;
    }
    const PartId id = parts[static_cast<std::size_t>(row)].id;
    if (m_session.selection().part != id) {
        Selection selection;
        selection.part = id;
        m_session.select(selection);
    }
}

void PieceView::refresh() {
    m_stack->setCurrentIndex(m_session.document().parts.empty() ? 1 : 0);
    m_partModel->refresh();
    refreshSelection();
}

void PieceView::refreshSelection() {
    const Document& document = m_session.document();
    const Part* shown = part();
    m_parts->showRow(shown == nullptr ? -1 : static_cast<int>(shown - document.parts.data()));
    m_makeUpModel->refreshFacts();
    m_zoneModel->refresh();
    m_jointModel->refresh();
    m_groupModel->refresh();
    m_zoneWords->setText(shown != nullptr && shown->zones.empty()
                             ? tr("These hold unless the part has zones of its own: type over one "
                                  "of them, or double-click a face or an end in the drawing.")
                             : tr("Double-click a face or an end in the drawing for a new zone."));
    std::optional<PartPicture> picture;
    if (shown != nullptr) {
        const LengthStyle style = m_session.lengthStyle();
        PartPicture made;
        const auto size = [&](Dimension dimension) {
            const Result<Length> resolved = resolvedSize(document, *shown, dimension);
            return resolved ? resolved.value() : Length();
        };
        made.length = size(Dimension::Length);
        made.width = size(Dimension::Width);
        made.thickness = size(Dimension::Thickness);
        made.title = tr("%1  %2, %3 × %4 × %5, %6 off")
                         .arg(words(shown->mark), words(shown->name),
                              lengthText(made.thickness, style), lengthText(made.width, style),
                              lengthText(made.length, style), QString::number(shown->count));
        int row = 0;
        for (const Zone& zone : zonesOrDefaults(document.shop, *shown)) {
            made.zones.push_back({words(zone.name), zone.role, zone.area, row++, false});
        }
        for (const JointRow& at : jointRows(document, shown->id)) {
            const Joint& joint = document.joints[at.joint];
            made.zones.push_back({words(joint.name), ZoneRole::JoineryEnd,
                                  joint.sides[at.side].area, std::nullopt, true});
        }
        picture = std::move(made);
    }
    m_sheet->setPart(std::move(picture), m_session.lengthStyle());
    refreshChain();
    fitColumns();
}

void PieceView::refreshChain() {
    m_chainRows.clear();
    m_chainWords->setSign(Sign::None);
    m_chainWords->setText({});
    if (const Part* shown = part()) {
        const Result<BlankSpec> spec = firstSpecOf(m_session.document(), shown->id);
        if (spec) {
            m_chainRows = chainRows(spec.value().sums);
            const LengthStyle style = finest(m_session.lengthStyle());
            const BlankSpec& blank = spec.value();
            const QString wide = blank.staves
                                     ? tr("%1 to %2")
                                           .arg(lengthText(blank.staves->leastRough, style),
                                                lengthText(blank.staves->widestRough, style))
                                     : lengthText(blank.width, style);
            m_chainWords->setText((blank.staves ? tr("Staves %1 wide, %2 long, faced and planed %3 "
                                                     "thick")
                                                : tr("Blanks %1 wide, %2 long, faced and planed %3 "
                                                     "thick"))
                                      .arg(wide, lengthText(blank.length, style),
                                           lengthText(blank.thicknessWanted, style)));
        } else {
            m_chainWords->setSign(Sign::Cross);
            m_chainWords->setText(words(spec.error().message));
        }
    }
    m_chainModel->refresh();
}

void PieceView::fitColumns() {
    for (EntryView* view : {m_parts, m_zones, m_joints, m_groups}) {
        view->fitColumns();
    }
    for (int column = 1; column < 4; ++column) {
        m_chain->setColumnWidth(column, 84);
    }
    m_chain->setColumnWidth(0, std::max(160, m_chain->viewport()->width() - 3 * 84));
}

void PieceView::focusFirst() {
    if (m_session.document().parts.empty()) {
        findChild<QPushButton*>("pieceEmptyButton")->setFocus();
    } else {
        m_parts->setFocus();
    }
}

void PieceView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    focusFirst(); // the place itself has nothing to type into
}

void PieceView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    focusFirst();
    fitColumns();
}

void PieceView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const int side = std::min(sideWide, width() * 3 / 10);
    const int left = std::min(partsWide, width() * 3 / 10);
    m_split->setSizes({left, width() - left - side, side});
    fitColumns();
}

} // namespace stavewright::ui
