#include "ui/piece/MakeUpFacts.h"

#include <QCoreApplication>
#include <QRegularExpression>

#include <algorithm>

#include "core/document/Limits.h"
#include "core/document/SizeResolver.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/piece/PartCells.h"
#include "ui/piece/PartSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("MakeUpFacts", text); }

QStringList dimensionWords() { return {tr("length"), tr("width"), tr("thickness")}; }

/// "-T thickness +R width"
QString leansText(const Document& document, const Size& size) {
    QStringList texts;
    for (const LeanTerm& term : size.leans) {
        const Part* other = findPart(document, term.part);
        texts << (term.factor < 0 ? "-" : "+") + (other != nullptr ? words(other->mark) : "?") +
                     " " + dimensionWords()[static_cast<int>(term.dimension)];
    }
    return texts.join(" ");
}

Result<std::vector<LeanTerm>> readLeans(const Document& document, const QString& typed) {
    std::vector<LeanTerm> terms;
    const QString text = typed.trimmed();
    static const QRegularExpression each("([+-])\\s*(\\S+)\\s+(\\S+)");
    qsizetype reached = 0;
    while (reached < text.size()) {
        const QRegularExpressionMatch match =
            each.match(text, reached, QRegularExpression::NormalMatch,
                       QRegularExpression::AnchorAtOffsetMatchOption);
        if (!match.hasMatch()) {
            return wrong(tr("Write a lean as a sign, the mark of a part and its dimension, such as "
                            "-T thickness."));
        }
        const std::string mark = match.captured(2).toStdString();
        const auto part = std::find_if(document.parts.begin(), document.parts.end(),
                                       [&](const Part& other) { return other.mark == mark; });
        if (part == document.parts.end()) {
            return wrong(tr("There is no part with the mark “%1”.").arg(match.captured(2)));
        }
        const Result<int> dimension = readChoice(match.captured(3), dimensionWords());
        if (!dimension) {
            return dimension.error();
        }
        terms.push_back({match.captured(1) == "-" ? -1 : 1, part->id,
                         static_cast<Dimension>(dimension.value())});
        reached = match.capturedEnd();
        while (reached < text.size() && text[reached].isSpace()) {
            ++reached;
        }
    }
    return terms;
}

/// What sets a value into a copy of the part.
template <class Value>
std::function<Result<Edit>(Value)> into(const Part& part,
                                        const std::function<void(Part&, Value)>& set) {
    return [part, set](Value typed) -> Result<Edit> {
        Part changed = part;
        set(changed, std::move(typed));
        return replacing(std::move(changed));
    };
}

EntryCell leansCell(const Document& document, const Part& part, Size Part::*size) {
    EntryCell cell;
    cell.text = leansText(document, part.*size);
    cell.propose = [&document, part, size](const QString& typed) -> Result<Edit> {
        const Result<std::vector<LeanTerm>> terms = readLeans(document, typed);
        if (!terms) {
            return terms.error();
        }
        Part changed = part;
        (changed.*size).leans = terms.value();
        return replacing(std::move(changed));
    };
    return cell;
}

} // namespace

std::vector<Fact> makeUpFacts(const DocumentSession& session, const Part& part) {
    const LengthStyle style = session.lengthStyle();
    FactList facts(tr("Part %1").arg(words(part.mark)));
    const auto length = [&](const QString& name, const QString& tip, Length value,
                            const std::function<void(Part&, Length)>& set) {
        facts.add(name, tip, lengthCell(value, style, into<Length>(part, set)));
    };
    const auto count = [&](const QString& name, const QString& tip, int value, int least, int most,
                           const std::function<void(Part&, int)>& set) {
        facts.add(name, tip, countCell(value, least, most, into<int>(part, set)));
    };
    facts.add(tr("Made up as"), {},
              choiceCell(makeUpOf(part), makeUpWords(),
                         into<int>(part, [units = style.units](Part& p, int typed) {
                             p = withMakeUp(p, typed, units);
                         })));
    if (part.makeUp.lamination) {
        count(tr("Plies"), tr("Layers of equal thickness, glued face to face"),
              part.makeUp.lamination->plies, 2, limits::plies,
              [](Part& p, int typed) { p.makeUp.lamination->plies = typed; });
    }
    if (const std::optional<PanelMakeUp>& panel = part.makeUp.panel) {
        length(tr("Narrowest stave"), tr("Net width in the panel"), panel->leastStave,
               [](Part& p, Length typed) { p.makeUp.panel->leastStave = typed; });
        length(tr("Widest stave"), tr("Net width in the panel"), panel->widestStave,
               [](Part& p, Length typed) { p.makeUp.panel->widestStave = typed; });
        count(tr("Fewest staves"), {}, panel->fewestStaves, 1, limits::staves,
              [](Part& p, int typed) { p.makeUp.panel->fewestStaves = typed; });
        count(tr("Most staves"), {}, panel->mostStaves, 1, limits::staves,
              [](Part& p, int typed) { p.makeUp.panel->mostStaves = typed; });
    }
    const auto leans = [&](Dimension dimension, Size Part::*size) {
        const QString name = dimensionWords()[static_cast<int>(dimension)];
        if (!(part.*size).leans.empty()) {
            length(tr("Base of the %1").arg(name), tr("The size before its leans"),
                   (part.*size).base, [size](Part& p, Length typed) { (p.*size).base = typed; });
        }
        facts.add(tr("%1 leans on").arg(name.at(0).toUpper() + name.mid(1)),
                  tr("A sign, the mark of a part and its dimension, such as -T thickness"),
                  leansCell(session.document(), part, size));
    };
    leans(Dimension::Length, &Part::length);
    leans(Dimension::Width, &Part::width);
    leans(Dimension::Thickness, &Part::thickness);
    facts.add(tr("Notes"), {},
              textCell(part.notes, into<std::string>(part, [](Part& p, std::string typed) {
                           p.notes = std::move(typed);
                       })));
    return facts.take();
}

} // namespace stavewright::ui
