#include "ui/lumber/TallyCells.h"

#include <QCoreApplication>

#include "core/lumber/BoardShape.h"
#include "core/units/QuantityText.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("TallyCells", text); }

/// A length of the board, read and set into a copy of it.
EntryCell lengthCell(const LengthStyle& style, const Board& board, Length value,
                     const std::function<Result<Board>(Board, Length)>& set) {
    return ui::lengthCell(value, style, [board, set](Length typed) -> Result<Edit> {
        const Result<Board> changed = set(board, typed);
        if (!changed) {
            return changed.error();
        }
        return replacing(changed.value());
    });
}

/// Widths shape the board anew, which only a plain outline bears.
EntryCell outlineCell(const LengthStyle& style, const Board& board, Length value,
                      const std::function<void(PlainOutline&, Length)>& set) {
    return lengthCell(style, board, value, [set](Board changed, Length typed) -> Result<Board> {
        std::optional<PlainOutline> plain = plainOutlineOf(changed.outline);
        if (!plain) {
            return wrong(tr("The outline of board %1 is drawn with more than two ends; change it "
                            "in the table \"Outline\" at the right.")
                             .arg(words(changed.mark)));
        }
        if (typed <= Length()) {
            return wrong(tr("A board needs widths above 0."));
        }
        set(*plain, typed);
        return withOutline(std::move(changed), outlineOf(*plain));
    });
}

EntryCell wordsCell(const QString& text, const std::function<Result<Edit>(const QString&)>& take) {
    EntryCell cell;
    cell.text = text;
    cell.propose = take;
    return cell;
}

EntryCell thinnestCell(const LengthStyle& style, const Board& board) {
    EntryCell cell =
        lengthCell(style, board, board.thinnest, [](Board changed, Length typed) -> Result<Board> {
            changed.thinnest = typed;
            return changed;
        });
    cell.propose = [style, board](const QString& typed) -> Result<Edit> {
        const Result<Thickness> read = parseThickness(typed.toStdString(), style.units);
        if (!read) {
            return read.error();
        }
        Board changed = board;
        changed.thinnest = read.value().length;
        return replacing(std::move(changed));
    };
    if (cell.tip.isEmpty()) {
        cell.tip = tr("The thinnest spot, measured; until then the nominal thickness");
    }
    return cell;
}

EntryCell quarterCell(const Board& board) {
    EntryCell cell = wordsCell(QString("%1/4").arg(board.quarter.quarters),
                               [board](const QString& typed) -> Result<Edit> {
                                   const Result<Quarter> quarter = readQuarter(typed);
                                   if (!quarter) {
                                       return quarter.error();
                                   }
                                   Board changed = board;
                                   // Not measured yet: the thinnest spot is taken to be the nominal
                                   // thickness.
                                   if (changed.thinnest == changed.quarter.nominal()) {
                                       changed.thinnest = quarter.value().nominal();
                                   }
                                   changed.quarter = quarter.value();
                                   return replacing(std::move(changed));
                               });
    cell.kind = EntryCell::Kind::Number;
    return cell;
}

EntryCell setAsideCell(const Board& board) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Tick;
    cell.ticked = board.setAside;
    cell.tip = tr("Set aside: nothing is cut from it");
    cell.propose = [board](const QString& typed) -> Result<Edit> {
        Board changed = board;
        changed.setAside = !typed.isEmpty();
        return replacing(std::move(changed));
    };
    return cell;
}

