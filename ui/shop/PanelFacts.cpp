#include "ui/shop/PanelFacts.h"

#include <QCoreApplication>

#include "core/units/PressureText.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

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

EntryCell pressureOf(const DocumentSession& session) {
    const UnitSystem units = session.document().info.units;
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    cell.text = words(formatPressure(session.document().glueUp.settings.leastPsi, units));
    cell.propose = [&session, units](const QString& typed) -> Result<Edit> {
        const Result<int> psi = parsePressure(typed.toStdString(), units);
        if (!psi) {
            return psi.error();
        }
        return with(session, &GlueSettings::leastPsi, psi.value());
    };
    return cell;
}

} // namespace

std::vector<Fact> panelFacts(const DocumentSession& session) {
    const UnitSystem units = session.document().info.units;
    FactList facts(tr("Panels"));
    facts.add(tr("Moisture of boards"), tr("Of those whose own was not measured, in percent"),
              moistureOf(session, &GlueSettings::moistureTenths));
    facts.add(tr("Moisture in use"), tr("What a panel comes to where it will stand, in percent"),
              moistureOf(session, &GlueSettings::moistureInUseTenths));
    facts.add(tr("Ring radius"), tr("Of boards whose own was not noted"),
              lengthOf(session, &GlueSettings::ringRadius));
    facts.add(tr("Most cup"), tr("A panel whose forecast cup is deeper is flagged"),
              lengthOf(session, &GlueSettings::mostCup));
    facts.add(tr("Knot from a glue line"),
              tr("The clear wood asked for around a knot should end this far from it"),
              lengthOf(session, &GlueSettings::knotClear));
    facts.add(tr("Knots apart"), tr("Of different staves"),
              lengthOf(session, &GlueSettings::knotsApart));
    facts.add(tr("Narrow staves"), tr("Narrower ones do not stand at the long edges"),
              lengthOf(session, &GlueSettings::narrow));
    facts.add(tr("Cauls"), tr("Under the clamp jaws; 0 for none"),
              lengthOf(session, &GlueSettings::caul));
    facts.add(tr("Clamps apart (0: by rule)"), tr("At most; 0: as far as the outer staves allow"),
              lengthOf(session, &GlueSettings::clampsApart));
    facts.add(tr("Least pressure, %1").arg(words(pressureUnit(units))),
              tr("On a glue line; makers of glue ask %1 of hardwoods")
                  .arg(units == UnitSystem::Inches ? tr("175 to 250 psi") : tr("1.2 to 1.7 N/mm²")),
              pressureOf(session));
    return facts.take();
}

} // namespace stavewright::ui
