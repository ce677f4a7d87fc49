// How the place Piece is built: its three panes and the tables in them.

#include <QHeaderView>
#include <QSplitter>

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
#include "ui/piece/PieceView.h"
#include "ui/piece/ZoneCells.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthWords.h"

namespace stavewright::ui {

namespace {

std::vector<EntryTitle> chainTitles() {
    return {{PieceView::tr("Stage"), PieceView::tr("What adds to the size, walking back")},
            {PieceView::tr("Long"), {}},
            {PieceView::tr("Wide"), {}},
            {PieceView::tr("Thick"), {}}};
}

} // namespace

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
    m_parts->setMustSee(static_cast<int>(PartColumn::PerBlank) + 1);
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
                cell.text = tapeText(stage.after[at], style);
                cell.tip = tr("adds %1").arg(tapeText(*stage.added[at], style));
            }
            return cell;
        },
        this);
    m_chain = new EntryView("chain", tr("From finished size back to rough"), m_chainModel, box);
    m_chain->setSelectionMode(QAbstractItemView::NoSelection);
    m_chain->wrapWords();
    m_chain->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
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
    view->wrapWords();
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

} // namespace stavewright::ui
