#include "ui/lumber/DefectCells.h"

#include <QCoreApplication>

#include <algorithm>

#include "core/lumber/MarkPlace.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("DefectCells", text); }

enum class Shown { A, B, Through };
QStringList shownWords() { return {tr("A"), tr("B"), tr("through")}; }

Shown shownOf(const Defect& defect) {
    if (defect.through || (defect.onA && defect.onB)) {
        return Shown::Through;
    }
    return defect.onA ? Shown::A : Shown::B;
}

/// The mark that is measured; the other one is told by its slant.
const FaceMark& firstMark(const Defect& defect) { return defect.onA ? *defect.onA : *defect.onB; }

Edit withDefect(Board board, const Defect& defect) {
    const auto found = std::find_if(board.defects.begin(), board.defects.end(),
                                    [&](const Defect& other) { return other.id == defect.id; });
    if (found != board.defects.end()) {
        *found = defect;
    }
    return replacing(std::move(board));
}

/// Both marks moved alike, so that the slant stays.
Defect placedAt(const Board& board, Defect defect, const MarkPlace& place) {
    const MarkPlace first = placeOf(board.outline, firstMark(defect));
    for (std::optional<FaceMark>* mark : {&defect.onA, &defect.onB}) {
        if (*mark) {
            MarkPlace own = placeOf(board.outline, **mark);
            own.fromDatum += place.fromDatum - first.fromDatum;
            own.fromEdge += place.fromEdge - first.fromEdge;
            own.along = place.along;
            own.across = place.across;
            *mark = movedTo(board.outline, **mark, own);
        }
    }
    return defect;
}

Defect showingOn(Defect defect, Shown shown) {
    const FaceMark mark = firstMark(defect);
    switch (shown) {
    case Shown::A:
        defect.onA = mark;
        defect.onB.reset();
        defect.through = false;
        break;
    case Shown::B:
        defect.onB = defect.onB.value_or(mark);
        defect.onA.reset();
        defect.through = false;
        break;
    case Shown::Through:
        return shownOnBothFaces(defect);
    }
    return defect;
}

using SetLength = std::function<Defect(Defect, Length)>;

EntryCell lengthCell(const LengthStyle& style, const Board& board, const Defect& defect,
                     Length value, bool aboveZero, const SetLength& set) {
    return ui::lengthCell(value, style, [=](Length typed) -> Result<Edit> {
        if (aboveZero && typed <= Length()) {
            return wrong(tr("A mark needs a length and a width above 0."));
        }
        return withDefect(board, set(defect, typed));
    });
}

EntryCell placeCell(const LengthStyle& style, const Board& board, const Defect& defect,
                    Length MarkPlace::*figure, bool aboveZero) {
    const MarkPlace place = placeOf(board.outline, firstMark(defect));
    return lengthCell(style, board, defect, place.*figure, aboveZero,
                      [board, place, figure](Defect changed, Length typed) {
                          MarkPlace to = place;
                          to.*figure = typed;
                          // A round mark stays as wide as it is long until its width is measured.
                          if (figure == &MarkPlace::along && isRound(changed.kind) &&
                              place.along == place.across) {
                              to.across = typed;
                          }
                          return placedAt(board, std::move(changed), to);
                      });
}

EntryCell slantCell(const LengthStyle& style, const Board& board, const Defect& defect,
                    Length Point::*figure) {
    const bool both = defect.onA && defect.onB;
    const Point slant = both ? offsetBetween(*defect.onA, *defect.onB) : Point();
    EntryCell cell = lengthCell(
        style, board, defect, slant.*figure, false, [slant, figure](Defect changed, Length typed) {
            Point to = slant;
            to.*figure = typed;
            changed = shownOnBothFaces(changed);
            changed.onB = shifted(*changed.onB, to.x - slant.x, to.y - slant.y);
            return changed;
        });
    if (shownOf(defect) != Shown::Through) {
        cell = EntryCell();
        cell.kind = EntryCell::Kind::Number;
        cell.tip = tr("Only a defect that goes through has a slant");
    }
    return cell;
}

EntryCell kindCell(const Board& board, const Defect& defect) {
    EntryCell cell;
    cell.text = kindText(defect.kind);
    for (const DefectKind kind : allDefectKinds) {
        cell.choices << kindText(kind);
    }
    cell.propose = [board, defect](const QString& typed) -> Result<Edit> {
        const Result<DefectKind> kind = readKind(typed);
        if (!kind) {
            return kind.error();
        }
        Defect changed = defect;
        for (std::optional<FaceMark>* mark : {&changed.onA, &changed.onB}) {
            if (*mark) {
                *mark = asKind(board.outline, **mark, defect.kind, kind.value());
            }
        }
        changed.kind = kind.value();
        return withDefect(board, changed);
    };
    return cell;
}

