#include "ui/layout/BoardPicture.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <map>
#include <string_view>

#include "core/layout/PieceState.h"
#include "core/planning/BoardShare.h"
#include "core/units/QuantityText.h"
#include "core/wood/Species.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QPointF point(Point p) { return {p.x.toMillimetres(), p.y.toMillimetres()}; }

QString tr(const char* text) { return QCoreApplication::translate("BoardPicture", text); }

QString sizeText(const Rect& rect, const LengthStyle& style) {
    return tapeText(rect.width(), style) + QString::fromUtf8(" × ") +
           tapeText(rect.length(), style);
}

/// Groups in the order in which the parts name them; each has one quiet tint.
std::map<PartId, int> tintsOf(const Document& document) {
    std::map<PartId, int> tints;
    std::vector<std::string_view> groups;
    for (const Part& part : document.parts) {
        const auto found = std::find(groups.begin(), groups.end(), part.group);
        tints.emplace(part.id, static_cast<int>(found - groups.begin()));
        if (found == groups.end()) {
            groups.push_back(part.group);
        }
    }
    return tints;
}

class Builder {
  public:
    Builder(const Document& document, const AuditReport& report, const LengthStyle& style)
        : m_document(document)
        , m_report(report)
        , m_style(style)
        , m_tints(tintsOf(document)) {}

    BoardPicture bare(const Board& board) const {
        BoardPicture picture;
        picture.board = board;
        picture.title = tr("Board %1").arg(words(board.mark));
        const Species* species = findSpecies(board.species);
        picture.facts =
            tr("%1/4 %2, %3 × %4, %5")
                .arg(board.quarter.quarters)
                .arg(species != nullptr ? words(species->name) : words(board.species))
                .arg(tapeText(widthOf(board), m_style), tapeText(lengthOf(board), m_style),
                     words(lumberText(boardFeetOf(board), m_style.units, LumberDetail::Glance)));
        picture.rules = rulesOf(board);
        if (!picture.rules.isEmpty()) {
            picture.facts += ", " + picture.rules;
        }
        picture.outline = inMillimetres(board.outline);
        const QRectF box = picture.outline.boundingRect();
        picture.length = box.right();
        picture.lowest = box.top();
        picture.highest = box.bottom();
        addTrim(picture, Length(), board.trimAtDatum);
        addTrim(picture, lengthOf(board) - board.trimAtFar, lengthOf(board));
        for (const Defect& defect : board.defects) {
            DefectPicture shown;
            shown.id = defect.id;
            shown.kind = defect.kind;
            shown.mark = words(defect.mark);
            if (defect.onA) {
                shown.onA = defect.onA->outline;
            }
            if (defect.onB) {
                shown.onB = defect.onB->outline;
            }
            if (defect.through && !defect.onB) {
                shown.onB = shown.onA; // with one mark only it runs straight through
            }
            if (defect.through && !defect.onA) {
                shown.onA = shown.onB;
            }
            picture.defects.push_back(std::move(shown));
        }
        picture.wrong = hasFailure([&](const Finding& f) { return f.board == board.id; });
        return picture;
    }

    void addLayout(BoardPicture& picture, const BoardLayout& layout) const {
        picture.touched = !layout.sections.empty();
        QStringList marks;
        for (const Section& section : layout.sections) {
            addCrosscut(picture, section.along.from);
            addCrosscut(picture, section.along.to);
            addCrosscutKerf(picture, section);
            const Stretch along = localExtent(section);
            addOffcuts(picture, section, section.offcuts);
            for (const Strip& strip : section.strips) {
                addRip(picture, section, along, strip.across.from);
                addRip(picture, section, along, strip.across.to);
                addStripKerfs(picture, section, along, strip);
                addOffcuts(picture, section, strip.offcuts);
                for (const Blank& blank : strip.blanks) {
                    marks << addBlank(picture, section, strip, blank);
                    picture.blanks.back().locked |= section.locked || layout.locked;
                }
            }
        }
        picture.contents = marks.join(QString::fromUtf8("  "));
        addReadings(picture, layout);
        const Board* board = findBoard(m_document, layout.board);
        if (board && picture.touched) {
            picture.share = words(formatShare(roughBlanksOn(*board, layout), boardFeetOf(*board)));
            picture.yield = tr("yield %1").arg(picture.share);
        }
    }

  private:
    template <class Test>
    bool hasFailure(Test test) const {
        return std::any_of(
            m_report.findings.begin(), m_report.findings.end(),
            [&](const Finding& f) { return f.severity == Severity::Failure && test(f); });
    }

    [[nodiscard]] QString rulesOf(const Board& board) const {
        QStringList all;
        if (board.setAside) {
            all << tr("set aside");
        }
        for (const BoardRule& rule : m_document.boardRules) {
            const Part* part = rule.board == board.id ? findPart(m_document, rule.part) : nullptr;
            if (part != nullptr) {
                QString text =
                    (rule.kind == BoardRule::Kind::KeptFor ? tr("only %1") : tr("not %1"))
                        .arg(words(part->mark));
                if (rule.along) {
                    text += tr(" from %1 to %2")
                                .arg(readingText(rule.along->from, m_style),
                                     readingText(rule.along->to, m_style));
                }
                all << text;
            }
        }
        return all.join(", ");
    }

    void addTrim(BoardPicture& picture, Length from, Length to) const {
        if (from < to) {
            picture.trims.emplace_back(QRectF(QPointF(from.toMillimetres(), picture.lowest),
                                              QPointF(to.toMillimetres(), picture.highest)));
        }
    }

