#include "ui/piece/PieceView.h"

#include <algorithm>

#include "core/milling/PartZones.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/entry/Reading.h"
#include "ui/piece/ChainRows.h"
#include "ui/piece/JointCells.h"
#include "ui/piece/PartSheet.h"
#include "ui/piece/PartSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
// of the table from finished size back to rough, in pixels
constexpr int leastFigures = 56;
} // namespace

PieceView::PieceView(DocumentSession& session, QWidget* parent)
    : PlaceView(session, "piece", parent) {
    QWidget* parts = makePartsSide();
    QWidget* middle = makeMiddle(); // before the zones at its side, which point into its drawing
    setPanes(parts, middle, makeFactSide(), {44, 0, 680}, {30, 0, 520});
    setEmptyWords(
        tr("There are no parts yet. Put in the finished parts of the piece, one row for each."),
        tr("Add a part"), [this] { addPart(); });
    addRowKeys();
    connect(&m_session, &DocumentSession::changed, this, [this](const EditScope& scope) {
        if (scope.parts || scope.shop || scope.info) { // measuring the rows again takes its time
            refresh();
        }
    });
    connect(&m_session, &DocumentSession::adopted, this, &PieceView::refresh);
    connect(&m_session, &DocumentSession::selectionChanged, this, &PieceView::refreshSelection);
    refresh();
}

PieceView::~PieceView() {
    delete m_chain; // it measures its rows to the last, and they go before the other widgets do
}

std::vector<QWidget*> PieceView::panes() const {
    return {m_parts, m_makeUp, m_zones, m_joints, m_groups, m_chain};
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
        banner().showMessage(Sign::Cross, words(edit.error().message));
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
        banner().showMessage(
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
    showEmpty(m_session.document().parts.empty());
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
                              tapeText(made.thickness, style), tapeText(made.width, style),
                              tapeText(made.length, style), QString::number(shown->count));
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
            const QString wide = blank.staves ? tr("%1 to %2")
                                                    .arg(tapeText(blank.staves->leastRough, style),
                                                         tapeText(blank.staves->widestRough, style))
                                              : tapeText(blank.width, style);
            m_chainWords->setText((blank.staves ? tr("Staves %1 wide, %2 long, faced and planed %3 "
                                                     "thick")
                                                : tr("Blanks %1 wide, %2 long, faced and planed %3 "
                                                     "thick"))
                                      .arg(wide, tapeText(blank.length, style),
                                           tapeText(blank.thicknessWanted, style)));
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
    for (int column = 1; column < 4; ++column) { // the words of the stage take what is left
        m_chain->setColumnWidth(column, std::max(leastFigures, m_chain->widthFor(column)));
    }
}

} // namespace stavewright::ui
