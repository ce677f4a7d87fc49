#include "ui/lumber/SawnCells.h"

#include <QCoreApplication>

#include "core/geometry/PolygonOps.h"
#include "ui/entry/Cells.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("SawnCells", text); }

} // namespace

std::vector<EntryTitle> sawnTitles() {
    return {{tr("Sawn"), tr("Plain: rings flat to the face; rift: at a slant; quartered: upright")},
            {tr("From"), tr("From the datum end")},
            {tr("To"), tr("From the datum end")},
            {tr("Low"), tr("Across, from the line of the near edge")},
            {tr("High"), tr("Across, from the line of the near edge")}};
}

EntryCell sawnCell(const DocumentSession& session, const Board& board, std::size_t region,
                   int column) {
    if (region >= board.sawn.size()) {
        return {};
    }
    const SawnRegion now = board.sawn[region];
    EntryCell cell;
    if (column == 0) {
        cell = choiceCell(static_cast<int>(now.sawn), {tr("plain"), tr("rift"), tr("quartered")},
                          [board, region](int typed) -> Result<Edit> {
                              Board changed = board;
                              changed.sawn[region].sawn = static_cast<Sawn>(typed);
                              return replacing(std::move(changed));
                          });
    } else {
        static constexpr Length Rect::*figures[] = {&Rect::x0, &Rect::x1, &Rect::y0, &Rect::y1};
        Length Rect::*figure = figures[column - 1];
        cell = lengthCell(now.where.*figure, session.lengthStyle(),
                          [board, region, figure](Length typed) -> Result<Edit> {
                              Board changed = board;
                              changed.sawn[region].where.*figure = typed;
                              return replacing(std::move(changed));
                          });
    }
    cell.step = tr("Board %1: how it is sawn").arg(words(board.mark));
    return cell;
}

Board withOneMoreRegion(const Board& board) {
    Board changed = board;
    SawnRegion region{Sawn::Quartered, boundingBox(board.outline)};
    if (!board.sawn.empty() && board.sawn.back().where.x1 < region.where.x1) {
        region.where.x0 = board.sawn.back().where.x1;
    }
    changed.sawn.push_back(region);
    return changed;
}

} // namespace stavewright::ui
