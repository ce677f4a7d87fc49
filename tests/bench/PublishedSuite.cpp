// Instances from the literature, each family in its own folder under --instances. They are not part
// of the project; a folder that is missing is skipped.

#include "Suites.h"
#include "published/Families.h"

namespace stavewright::cutting::bench {

namespace {

struct Family {
    const char* name;
    FamilyRun run;
};
constexpr Family families[] = {{"afg2014", runAfg2014},
                               {"unconstrained", runUnconstrained},
                               {"g2kp", runG2kp},
                               {"bpp1d", runBpp1d},
                               {"g2csp_A", runG2cspA},
                               {"g2csp_class", runG2cspClass},
                               {"g2mkp", runG2mkp},
                               {"hetero2d", runHetero2d},
                               {"roadef2018", runRoadef2018}};

} // namespace

bool runPublished(const BenchOptions& options) {
    RowPrinter printer(options.json,
                       {column::family(), column::instance(30), column::boards(), column::value(0),
                        column::published(0), column::reached(), column::placed(),
                        column::number("total s", &Row::total, 2), column::audit()});
    for (const Family& family : families) {
        if (!options.family.empty() && options.family != family.name) {
            continue;
        }
        FamilyTable table(printer, family.name);
        if (!family.run(options.instances + "/" + family.name, options, table)) {
            printer.note(std::string(family.name) + ": skipped, nothing to read in " +
                         options.instances + "/" + family.name);
        }
        table.finish();
    }
    printer.finish();
    return printer.isSound();
}

} // namespace stavewright::cutting::bench
