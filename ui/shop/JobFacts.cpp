#include "ui/shop/JobFacts.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

#include "ui/entry/Cells.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("JobFacts", text); }

/// The finest fractions that a rule may show.
constexpr std::array<int, 4> fractions = {8, 16, 32, 64};

EntryCell wordsCell(const JobInfo& info, std::string JobInfo::*of) {
    return textCell(info.*of, [info, of](std::string typed) -> Result<Edit> {
        JobInfo changed = info;
        changed.*of = std::move(typed);
        return Edit{ReplaceInfo{std::move(changed)}};
    });
}

EntryCell unitsCell(const JobInfo& info) {
    return choiceCell(info.units == UnitSystem::Inches ? 0 : 1, {tr("inches"), tr("millimetres")},
                      [info](int typed) -> Result<Edit> {
                          JobInfo changed = info;
                          changed.units = typed == 0 ? UnitSystem::Inches : UnitSystem::Millimetres;
                          return Edit{ReplaceInfo{std::move(changed)}};
                      });
}

EntryCell fractionCell(const JobInfo& info) {
    const auto now = std::find(fractions.begin(), fractions.end(), info.inchDenominator);
    QStringList choices;
    for (const int fraction : fractions) {
        choices << QString("1/%1").arg(fraction);
    }
    const auto at = now == fractions.end() ? 1 : now - fractions.begin();
    return choiceCell(static_cast<int>(at), choices, [info](int typed) -> Result<Edit> {
        JobInfo changed = info;
        changed.inchDenominator = fractions[static_cast<std::size_t>(typed)];
        return Edit{ReplaceInfo{std::move(changed)}};
    });
}

} // namespace

std::vector<Fact> jobFacts(const DocumentSession& session) {
    const JobInfo& info = session.document().info;
    FactList facts(tr("Job"));
    facts.add(tr("Name of the job"), tr("It heads the papers and names the file"),
              wordsCell(info, &JobInfo::title));
    facts.add(tr("For"), tr("For whom it is built"), wordsCell(info, &JobInfo::client));
    facts.add(tr("Lengths in"), tr("How lengths are shown and typed; what is stored stays exact"),
              unitsCell(info));
    if (info.units == UnitSystem::Inches) {
        facts.add(tr("Read to"), tr("The finest fraction of an inch that is read off the tape"),
                  fractionCell(info));
    }
    facts.add(tr("Sign of money"), tr("Shown before amounts"), wordsCell(info, &JobInfo::currency));
    facts.add(tr("Notes"), {}, wordsCell(info, &JobInfo::notes));
    return facts.take();
}

} // namespace stavewright::ui
