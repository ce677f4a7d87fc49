#include "core/milling/BlankSpec.h"

#include <algorithm>
#include <utility>

#include "core/document/SizeResolver.h"
#include "core/milling/BlankZones.h"
#include "core/milling/ChainWalk.h"
#include "core/units/SaidLength.h"

namespace stavewright {

namespace {

Length roundedUp(Length length, int parts) {
    return Length::nanometres((length.inNanometres() + parts - 1) / parts);
}

/// The chains that a part goes through before it may come apart into staves.
const MillingChain& firstChain(const Shop& shop, const Part& part) {
    if (part.makeUp.lamination) {
        return shop.chains.block;
    }
    return part.makeUp.panel ? shop.chains.panel : shop.chains.oneBoard;
}

/// From the block to one of its plies, from the panel to its staves; widths of staves are left out.
void walkBack(const Shop& shop, const Part& part, ChainWalk& walk) {
    if (part.makeUp.lamination) {
        const int plies = part.makeUp.lamination->plies;
        walk.through(shop.chains.block);
        walk.resize(Dimension::Thickness, roundedUp(walk.thickness(), plies),
                    "one of " + std::to_string(plies) + " plies");
        walk.through(shop.chains.ply);
    }
    if (part.makeUp.panel) {
        walk.through(shop.chains.panel);
    } else if (!part.makeUp.lamination) {
        walk.through(shop.chains.oneBoard);
    }
}

class SpecMaker {
  public:
    explicit SpecMaker(const Document& document)
        : m_document(document)
        , m_sizes(document) {}

    Result<std::vector<BlankSpec>> make() {
        std::vector<BlankSpec> specs;
        for (const Part& part : m_document.parts) {
            const Status made = addPart(part, specs);
            if (!made) {
                return made.error();
            }
        }
        return specs;
    }

  private:
    [[nodiscard]] std::string say(Length length) const {
        return saidLength(length, {m_document.info.units, m_document.info.inchDenominator, true});
    }

    [[nodiscard]] Error refuse(const Part& part, std::string sentence) const {
        return {ErrorCode::BadInput, std::move(sentence), "Part " + part.mark};
    }

    Status addPart(const Part& part, std::vector<BlankSpec>& specs) {
        std::array<Length, 3> finished;
        for (const Dimension dimension :
             {Dimension::Length, Dimension::Width, Dimension::Thickness}) {
            const Result<Length> size = m_sizes.resolve(part, dimension);
            if (!size) {
                return size.error();
            }
            if (size.value() <= Length()) {
                return refuse(part, std::string("The finished ") + nameOf(dimension) + " is " +
                                        say(size.value()) + "; it must be above 0.");
            }
            finished[static_cast<std::size_t>(dimension)] = size.value();
        }
        if (part.count < 1 || part.perBlank < 1) {
            return refuse(part, "The count is " + std::to_string(part.count) + " with " +
                                    std::to_string(part.perBlank) +
                                    " in one blank; both must be 1 or more.");
        }
        if (part.makeUp.lamination && part.makeUp.lamination->plies < 1) {
            return refuse(part, "The number of plies is " +
                                    std::to_string(part.makeUp.lamination->plies) +
                                    "; it must be 2 or more.");
        }

        ChainWalk walk(finished[0], finished[1], finished[2]);
        const Length pitch = putInMultiple(part, walk);
        const Length multipleLength = walk.length();
        walkBack(m_document.shop, part, walk);

        BlankSpec spec;
        spec.part = part.id;
        spec.partsPerBlank = part.perBlank;
        spec.count = (part.count + part.perBlank - 1) / part.perBlank;
        if (part.makeUp.panel) {
            const Result<StavePool> pool = stavesOf(part, *part.makeUp.panel, walk);
            if (!pool) {
                return pool.error();
            }
            spec.staves = pool.value();
        }
        spec.length = walk.length();
        spec.width = walk.width();
        spec.thicknessWanted = walk.thickness();
        spec.thicknessLeast = part.leastThickness
                                  ? thicknessToReach(m_document, part, *part.leastThickness)
                                  : spec.thicknessWanted;
        spec.thickestRough =
            spec.thicknessWanted + m_document.shop.cleaning + m_document.shop.mostPlanedAway;
        spec.sums = walk.sums();

        PartInBlank place;
        place.partLength = finished[0];
        place.partWidth = finished[1];
        spec.partAt = (spec.length - multipleLength) / 2;
        place.firstAt = spec.partAt;
        place.pitch = pitch;
        place.parts = part.perBlank;
        place.blankWidth = spec.width;
        if (spec.staves) {
            place.jointAllowance = spec.staves->jointAllowance;
        }
        const int plies = part.makeUp.lamination ? part.makeUp.lamination->plies : 1;
        for (int ply = 1; ply <= plies; ++ply) {
            spec.ply = part.makeUp.lamination ? ply : 0;
            place.outerA = ply == 1;
            place.outerB = ply == plies;
            spec.zones = blankZones(m_document, part, place);
            specs.push_back(spec);
        }
        return Done{};
    }

