#include "ui/shoprack/RackCells.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>

#include <algorithm>

#include "core/units/QuantityText.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("RackCells", text); }

EntryCell plain(const QString& text, EntryCell::Kind kind = EntryCell::Kind::Text) {
    EntryCell cell;
    cell.text = text;
    cell.kind = kind;
    return cell;
}

QString dayOf(std::int64_t time) {
    return QLocale().toString(QDateTime::fromSecsSinceEpoch(time).date(), QLocale::ShortFormat);
}

QString fromText(const rack::Piece& piece) {
    if (piece.sourceBoard.empty()) {
        return words(piece.sourceJob);
    }
    const QString board = tr("board %1").arg(words(piece.sourceBoard));
    return piece.sourceJob.empty() ? board : tr("%1, %2").arg(board, words(piece.sourceJob));
}

/// How many of the plan's offcuts are kept of this board.
qint64 offcutsOf(const Document& document, BoardId board) {
    qint64 count = 0;
    for (const BoardLayout& layout : document.plan->boards) {
        if (layout.board != board) {
            continue;
        }
        for (const Section& section : layout.sections) {
            count += static_cast<qint64>(section.offcuts.size());
            for (const Strip& strip : section.strips) {
                count += static_cast<qint64>(strip.offcuts.size());
            }
        }
    }
    return count;
}

} // namespace

QString pieceName(const rack::Piece& piece) {
    return piece.kind == rack::PieceKind::Offcut
               ? tr("Offcut %1 (no. %2)").arg(words(piece.board.mark)).arg(piece.number)
               : tr("Board %1 (no. %2)").arg(words(piece.board.mark)).arg(piece.number);
}

QString whereText(const rack::Piece& piece) {
    switch (piece.state) {
    case rack::PieceState::OnRack:
        return tr("on the shop rack");
    case rack::PieceState::InJob:
        return tr("in the job %1").arg(words(piece.job));
    case rack::PieceState::UsedUp:
        return tr("used up by %1").arg(words(piece.job));
    case rack::PieceState::ThrownOut:
        return tr("thrown out");
    }
    return {};
}

std::vector<EntryTitle> pieceTitles(UnitSystem units) {
    return {{tr("No."), tr("Number on the shop rack")},
            {tr("Mark"), tr("As chalked on the wood")},
            {tr("Species"), {}},
            {tr("Thick"), tr("Nominal thickness in quarter inches")},
            {tr("Length"), {}},
            {tr("Width"), tr("Greatest width")},
            {words(lumberUnit(units)), tr("Of the whole outline")},
            {tr("Moisture"), tr("Moisture content in percent, where it was measured")},
            {tr("Price"), tr("Of all of it; an offcut costs what its job was credited")},
            {tr("Since"), tr("The day it came to the shop rack")},
            {tr("From"), tr("The board it was cut from, and the job that put it here")},
            {tr("Where"), tr("On the shop rack, or the job that has it")}};
}

EntryCell pieceCell(const DocumentSession& session, const rack::Piece& piece, int column) {
    constexpr auto number = EntryCell::Kind::Number;
    const Board& board = piece.board;
    const JobInfo& info = session.document().info;
    switch (column) {
    case 0:
        return plain(QString::number(piece.number), number);
    case 1:
        return plain(words(board.mark));
    case 2:
        return plain(speciesText(board.species));
    case 3:
        return plain(QString("%1/4").arg(board.quarter.quarters), number);
    case 4:
        return shownLength(lengthOf(board), session.lengthStyle());
    case 5:
        return shownLength(widthOf(board), session.lengthStyle());
    case 6:
        return plain(words(formatLumber(exactBoardFeet(board), info.units)), number);
    case 7:
        return plain(board.moistureTenths ? tenthsText(board.moistureTenths) : QString("–"),
                     number);
    case 8:
        return plain(words(formatMoney(costOf(board), info.currency)), number);
    case 9:
        return plain(dayOf(piece.putIn));
    case 10: {
        EntryCell from = plain(fromText(piece));
        from.tip = from.text;
        return from;
    }
    default:
        return plain(whereText(piece));
    }
}

std::vector<EntryTitle> jobBoardTitles() {
    return {{tr("Board"), tr("A board of this job")},
            {tr("Goes to the shop rack").replace(' ', QChar::Nbsp),
             tr("What Enter puts on the shop rack")}};
}

EntryCell jobBoardCell(const DocumentSession& session, const Board& board, int column) {
    if (column == 0) {
        EntryCell cell = plain(words(board.mark));
        if (board.rackLink && board.rackLink->loan != 0) {
            cell.tip = tr("From the shop rack, no. %1").arg(board.rackLink->piece);
        }
        return cell;
    }
    switch (rack::wayToRack(session.document(), board)) {
    case rack::WayToRack::Done:
        return plain(tr("done; it is used up"));
    case rack::WayToRack::Whole:
        return plain(board.rackLink ? tr("whole, back to no. %1").arg(board.rackLink->piece)
                                    : tr("whole"));
    case rack::WayToRack::Offcuts: {
        const qint64 count = offcutsOf(session.document(), board.id);
        return plain(count == 0 ? tr("no offcut; nothing is left of it")
                                : counted(count, tr("offcut"), tr("offcuts")));
    }
    }
    return {};
}

} // namespace stavewright::ui
