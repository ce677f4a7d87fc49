#include "ui/lumber/BoardFacts.h"

#include <QCoreApplication>

#include "core/geometry/PolygonOps.h"
#include "core/lumber/Marking.h"
#include "core/lumber/WarpReach.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/lumber/BoardSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("BoardFacts", text); }

/// What sets a value into a copy of the board.
template <class Value>
std::function<Result<Edit>(Value)> into(const Board& board,
                                        const std::function<void(Board&, Value)>& set) {
    return [board, set](Value typed) -> Result<Edit> {
        Board changed = board;
        set(changed, std::move(typed));
        return replacing(std::move(changed));
    };
}

EntryCell moistureCell(const Board& board) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    cell.text = tenthsText(board.moistureTenths);
    cell.propose = [board](const QString& typed) -> Result<Edit> {
        const auto read = readTenths(typed);
        if (!read) {
            return read.error();
        }
        Board changed = board;
        changed.moistureTenths = read.value();
        return replacing(std::move(changed));
    };
    return cell;
}

/// Empty where the job's usual radius counts.
EntryCell ringCell(const DocumentSession& session, const Board& board) {
    const auto set = [board](std::optional<Length> radius) -> Result<Edit> {
        Board changed = board;
        changed.ringRadius = radius;
        return replacing(std::move(changed));
    };
    EntryCell cell = lengthCell(board.ringRadius.value_or(Length()), session.lengthStyle(), set);
    if (!board.ringRadius) {
        cell.text.clear();
        cell.opensWith.clear();
    }
    cell.propose = [set, typedLength = cell.propose](const QString& typed) {
        return typed.trimmed().isEmpty() ? set(std::nullopt) : typedLength(typed);
    };
    return cell;
}

EntryCell shapedCell(const DocumentSession& session, const Board& board, Length value,
                     const std::function<Result<Board>(const Board&, Length)>& set) {
    return lengthCell(value, session.lengthStyle(), [board, set](Length typed) -> Result<Edit> {
        const Result<Board> changed = set(board, typed);
        if (!changed) {
            return changed.error();
        }
        return replacing(changed.value());
    });
}

QStringList faceWords() { return {tr("A"), tr("B")}; }

} // namespace

std::vector<Fact> boardFacts(const DocumentSession& session, const Board& board) {
    const LengthStyle style = session.lengthStyle();
    FactList facts(tr("Board %1").arg(words(board.mark)));
    const auto length = [&](const QString& name, const QString& tip, Length value,
                            const std::function<void(Board&, Length)>& set) {
        facts.add(name, tip, lengthCell(value, style, into<Length>(board, set)));
    };
    const auto choice = [&](const QString& name, const QString& tip, int now,
                            const QStringList& choices,
                            const std::function<void(Board&, int)>& set) {
        facts.add(name, tip, choiceCell(now, choices, into<int>(board, set)));
    };
    length(tr("Bow"), tr("Deepest gap under the whole board, lying on its hollow face"),
           board.warp.bow, [](Board& b, Length typed) { b.warp.bow = typed; });
    length(tr("Crook"),
           tr("Deepest gap of the near edge from a line between its ends; below 0 when it "
              "bends the other way. It bends the outline."),
           crookOf(board.outline),
           [](Board& b, Length typed) { b = withOutline(b, bent(b.outline, typed)); });
    length(tr("Cup"), tr("Deepest gap across the whole width"), board.warp.cup,
           [](Board& b, Length typed) { b.warp.cup = typed; });
    length(tr("Twist"), tr("Lift of the fourth corner with three corners down"), board.warp.twist,
           [](Board& b, Length typed) { b.warp.twist = typed; });
    choice(tr("Where the warp is"), tr("Warp that sits at one end spoils only that third"),
           static_cast<int>(board.warp.where),
           {tr("even"), tr("mostly at the datum end"), tr("mostly at the far end")},
           [](Board& b, int typed) { b.warp.where = static_cast<Warp::Where>(typed); });
    length(tr("Trim at datum end"), tr("Raw end to cut off before anything"), board.trimAtDatum,
           [](Board& b, Length typed) { b.trimAtDatum = typed; });
    length(tr("Trim at far end"), tr("Raw end to cut off before anything"), board.trimAtFar,
           [](Board& b, Length typed) { b.trimAtFar = typed; });
    choice(tr("Heart side"), tr("The face that lay towards the heart of the tree"),
           static_cast<int>(board.heart), {tr("not known"), tr("face A"), tr("face B")},
           [](Board& b, int typed) { b.heart = static_cast<HeartSide>(typed); });
    facts.add(tr("Ring radius"),
              tr("Of the growth rings at the ends, for the cup forecast; empty: the usual one of "
                 "the place Shop"),
              ringCell(session, board));
    choice(
        tr("Goes in first"),
        tr("The end that goes into planer and jointer first so that face A does not tear; a hand "
           "plane runs cleanly towards the other end"),
        static_cast<int>(board.planing), {tr("not known"), tr("the far end"), tr("the datum end")},
        [](Board& b, int typed) { b.planing = static_cast<PlaningDirection>(typed); });
    facts.add(tr("Moisture content"), tr("In percent; empty when it was not measured"),
              moistureCell(board));
    facts.add(tr("Notes"), {},
              textCell(board.notes, into<std::string>(board, [](Board& b, std::string typed) {
                           b.notes = std::move(typed);
                       })));
    return facts.take();
}