    /// Lengthens the walk to the several parts of a multiple; the pitch from one to the next.
    Length putInMultiple(const Part& part, ChainWalk& walk) const {
        const Length kerf = m_document.shop.machines.stripCrosscut.kerf;
        const Length gap = kerf + gapInMultiple(firstChain(m_document.shop, part));
        const Length pitch = walk.length() + gap;
        if (part.perBlank > 1) {
            const std::int64_t more = part.perBlank - 1;
            walk.resize(Dimension::Length, walk.length() * (more + 1),
                        std::to_string(part.perBlank) + " parts in one blank");
            walk.resize(Dimension::Length, walk.length() + gap * more,
                        "kerf and clean-up between them, " + say(gap) + " each");
        }
        return pitch;
    }

    Result<StavePool> stavesOf(const Part& part, const PanelMakeUp& panel, ChainWalk& walk) const {
        const Shop& shop = m_document.shop;
        StavePool pool;
        pool.netWanted = walk.width();
        pool.netMost = walk.width() + shop.panelSlack;
        pool.step = shop.widthStep;
        pool.fewest = panel.fewestStaves;
        pool.most = panel.mostStaves;
        walk.resize(Dimension::Width, panel.leastStave,
                    "from the panel down to its least stave; staves may be wider");
        walk.through(shop.chains.stave);
        pool.jointAllowance = acrossOf(shop.chains.stave);
        pool.leastRough = walk.width();
        pool.widestRough = panel.widestStave + pool.jointAllowance;
        const Length jointer = shop.machines.jointerWidth;
        if (jointer > Length()) {
            if (pool.leastRough > jointer) {
                return refuse(part, "Its staves are at least " + say(pool.leastRough) +
                                        " wide in the rough, but the jointer takes " +
                                        say(jointer) + "; allow narrower staves.");
            }
            pool.widestRough = std::min(pool.widestRough, jointer);
        }
        if (panel.leastStave <= Length() || pool.widestRough < pool.leastRough) {
            return refuse(part, "Its staves run from " + say(panel.leastStave) + " to " +
                                    say(panel.widestStave) +
                                    " net; the least must be above 0 and not above the widest.");
        }
        const Length widestNet = pool.widestRough - pool.jointAllowance;
        if (widestNet * pool.most < pool.netWanted) {
            return refuse(part, "With at most " + std::to_string(pool.most) +
                                    " staves of at most " + say(widestNet) +
                                    " net, the panel cannot become " + say(pool.netWanted) +
                                    " wide; allow more or wider staves.");
        }
        if (panel.leastStave * pool.fewest > pool.netMost) {
            return refuse(part, "With at least " + std::to_string(pool.fewest) +
                                    " staves of at least " + say(panel.leastStave) +
                                    " net, the panel becomes wider than " + say(pool.netMost) +
                                    "; allow fewer or narrower staves.");
        }
        return pool;
    }

    const Document& m_document;
    SizeResolver m_sizes;
};

} // namespace

Result<std::vector<BlankSpec>> blankSpecs(const Document& document) {
    return SpecMaker(document).make();
}

const BlankSpec* specOf(const std::vector<BlankSpec>& specs, const BlankPurpose& purpose) {
    const auto found = std::find_if(specs.begin(), specs.end(), [&](const BlankSpec& spec) {
        return spec.part == purpose.part && spec.ply == purpose.ply;
    });
    return found == specs.end() ? nullptr : &*found;
}

Length thicknessToReach(const Document& document, const Part& part, Length finished) {
    ChainWalk walk(Length(), Length(), finished);
    walkBack(document.shop, part, walk);
    if (part.makeUp.panel) {
        walk.through(document.shop.chains.stave);
    }
    return walk.thickness();
}

BlankPurpose purposeOf(const BlankSpec& spec, int index) {
    return {spec.part, 1 + index * spec.partsPerBlank, spec.ply, 0};
}

} // namespace stavewright
