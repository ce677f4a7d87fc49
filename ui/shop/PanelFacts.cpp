#include "ui/shop/PanelFacts.h"

#include <QCoreApplication>

#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("PanelFacts", text); }

/// The job with one of the settings changed.
template <class Value>
Edit with(const DocumentSession& session, Value GlueSettings::*setting, Value value) {
    GlueUp glueUp = session.document().glueUp;
    glueUp.settings.*setting = value;
    return {ReplaceGlueUp{std::move(glueUp)}};
}

EntryCell lengthOf(const DocumentSession& session, Length GlueSettings::*setting) {
    return lengthCell(session.document().glueUp.settings.*setting, session.lengthStyle(),
                      [&session, setting](Length typed) -> Result<Edit> {
                          return with(session, setting, typed);
                      });
}

EntryCell moistureOf(const DocumentSession& session, int GlueSettings::*setting) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    cell.text = tenthsText(session.document().glueUp.settings.*setting);
    cell.propose = [&session, setting](const QString& typed) -> Result<Edit> {
        const auto read = readTenths(typed);
        if (!read) {
            return read.error();
        }
        if (!read.value()) {
            return wrong(tr("A moisture content is due, in percent."));
        }
        return with(session, setting, static_cast<int>(*read.value()));
    };
    return cell;
}

EntryCell poundsOf(const DocumentSession& session) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    cell.text = QString::number(session.document().glueUp.settings.leastPsi);
    cell.propose = [&session](const QString& typed) -> Result<Edit> {
        bool isNumber = false;
        QString number = typed.trimmed();
        if (number.endsWith(QStringLiteral("psi"), Qt::CaseInsensitive)) {
            number.chop(3);
        }
        const int psi = number.trimmed().toInt(&isNumber);
        if (!isNumber) {
            return wrong(tr("The least pressure is \"%1\"; it must be a whole number of psi, 10 to "
                            "1000.")
                             .arg(typed));
        }
        return with(session, &GlueSettings::leastPsi, psi);
    };
    return cell;
}

} // namespace

std::vector<Fact> panelFacts(const DocumentSession& session) {
    FactList facts(tr("Panels"));
    facts.add(tr("Moisture of boards"), tr("Of those whose own was not measured, in percent"),
              moistureOf(session, &GlueSettings::moistureTenths));
    facts.add(tr("Moisture in use"), tr("What a panel comes to where it will stand, in percent"),
              moistureOf(session, &GlueSettings::moistureInUseTenths));
    facts.add(tr("Ring radius"), tr("Of boards whose own was not noted"),
              lengthOf(session, &GlueSettings::ringRadius));
    facts.add(tr("Most cup"), tr("A panel whose forecast cup is deeper is flagged"),
              lengthOf(session, &GlueSettings::mostCup));
    facts.add(tr("Knot from a glue line"), tr("A knot's halo should stay this far from it"),
              lengthOf(session, &GlueSettings::knotClear));
    facts.add(tr("Knots apart"), tr("Of different staves"),
              lengthOf(session, &GlueSettings::knotsApart));
    facts.add(tr("Narrow staves"), tr("Narrower ones do not stand at the long edges"),
              lengthOf(session, &GlueSettings::narrow));
    facts.add(tr("Cauls"), tr("Under the clamp jaws; 0 for none"),
              lengthOf(session, &GlueSettings::caul));
    facts.add(tr("Clamps apart (0: by rule)"), tr("At most; 0: as far as the outer staves allow"),
              lengthOf(session, &GlueSettings::clampsApart));
    facts.add(tr("Least pressure, psi"),
              tr("On a glue line (100 psi are 0.69 N/mm²); makers of glue ask 175 to 250"),
              poundsOf(session));
    return facts.take();
}

} // namespace stavewright::ui