std::vector<EntryTitle> stationTitles() {
    return {{tr("From datum"), tr("Distance of the station from the datum end")},
            {tr("Near edge"), tr("Where the near edge stands there")},
            {tr("Far edge"), tr("Where the far edge stands there")}};
}

EntryCell stationCell(const DocumentSession& session, const Board& board, std::size_t station,
                      int column) {
    const std::vector<Station> stations = stationsOf(board.outline);
    if (station >= stations.size()) {
        return {};
    }
    static constexpr Length Station::*figures[] = {&Station::x, &Station::nearEdge,
                                                   &Station::farEdge};
    Length Station::*figure = figures[column];
    EntryCell cell = shapedCell(
        session, board, stations[station].*figure,
        [stations, station, figure](const Board& b, Length typed) -> Result<Board> {
            std::vector<Station> changed = stations;
            changed[station].*figure = typed;
            const bool ordered =
                (station == 0 || changed[station - 1].x < changed[station].x) &&
                (station + 1 == changed.size() || changed[station].x < changed[station + 1].x);
            if (!ordered) {
                return wrong(tr("The stations must follow one another from the datum end on."));
            }
            if (changed[station].nearEdge >= changed[station].farEdge) {
                return wrong(tr("The far edge must stand beyond the near edge."));
            }
            return withOutline(b, outlineOf(changed));
        });
    if (station == 0 && column == 0) {
        cell.propose = {}; // the datum end is where the tape begins
    }
    cell.step = tr("Board %1: outline").arg(words(board.mark));
    return cell;
}

Board withOneMoreStation(const Board& board) {
    std::vector<Station> stations = stationsOf(board.outline);
    std::size_t widest = 0;
    for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
        if (stations[i + 1].x - stations[i].x > stations[widest + 1].x - stations[widest].x) {
            widest = i;
        }
    }
    const Length x = stations[widest].x + (stations[widest + 1].x - stations[widest].x) / 2;
    const std::optional<Stretch> across = acrossAt(board.outline, x);
    if (!across) {
        return board;
    }
    stations.insert(stations.begin() + static_cast<std::ptrdiff_t>(widest) + 1,
                    {x, across->from, across->to});
    return withOutline(board, outlineOf(stations));
}

Board withoutStation(const Board& board, std::size_t station) {
    std::vector<Station> stations = stationsOf(board.outline);
    if (station == 0 || station + 1 >= stations.size()) {
        return board;
    }
    stations.erase(stations.begin() + static_cast<std::ptrdiff_t>(station));
    return withOutline(board, outlineOf(stations));
}

std::vector<EntryTitle> lookedTitles() {
    return {{tr("Face"), {}},
            {tr("From"), tr("Distance from the datum end")},
            {tr("To"), tr("Distance from the datum end")},
            {tr("Knots under"), tr("A quick look: sound knots under this size were not marked; "
                                   "empty when all were")}};
}