EntryCell plainCell(const DocumentSession& session, const Board& board, TallyColumn column) {
    const LengthStyle style = session.lengthStyle();
    const EndWidths widths = endWidthsOf(board.outline);
    switch (column) {
    case TallyColumn::Mark:
        return wordsCell(words(board.mark), [board](const QString& typed) -> Result<Edit> {
            Board changed = board;
            changed.mark = typed.trimmed().toStdString();
            return replacing(std::move(changed));
        });
    case TallyColumn::Species: {
        EntryCell cell =
            wordsCell(speciesText(board.species), [board](const QString& typed) -> Result<Edit> {
                const Result<std::string> species = readSpecies(typed);
                if (!species) {
                    return species.error();
                }
                Board changed = board;
                changed.species = species.value();
                return replacing(std::move(changed));
            });
        cell.choices = speciesNames();
        return cell;
    }
    case TallyColumn::Quarter:
        return quarterCell(board);
    case TallyColumn::Length:
        return lengthCell(
            style, board, lengthOf(board), [](Board changed, Length typed) -> Result<Board> {
                if (typed <= Length()) {
                    return wrong(tr("A board needs a length above 0."));
                }
                std::optional<PlainOutline> plain = plainOutlineOf(changed.outline);
                if (plain) {
                    plain->length = typed;
                }
                Polygon outline = plain ? outlineOf(*plain) : ofLength(changed.outline, typed);
                return withOutline(std::move(changed), std::move(outline));
            });
    case TallyColumn::WidthAtDatum:
        return outlineCell(style, board, widths.atDatum, [](PlainOutline& plain, Length typed) {
            // A board that is equally wide everywhere stays so until the far end is measured.
            if (plain.widthAtFar == plain.widthAtDatum) {
                plain.widthAtFar = typed;
            }
            plain.widthAtDatum = typed;
        });
    case TallyColumn::WidthAtFar:
        return outlineCell(style, board, widths.atFar,
                           [](PlainOutline& plain, Length typed) { plain.widthAtFar = typed; });
    case TallyColumn::Thinnest:
        return thinnestCell(style, board);
    case TallyColumn::Price: {
        EntryCell cell =
            wordsCell(moneyText(pricePerLumberUnit(board.pricePerBoardFoot, style.units)),
                      [board, units = style.units](const QString& typed) -> Result<Edit> {
                          const Result<Money> price = readMoney(typed);
                          if (!price) {
                              return price.error();
                          }
                          Board changed = board;
                          changed.pricePerBoardFoot = pricePerBoardFoot(price.value(), units);
                          return replacing(std::move(changed));
                      });
        cell.kind = EntryCell::Kind::Number;
        return cell;
    }
    case TallyColumn::BoardFeet: {
        EntryCell cell;
        cell.kind = EntryCell::Kind::Number;
        cell.text = words(formatLumber(boardFeetOf(board), style.units));
        cell.tip = board.billed ? tr("As the yard tallied it")
                                : tr("Nominal thickness times the area of the outline");
        return cell;
    }
    case TallyColumn::SetAside:
        break;
    }
    return setAsideCell(board);
}

} // namespace

std::vector<EntryTitle> tallyTitles(UnitSystem units) {
    const bool metric = units == UnitSystem::Millimetres;
    return {{tr("Mark"), tr("The chalk mark of the board")},
            {tr("Species"), {}},
            {tr("Rough"), tr("Rough thickness in quarters of an inch, such as 8/4")},
            {tr("Length"), {}},
            {tr("Datum end"), tr("Width at the datum end, from which the tape runs")},
            {tr("Far end"), tr("Width at the far end")},
            {tr("Thin spot"), tr("Thickness at the thinnest measured spot")},
            {tr("Price"), metric ? tr("Price per cubic metre") : tr("Price per board foot")},
            metric ? EntryTitle{tr("m³"), tr("Cubic metres")}
                   : EntryTitle{tr("Bd ft"), tr("Board feet")},
            {tr("Aside"), tr("Set aside: nothing is cut from it")}};
}

EntryCell tallyCell(const DocumentSession& session, const Board& board, TallyColumn column) {
    EntryCell cell = plainCell(session, board, column);
    if (cell.propose) {
        const QString title =
            tallyTitles(session.lengthStyle().units)[static_cast<std::size_t>(column)].text;
        cell.step = tr("Board %1: %2").arg(words(board.mark), title.toLower());
    }
    return cell;
}

} // namespace stavewright::ui
