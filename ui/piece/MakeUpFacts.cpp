#include "ui/piece/MakeUpFacts.h"

#include <QCoreApplication>
#include <QRegularExpression>

#include <algorithm>

#include "core/document/Limits.h"
#include "core/document/SizeResolver.h"
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

class FactMaker {
  public:
    FactMaker(const DocumentSession& session, const Part& part)
        : m_document(session.document())
        , m_style(session.lengthStyle())
        , m_part(part) {}

    void length(const QString& name, const QString& tip, Length value,
                const std::function<void(Part&, Length)>& set) {
        EntryCell cell;
        cell.kind = EntryCell::Kind::Number;
        cell.text = lengthText(value, m_style);
        cell.reading = [style = m_style](const QString& typed) {
            return lengthReading(typed, style);
        };
        cell.propose = [style = m_style, part = m_part, set](const QString& typed) -> Result<Edit> {
            const Result<Length> read = readLength(typed, style);
            if (!read) {
                return read.error();
            }
            Part changed = part;
            set(changed, read.value());
            return replacing(std::move(changed));
        };
        add(name, tip, std::move(cell));
    }

    void count(const QString& name, const QString& tip, int value, int least, int most,
               const std::function<void(Part&, int)>& set) {
        EntryCell cell;
        cell.kind = EntryCell::Kind::Number;
        cell.text = QString::number(value);
        cell.propose = [part = m_part, least, most, set](const QString& typed) -> Result<Edit> {
            const Result<int> read = readCount(typed, least, most);
            if (!read) {
                return read.error();
            }
            Part changed = part;
            set(changed, read.value());
            return replacing(std::move(changed));
        };
        add(name, tip, std::move(cell));
    }

    void makeUp() {
        EntryCell cell = EntryCell();
        cell.text = makeUpWords()[makeUpOf(m_part)];
        cell.choices = makeUpWords();
        cell.propose = [part = m_part,
                        units = m_style.units](const QString& typed) -> Result<Edit> {
            const Result<int> read = readChoice(typed, makeUpWords());
            if (!read) {
                return read.error();
            }
            return replacing(withMakeUp(part, read.value(), units));
        };
        add(tr("Made up as"), {}, std::move(cell));
    }

    void leans(Dimension dimension, Size Part::*size) {
        const QString name = dimensionWords()[static_cast<int>(dimension)];
        EntryCell cell;
        cell.text = leansText(m_document, m_part.*size);
        cell.propose = [document = &m_document, part = m_part,
                        size](const QString& typed) -> Result<Edit> {
            const Result<std::vector<LeanTerm>> terms = readLeans(*document, typed);
            if (!terms) {
                return terms.error();
            }
            Part changed = part;
            (changed.*size).leans = terms.value();
            return replacing(std::move(changed));
        };
        const bool hasLeans = !(m_part.*size).leans.empty();
        if (hasLeans) {
            length(tr("Base of the %1").arg(name), tr("The size before its leans"),
                   (m_part.*size).base,
                   [size](Part& part, Length typed) { (part.*size).base = typed; });
        }
        add(tr("%1 leans on").arg(name.at(0).toUpper() + name.mid(1)),
            tr("A sign, the mark of a part and its dimension, such as -T thickness"),
            std::move(cell));
    }

    void notes() {
        EntryCell cell;
        cell.text = words(m_part.notes);
        cell.propose = [part = m_part](const QString& typed) -> Result<Edit> {
            Part changed = part;
            changed.notes = typed.toStdString();
            return replacing(std::move(changed));
        };
        add(tr("Notes"), {}, std::move(cell));
    }

    std::vector<Fact> take() { return std::move(m_facts); }

  private:
    void add(const QString& name, const QString& tip, EntryCell cell) {
        cell.tip = tip;
        cell.step = tr("Part %1: %2").arg(words(m_part.mark), name.toLower());
        m_facts.push_back({name, std::move(cell)});
    }

    const Document& m_document;
    LengthStyle m_style;
    const Part& m_part;
    std::vector<Fact> m_facts;
};

} // namespace

std::vector<Fact> makeUpFacts(const DocumentSession& session, const Part& part) {
    FactMaker make(session, part);
    make.makeUp();
    if (part.makeUp.lamination) {
        make.count(tr("Plies"), tr("Layers of equal thickness, glued face to face"),
                   part.makeUp.lamination->plies, 2, limits::plies,
                   [](Part& p, int typed) { p.makeUp.lamination->plies = typed; });
    }
    if (const std::optional<PanelMakeUp>& panel = part.makeUp.panel) {
        make.length(tr("Narrowest stave"), tr("Net width in the panel"), panel->leastStave,
                    [](Part& p, Length typed) { p.makeUp.panel->leastStave = typed; });
        make.length(tr("Widest stave"), tr("Net width in the panel"), panel->widestStave,
                    [](Part& p, Length typed) { p.makeUp.panel->widestStave = typed; });
        make.count(tr("Fewest staves"), {}, panel->fewestStaves, 1, limits::staves,
                   [](Part& p, int typed) { p.makeUp.panel->fewestStaves = typed; });
        make.count(tr("Most staves"), {}, panel->mostStaves, 1, limits::staves,
                   [](Part& p, int typed) { p.makeUp.panel->mostStaves = typed; });
    }
    make.leans(Dimension::Length, &Part::length);
    make.leans(Dimension::Width, &Part::width);
    make.leans(Dimension::Thickness, &Part::thickness);
    make.notes();
    return make.take();
}

} // namespace stavewright::ui