    /// The section's stretch along its own edge.
    Stretch localExtent(const Section& section) const {
        return {toLocal(section.frame, {section.along.from, section.frame.origin.y}).x,
                toLocal(section.frame, {section.along.to, section.frame.origin.y}).x};
    }

    void addCrosscut(BoardPicture& picture, Length x) const {
        if (const std::optional<Stretch> run = acrossAt(picture.board.outline, x)) {
            picture.cuts.push_back(
                {QLineF(point({x, run->from}), point({x, run->to})), CutKind::Crosscut});
        }
    }

    void addRip(BoardPicture& picture, const Section& section, Stretch along, Length v) const {
        picture.cuts.push_back({QLineF(point(toOuter(section.frame, Point{along.from, v})),
                                       point(toOuter(section.frame, Point{along.to, v}))),
                                CutKind::Rip});
    }

    /// The kerf lies outside what the cut frees, at both ends of the section.
    void addCrosscutKerf(BoardPicture& picture, const Section& section) const {
        const Length kerf = m_document.shop.machines.crosscut.kerf;
        const auto band = [&](Length from, Length to) {
            if (from >= Length() && to <= lengthOf(picture.board)) {
                picture.kerfs.emplace_back(QRectF(QPointF(from.toMillimetres(), picture.lowest),
                                                  QPointF(to.toMillimetres(), picture.highest)));
            }
        };
        band(section.along.from - kerf, section.along.from);
        band(section.along.to, section.along.to + kerf);
    }

    void addStripKerfs(BoardPicture& picture, const Section& section, Stretch along,
                       const Strip& strip) const {
        const Machines& machines = m_document.shop.machines;
        const Length rip =
            section.facing == FirstFacing::Whole ? machines.rip.kerf : machines.roughRip.kerf;
        const auto band = [&](Length x0, Length x1, Length y0, Length y1) {
            picture.kerfs.push_back(inMillimetres(toOuter(section.frame, Rect{x0, y0, x1, y1})));
        };
        band(along.from, along.to, strip.across.from - rip, strip.across.from);
        band(along.from, along.to, strip.across.to, strip.across.to + rip);
        const Length cross = machines.stripCrosscut.kerf;
        for (const Blank& blank : strip.blanks) {
            const Rect& wood = woodOf(blank);
            for (const Length x : {wood.x0 - cross, wood.x1}) {
                if (x > along.from && x + cross < along.to) { // not where the section ends anyway
                    band(x, x + cross, strip.across.from, strip.across.to);
                }
            }
        }
    }

    void addOffcuts(BoardPicture& picture, const Section& section,
                    const std::vector<Offcut>& offcuts) const {
        for (const Offcut& offcut : offcuts) {
            picture.offcuts.push_back({inMillimetres(toOuter(section.frame, offcut.rect)),
                                       sizeText(offcut.rect, m_style)});
        }
    }

    QString addBlank(BoardPicture& picture, const Section& section, const Strip& strip,
                     const Blank& blank) const {
        const Rect& wood = woodOf(blank);
        BlankPicture shown;
        shown.id = blank.id;
        shown.part = blank.purpose.part;
        shown.outline = inMillimetres(toOuter(section.frame, wood));
        shown.mark = words(labelOf(m_document, blank.purpose));
        shown.names = words(labelOfAll(m_document, blank.purpose));
        shown.size = sizeText(wood, m_style);
        shown.pose = blank.pose;
        shown.planing = alongBoard(picture.board.planing);
        const auto tint = m_tints.find(blank.purpose.part);
        shown.tint = tint == m_tints.end() ? 0 : tint->second;
        shown.locked = blank.locked;
        shown.state = stateOf(section, blank);
        shown.wrong = hasFailure([&](const Finding& f) { return f.blank == blank.id; });
        for (const Length v : {wood.y0, wood.y1}) {
            if (v != strip.across.from && v != strip.across.to) {
                picture.cuts.push_back({QLineF(point(toOuter(section.frame, Point{wood.x0, v})),
                                               point(toOuter(section.frame, Point{wood.x1, v}))),
                                        CutKind::Trim});
            }
        }
        picture.blanks.push_back(shown);
        return shown.names;
    }

    /// Of two crosscuts one kerf apart only the first is read off the tape; the saw makes both in
    /// one cut.
    void addReadings(BoardPicture& picture, const BoardLayout& layout) const {
        std::optional<Length> last;
        for (const Section& section : layout.sections) {
            for (const Length x : {section.along.from, section.along.to}) {
                const bool sameCut = last && x - *last <= m_document.shop.machines.crosscut.kerf;
                if (!sameCut) {
                    picture.readings.push_back({x.toMillimetres(), readingText(x, m_style)});
                }
                last = x;
            }
        }
    }

    const Document& m_document;
    const AuditReport& m_report;
    LengthStyle m_style;
    std::map<PartId, int> m_tints;
};

} // namespace

QPolygonF inMillimetres(const Polygon& polygon) {
    QPolygonF result;
    result.reserve(static_cast<qsizetype>(polygon.size()));
    for (const Point& corner : polygon) {
        result << point(corner);
    }
    return result;
}

std::vector<BoardPicture> picturesOf(const Document& document, const Plan* plan,
                                     const AuditReport& report, const LengthStyle& style) {
    const Builder builder(document, report, style);
    std::vector<BoardPicture> pictures;
    pictures.reserve(document.boards.size());
    for (const Board& board : document.boards) {
        BoardPicture picture = builder.bare(board);
        if (plan != nullptr) {
            for (const BoardLayout& layout : plan->boards) {
                if (layout.board == board.id) {
                    builder.addLayout(picture, layout);
                }
            }
        }
        pictures.push_back(std::move(picture));
    }
    return pictures;
}

} // namespace stavewright::ui