EntryCell lookedCell(const DocumentSession& session, const Board& board, std::size_t place,
                     int column) {
    if (place >= board.lookedAt.size()) {
        return {};
    }
    const LookedAt seen = board.lookedAt[place];
    EntryCell cell;
    if (column == 0) {
        cell = choiceCell(static_cast<int>(seen.face), faceWords(),
                          into<int>(board, [place](Board& b, int typed) {
                              b.lookedAt[place].face = static_cast<BoardFace>(typed);
                          }));
    } else if (column == 3) {
        const LengthStyle style = session.lengthStyle();
        if (seen.knotsUnder) {
            cell = shownLength(*seen.knotsUnder, style);
        }
        cell.kind = EntryCell::Kind::Number;
        cell.reading = [style](const QString& typed) { return lengthReading(typed, style); };
        cell.propose = [board, place, style](const QString& typed) -> Result<Edit> {
            const Result<std::optional<Length>> under = readMaybe(typed, style);
            if (!under) {
                return under.error();
            }
            Board changed = board;
            changed.lookedAt[place].knotsUnder = under.value();
            return replacing(std::move(changed));
        };
    } else {
        Length Stretch::*figure = column == 1 ? &Stretch::from : &Stretch::to;
        cell = shapedCell(session, board, seen.stretch.*figure,
                          [place, figure](Board changed, Length typed) -> Result<Board> {
                              changed.lookedAt[place].stretch.*figure = typed;
                              return changed;
                          });
    }
    cell.step = tr("Board %1: what was looked at").arg(words(board.mark));
    return cell;
}

Board withFaceSeen(const Board& board, BoardFace face) {
    Board changed = board;
    std::erase_if(changed.lookedAt, [face](const LookedAt& seen) { return seen.face == face; });
    changed.lookedAt.push_back({face, {Length(), lengthOf(board)}});
    return changed;
}

Board withStretchSeen(const Board& board, BoardFace face) {
    Board changed = board;
    const std::vector<Stretch> open = notLookedAt(board, face, {Length(), lengthOf(board)});
    changed.lookedAt.push_back(
        {face, open.empty() ? Stretch{Length(), lengthOf(board)} : open.front()});
    return changed;
}

std::vector<EntryTitle> reachTitles() {
    return {{tr("Piece long"), tr("Length of the piece when it is first faced")},
            {tr("Full width"), tr("Thickness it still reaches, as wide as the board")},
            {tr("Half width"), tr("Thickness it still reaches when the board is ripped first")},
            {tr("Straight"), tr("The widest straight strip of that length, at its best place: what "
                                "crook, taper and wane in the outline leave")}};
}

QString reachWords(const Board& board, Length cleaning, const LengthStyle& style) {
    const bool inches = style.units == UnitSystem::Inches;
    const Warp& warp = board.warp;
    if (warp.bow == Length() && warp.cup == Length() && warp.twist == Length()) {
        return tr("Entered as flat: every piece makes %1.")
            .arg(tapeText(board.thinnest - cleaning, style));
    }
    const std::vector<ThicknessStep> steps =
        thicknessSteps(board, cleaning, inches ? Length::inches(1, 8) : Length::millimetres(2),
                       inches ? Length::inches(1) : Length::millimetres(10));
    const Length whole =
        reachableThickness(board, {Length(), lengthOf(board)}, widthOf(board), cleaning);
    QString text = tr("The whole board makes %1").arg(tapeText(whole, style));
    for (const ThicknessStep& step : steps) {
        text += step == steps.front() ? tr("; %1 pieces still make %2") : tr(", %1 make %2");
        text = text.arg(tapeText(step.longest, style) + (inches ? tr(" in") : tr(" mm")),
                        tapeText(step.thickness, style));
    }
    return text + '.';
}

Board trimmedBehindChecks(const Board& board) {
    constexpr Length near = Length::inches(1); // a check that begins so near runs out at the end
    const EndChecks checks = endChecksOf(board, near);
    Board changed = board;
    changed.trimAtDatum = std::max(board.trimAtDatum, checks.atDatum);
    changed.trimAtFar = std::max(board.trimAtFar, checks.atFar);
    return changed;
}

std::vector<Length> reachPieces(UnitSystem units) {
    if (units == UnitSystem::Inches) {
        return {Length::inches(12), Length::inches(24), Length::inches(36), Length::inches(48),
                Length::inches(72)};
    }
    return {Length::millimetres(300), Length::millimetres(600), Length::millimetres(900),
            Length::millimetres(1'200), Length::millimetres(1'800)};
}

} // namespace stavewright::ui