EntryCell faceCell(const Board& board, const Defect& defect) {
    return choiceCell(static_cast<int>(shownOf(defect)), shownWords(),
                      [board, defect](int face) -> Result<Edit> {
                          return withDefect(board, showingOn(defect, static_cast<Shown>(face)));
                      });
}

EntryCell depthCell(const LengthStyle& style, const Board& board, const Defect& defect) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    if (defect.depth) {
        cell = shownLength(*defect.depth, style);
    }
    cell.tip += tr("How deep it goes; left empty it is taken to reach half the thickness");
    cell.reading = [style](const QString& typed) { return lengthReading(typed, style); };
    cell.propose = [=](const QString& typed) -> Result<Edit> {
        const Result<std::optional<Length>> depth = readMaybe(typed, style);
        if (!depth) {
            return depth.error();
        }
        Defect changed = defect;
        changed.depth = depth.value();
        return withDefect(board, changed);
    };
    return cell;
}

EntryCell markCell(const Board& board, const Defect& defect) {
    return textCell(defect.mark, [board, defect](std::string typed) -> Result<Edit> {
        Defect changed = defect;
        changed.mark = std::move(typed);
        return withDefect(board, changed);
    });
}

EntryCell plainCell(const LengthStyle& style, const Board& board, const Defect& defect,
                    DefectColumn column) {
    switch (column) {
    case DefectColumn::Mark:
        return markCell(board, defect);
    case DefectColumn::Kind:
        return kindCell(board, defect);
    case DefectColumn::FromDatum:
        return placeCell(style, board, defect, &MarkPlace::fromDatum, false);
    case DefectColumn::FromEdge:
        return placeCell(style, board, defect, &MarkPlace::fromEdge, false);
    case DefectColumn::Along:
        return placeCell(style, board, defect, &MarkPlace::along, true);
    case DefectColumn::Across:
        return placeCell(style, board, defect, &MarkPlace::across, true);
    case DefectColumn::Face:
        return faceCell(board, defect);
    case DefectColumn::SlantAlong:
        return slantCell(style, board, defect, &Point::x);
    case DefectColumn::SlantAcross:
        return slantCell(style, board, defect, &Point::y);
    case DefectColumn::Depth:
        break;
    }
    return depthCell(style, board, defect);
}

} // namespace

std::vector<EntryTitle> defectTitles() {
    return {
        {tr("Mark"), tr("The chalk mark of the defect")},
        {tr("Kind"), tr("Type the letter: S sound knot, L loose knot, O knot hole, C check...")},
        {tr("From datum"), tr("From the datum end to where it begins")},
        {tr("From edge"), tr("From the near edge to where it begins")},
        {tr("Along"), tr("How long it is along the grain")},
        {tr("Across"), tr("How wide it is across the grain")},
        {tr("Face"), tr("A, B or through")},
        {tr("B along"), tr("How much further from the datum end it begins on face B")},
        {tr("B across"), tr("How much further from the near edge it begins on face B")},
        {tr("Depth"), tr("How deep it goes when it is not through")}};
}

EntryCell defectCell(const DocumentSession& session, const Board& board, const Defect& defect,
                     DefectColumn column) {
    EntryCell cell = plainCell(session.lengthStyle(), board, defect, column);
    if (cell.propose) {
        const QString title = defectTitles()[static_cast<std::size_t>(column)].text;
        cell.step = tr("Defect %1 of board %2: %3")
                        .arg(words(defect.mark), words(board.mark), title.toLower());
    }
    return cell;
}

QString kindText(DefectKind kind) {
    return QString("%1 %2").arg(QChar::fromLatin1(letterOf(kind)), words(nameOf(kind)));
}

Result<DefectKind> readKind(const QString& typed) {
    const QString text = typed.trimmed();
    const bool letterAlone = text.size() == 1 || (text.size() > 1 && text[1] == ' ');
    for (const DefectKind kind : allDefectKinds) {
        if (letterAlone && text[0].toUpper() == QChar::fromLatin1(letterOf(kind))) {
            return kind;
        }
    }
    QStringList names;
    for (const DefectKind kind : allDefectKinds) {
        names << words(nameOf(kind));
    }
    const Result<int> named = readChoice(text, names);
    if (!named) {
        return wrong(tr("“%1” is no kind of defect; type its letter or name, such as S for a sound "
                        "knot.")
                         .arg(text));
    }
    return allDefectKinds[static_cast<std::size_t>(named.value())];
}

Defect shownOnBothFaces(const Defect& defect) {
    Defect both = defect;
    both.onA = defect.onA ? defect.onA : defect.onB;
    both.onB = defect.onB ? defect.onB : defect.onA;
    both.through = true;
    both.depth.reset();
    return both;
}

} // namespace stavewright::ui
