#include "ui/piece/PartCells.h"

#include <QCoreApplication>

#include <algorithm>

#include "core/document/Limits.h"
#include "core/document/SizeResolver.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/piece/PartSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("PartCells", text); }

EntryCell wordsCell(const std::string& text, const Part& part, std::string Part::*word) {
    return textCell(text, [part, word](std::string typed) -> Result<Edit> {
        Part changed = part;
        changed.*word = std::move(typed);
        return replacing(std::move(changed));
    });
}

EntryCell countCell(int value, const Part& part, int Part::*count, int most) {
    return ui::countCell(value, 1, most, [part, count](int typed) -> Result<Edit> {
        Part changed = part;
        changed.*count = typed;
        return replacing(std::move(changed));
    });
}

/// A finished size. One that leans is shown as it comes out and is changed where its leans are.
EntryCell sizeCell(const DocumentSession& session, const Part& part, Dimension dimension,
                   Size Part::*size) {
    const LengthStyle style = session.lengthStyle();
    const bool leans = !(part.*size).leans.empty();
    const Result<Length> resolved = resolvedSize(session.document(), part, dimension);
    EntryCell cell = resolved ? shownLength(resolved.value(), style) : EntryCell();
    if (!resolved) {
        cell.text = tr("?");
    }
    if (leans) {
        cell.tip = resolved ? tr("Leans on another size; change it under \"Sizes that lean\"")
                            : words(resolved.error().message);
        return cell;
    }
    cell.reading = [style](const QString& typed) { return lengthReading(typed, style); };
    cell.propose = [style, part, size, dimension](const QString& typed) -> Result<Edit> {
        const Result<Length> length = dimension == Dimension::Thickness ? [&]() -> Result<Length> {
            const Result<Thickness> read = parseThickness(typed.toStdString(), style.units);
            if (!read) {
                return read.error();
            }
            return read.value().length;
        }()
            : readLength(typed, style);
        if (!length) {
            return length.error();
        }
        Part changed = part;
        (changed.*size).base = length.value();
        return replacing(std::move(changed));
    };
    return cell;
}

EntryCell leastCell(const LengthStyle& style, const Part& part) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    if (part.leastThickness) {
        cell = shownLength(*part.leastThickness, style);
    }
    cell.tip += tr("Thinner than this is refused; empty: as thick as wanted");
    cell.reading = [style](const QString& typed) { return lengthReading(typed, style); };
    cell.propose = [style, part](const QString& typed) -> Result<Edit> {
        const Result<std::optional<Length>> least = readMaybe(typed, style);
        if (!least) {
            return least.error();
        }
        Part changed = part;
        changed.leastThickness = least.value();
        return replacing(std::move(changed));
    };
    return cell;
}

EntryCell plainCell(const DocumentSession& session, const Part& part, PartColumn column) {
    switch (column) {
    case PartColumn::Mark:
        return wordsCell(part.mark, part, &Part::mark);
    case PartColumn::Name:
        return wordsCell(part.name, part, &Part::name);
    case PartColumn::Group: {
        EntryCell cell = wordsCell(part.group, part, &Part::group);
        for (const Part& other : session.document().parts) {
            if (const QString group = words(other.group);
                !group.isEmpty() && !cell.choices.contains(group)) {
                cell.choices << group;
            }
        }
        return cell;
    }
    case PartColumn::Species: {
        EntryCell cell;
        cell.text = speciesText(part.species);
        cell.choices = speciesNames();
        cell.propose = [part](const QString& typed) -> Result<Edit> {
            const Result<std::string> species = readSpecies(typed);
            if (!species) {
                return species.error();
            }
            Part changed = part;
            changed.species = species.value();
            return replacing(std::move(changed));
        };
        return cell;
    }
    case PartColumn::Count:
        return countCell(part.count, part, &Part::count, limits::partCount);
    case PartColumn::Length:
        return sizeCell(session, part, Dimension::Length, &Part::length);
    case PartColumn::Width:
        return sizeCell(session, part, Dimension::Width, &Part::width);
    case PartColumn::Thickness:
        return sizeCell(session, part, Dimension::Thickness, &Part::thickness);
    case PartColumn::Least:
        return leastCell(session.lengthStyle(), part);
    case PartColumn::MakeUp: {
        return choiceCell(makeUpOf(part), makeUpWords(),
                          [part, units = session.document().info.units](int typed) -> Result<Edit> {
                              return replacing(withMakeUp(part, typed, units));
                          });
    }
    case PartColumn::PerBlank:
        break;
    }
    EntryCell cell = countCell(part.perBlank, part, &Part::perBlank, limits::partsInOneBlank);
    cell.tip = tr("Short parts are milled as a multiple: so many in one blank, parted last");
    return cell;
}

} // namespace

std::vector<EntryTitle> partTitles() {
    return {{tr("Mark"), tr("On labels and drawings")},
            {tr("Name"), {}},
            {tr("Group"), tr("Top, base, drawer...: parts of one group share a tint")},
            {tr("Species"), {}},
            {tr("Count"), {}},
            {tr("Length"), tr("Finished length, along the grain")},
            {tr("Width"), tr("Finished width")},
            {tr("Thick"), tr("Finished thickness that is wanted")},
            {tr("Least"), tr("Least thickness that will do")},
            {tr("Make-up"), tr("One board, a panel of staves, a block of plies, or both")},
            {tr("Per blank"), tr("Parts milled as one blank and parted last")}};
}

EntryCell partCell(const DocumentSession& session, const Part& part, PartColumn column) {
    EntryCell cell = plainCell(session, part, column);
    if (cell.propose) {
        const QString title = partTitles()[static_cast<std::size_t>(column)].text;
        cell.step = tr("Part %1: %2").arg(words(part.mark), title.toLower());
    }
    return cell;
}

QStringList makeUpWords() {
    return {tr("one board"), tr("panel"), tr("block of plies"), tr("plies of panels")};
}

int makeUpOf(const Part& part) {
    return (part.makeUp.panel ? 1 : 0) + (part.makeUp.lamination ? 2 : 0);
}

Part withMakeUp(Part part, int makeUp, UnitSystem units) {
    const bool panel = makeUp == 1 || makeUp == 3;
    const bool plies = makeUp == 2 || makeUp == 3;
    if (panel && !part.makeUp.panel) {
        const bool inches = units == UnitSystem::Inches;
        PanelMakeUp staves;
        staves.leastStave = inches ? Length::inches(2) : Length::millimetres(50);
        staves.widestStave = inches ? Length::inches(6) : Length::millimetres(150);
        part.makeUp.panel = staves;
    } else if (!panel) {
        part.makeUp.panel.reset();
    }
    if (plies && !part.makeUp.lamination) {
        part.makeUp.lamination = LaminationMakeUp{};
    } else if (!plies) {
        part.makeUp.lamination.reset();
    }
    return part;
}

} // namespace stavewright::ui
