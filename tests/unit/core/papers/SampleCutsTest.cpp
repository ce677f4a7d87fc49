// The planned samples: what the papers tell the maker to set comes to what the plan has.

#include <gtest/gtest.h>

#include <map>

#include "core/document/Edit.h"
#include "core/hand/Cuts.h"
#include "core/midjob/MadeCuts.h"
#include "core/milling/BlankSpec.h"
#include "core/panels/Panels.h"
#include "core/papers/CutSteps.h"
#include "core/papers/Words.h"
#include "core/planning/Planner.h"
#include "core/units/LengthText.h"
#include "tests/tools/samples/Samples.h"

namespace stavewright::papers {
namespace {

Document planned(Document job) {
    Result<PlanOutcome> outcome =
        planJob(job, {.seed = 1, .seconds = 0, .work = 300, .threads = 1});
    EXPECT_TRUE(outcome.ok());
    job.plan = std::move(outcome.value().plan);
    job.nextId = std::max(job.nextId, largestId(*job.plan) + 1);
    return job;
}

std::vector<Document> plannedSamples() {
    return {planned(samples::hallShelf()), planned(samples::kitchenTable()),
            planned(samples::linenChest())};
}

std::vector<BoardCuts> cutsOfAll(const Document& document) {
    const std::vector<BlankSpec> specs = blankSpecs(document).value();
    std::vector<BoardCuts> all;
    for (const BoardLayout& layout : document.plan->boards) {
        all.push_back(cutsOf(document, specs, layout));
    }
    return all;
}

/// Rips one section after another as the passes say, each set to `widthOf` it, and compares every
/// edge with the plan's. After each pass the edges may be off by `slack` more.
template <typename WidthOf>
int ripAll(const Document& document, const BoardCuts& cuts, Length slack, const WidthOf& widthOf) {
    using Kind = RipPass::Kind;
    int slivers = 0;
    for (const SectionCuts& section : cuts.sections) {
        SCOPED_TRACE(document.info.title + ", " + section.name);
        const Length kerf = hand::ripKerfOf(document.shop, *section.section);
        Length fresh; // the edge of the piece that is still whole
        Length far;   // of the strip ripped last
        Length within;
        for (const RipPass& pass : section.rips) {
            within += slack;
            const Length width = widthOf(pass);
            const Stretch across = section.strips[pass.strip].strip->across;
            const auto expectNear = [&](Length edge, Length wanted) {
                EXPECT_LE(abs(edge - wanted), within)
                    << section.strips[pass.strip].name << " " << width.toMillimetres();
            };
            expectNear(pass.kind == Kind::OffSliver ? far : fresh, pass.fence);
            switch (pass.kind) {
            case Kind::Strip:
                expectNear(fresh + pass.over, across.from);
                EXPECT_LE(pass.over, Length::inches(1, 8) + kerf);
                break;
            case Kind::WithSliver:
                EXPECT_LT(fresh + kerf, across.from + within);
                ++slivers;
                break;
            case Kind::OffSliver:
                expectNear(far - width, across.from);
                continue; // off the strip, not off the piece
            case Kind::Waste:
            case Kind::Kept:
                EXPECT_GE(width + within, document.shop.machines.narrowestRip);
                fresh += width + kerf;
                continue;
            }
            far = fresh + width;
            expectNear(far, across.to);
            fresh = far + kerf;
        }
    }
    return slivers;
}

TEST(SampleCuts, theRipsComeToThePlansEdges) {
    int slivers = 0;
    for (const Document& document : plannedSamples()) {
        for (const BoardCuts& cuts : cutsOfAll(document)) {
            slivers +=
                ripAll(document, cuts, Length(), [](const RipPass& pass) { return pass.width; });
        }
    }
    EXPECT_GT(slivers, 0); // or the samples no longer try them
}

TEST(SampleCuts, whatIsPrintedIsOffByItsRoundingAtMost) {
    for (const Document& document : plannedSamples()) {
        const Length half = document.info.units == UnitSystem::Inches
                                ? Length::inches(1, 2 * document.info.inchDenominator)
                                : Length::micrometres(50);
        for (const BoardCuts& cuts : cutsOfAll(document)) {
            ripAll(document, cuts, half, [&](const RipPass& pass) {
                return parseLength(settingText(document.info, pass.width), document.info.units)
                    .value();
            });
        }
    }
}

/// By where the sections begin: those that hold offcuts alone are made anew.
std::map<Length, std::string> namesOf(const BoardCuts& cuts) {
    std::map<Length, std::string> names;
    for (const SectionCuts& section : cuts.sections) {
        names[section.section->along.from] = section.name;
    }
    return names;
}

/// What is chalked on the wood stays true once the datum end is cut off.
TEST(SampleCuts, aCutDatumEndLeavesTheNamesAsTheyWere) {
    int tried = 0;
    for (const Document& document : plannedSamples()) {
        const std::vector<BlankSpec> specs = blankSpecs(document).value();
        for (const BoardLayout& layout : document.plan->boards) {
            const hand::CutRef low{layout.sections.front().id, {}, false};
            const std::optional<Length> mark = hand::markOf(layout, low);
            if (!mark || *mark == Length() || ++tried > 4) {
                continue;
            }
            Document cut = document;
            const Result<midjob::ShopEvent> event =
                midjob::cutMade(cut, layout.board, low, *mark, {});
            ASSERT_TRUE(event.ok()) << describe(event.error());
            ASSERT_TRUE(apply(cut, event.value().edit).ok());
            const BoardCuts before = cutsOf(document, specs, layout);
            const BoardCuts after = cutsOf(cut, specs, *hand::layoutOf(*cut.plan, layout.board));
            EXPECT_FALSE(before.freshEnd);
            std::map<Length, std::string> names = namesOf(after);
            for (const auto& [from, name] : namesOf(before)) {
                EXPECT_EQ(names[from], name);
                names.erase(from);
            }
            ASSERT_EQ(names.size(), 1U);
            EXPECT_EQ(names.begin()->second, "waste");
            if (after.crosscuts.size() > 1) {
                EXPECT_EQ(after.freshEnd, mark);
            }
        }
    }
    EXPECT_GT(tried, 0);
}

/// The glue-up page tells a stave by the place where its blank begins on the board, not by where
/// the finished part will.
TEST(SampleCuts, aStaveIsToldByWhereItsBlankBegins) {
    for (const Document& document : plannedSamples()) {
        const std::vector<panels::Panel> all = panels::panelsOf(document).value();
        for (const BoardCuts& cuts : cutsOfAll(document)) {
            for (const SectionCuts& section : cuts.sections) {
                if (section.strips.empty() || section.strips[0].blanks.empty()) {
                    continue;
                }
                const Blank& first = *section.strips[0].blanks[0].blank;
                if (woodOf(first).x0 -
                        hand::alongStrip(*section.section, *section.strips[0].strip).from >
                    Length::millimetres(1)) {
                    continue; // not at the section's end
                }
                for (const panels::Panel& panel : all) {
                    for (const panels::PanelStave& stave : panel.staves) {
                        if (stave.blank == first.id) {
                            EXPECT_LE(abs(stave.woodAt - section.section->along.from),
                                      Length::millimetres(1))
                                << stave.label;
                        }
                    }
                }
            }
        }
    }
}

} // namespace
} // namespace stavewright::papers
