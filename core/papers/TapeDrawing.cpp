#include <algorithm>
#include <array>

#include "core/papers/BoardCanvas.h"
#include "core/papers/FractionText.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr TextStyle readingStyle{14, Weight::SemiBold, Align::Left, Ink::Black, false, 0};
constexpr TextStyle tickStyle{8, Weight::Regular, Align::Centre, Ink::Grey, false, 0};
constexpr Length bandHeight = 6_mm;
constexpr Length laneHeight = 6.4_mm;
constexpr Length gapToBoard = 1.5_mm;
constexpr Length flagGap = 1.2_mm; ///< between a leader and its reading

struct Flag {
    Length x; ///< of the leader
    std::string text;
    Length width;
    Blade blade = Blade::AwayFromDatum;
    int lane = 0;
};

/// Each reading hangs to the right of its leader. From the far end backwards a flag takes the
/// lowest lane over everything it would cover, so that no leader runs through a reading.
std::vector<Flag> flagsOf(const BoardCanvas& canvas) {
    std::vector<Flag> flags;
    for (const CrosscutMark& mark : canvas.cuts.crosscuts) {
        Flag flag;
        flag.x = canvas.atReading(mark.reading);
        flag.text = tapeText(canvas.document.info, mark.reading);
        flag.width = canvas.pen.widthOf(flag.text, readingStyle) + flagGap * 2;
        flag.blade = mark.blade;
        flags.push_back(std::move(flag));
    }
    for (std::size_t i = flags.size(); i-- > 0;) {
        for (std::size_t j = i + 1; j < flags.size(); ++j) {
            if (flags[j].x < flags[i].x + flags[i].width) {
                flags[i].lane = std::max(flags[i].lane, flags[j].lane + 1);
            }
        }
    }
    return flags;
}

int lanesOf(const std::vector<Flag>& flags) {
    int lanes = 1;
    for (const Flag& flag : flags) {
        lanes = std::max(lanes, flag.lane + 1);
    }
    return lanes;
}

/// The finest division whose ticks stand at least 1.2 mm apart, and one for numbers at least 20 mm
/// apart.
struct Division {
    Length tick;
    Length numbered;
};
Division divisionOf(const BoardCanvas& canvas) {
    static constexpr std::array<Length, 5> inches = {Length::inches(1), Length::inches(3),
                                                     Length::inches(6), Length::inches(12),
                                                     Length::inches(24)};
    static constexpr std::array<Length, 5> metric = {10_mm, 50_mm, 100_mm, 500_mm, 1000_mm};
    const auto& steps = canvas.document.info.units == UnitSystem::Inches ? inches : metric;
    const auto first = [&](Length apart) {
        for (const Length step : steps) {
            if (canvas.onPaper(step) >= apart) {
                return step;
            }
        }
        return steps.back();
    };
    return {first(1.2_mm), first(20_mm)};
}

void drawBand(BoardCanvas& canvas, const std::vector<Flag>& flags, Length bandTop) {
    Pen& pen = canvas.pen;
    const Length bandBottom = bandTop + bandHeight;
    pen.area({{canvas.left, bandTop},
              {canvas.right(), bandTop},
              {canvas.right(), bandBottom},
              {canvas.left, bandBottom}},
             Ink::White, {0.2_mm, LineStyle::Solid, Ink::Black});
    const Division division = divisionOf(canvas);
    for (Length at = division.tick; at < canvas.box.length(); at += division.tick) {
        const Length x = canvas.atReading(at);
        const bool numbered = at % division.numbered == Length();
        pen.line({x, bandBottom}, {x, bandBottom - (numbered ? 2.2_mm : 1.2_mm)},
                 {0.15_mm, LineStyle::Solid, Ink::Grey});
        if (!numbered) {
            continue;
        }
        const std::string text = lengthText(canvas.document.info, at);
        const Length half = pen.widthOf(text, tickStyle) / 2 + 0.6_mm;
        const bool clear = std::none_of(flags.begin(), flags.end(), [&](const Flag& flag) {
            return flag.x - 2.6_mm < x + half && x - half < flag.x + 2.6_mm;
        });
        if (clear && x + half < canvas.right()) {
            pen.text({x, bandBottom - 2.8_mm}, text, tickStyle);
        }
    }
}

} // namespace

void drawBlade(Pen& pen, Point at, Blade blade) {
    const Length reach = blade == Blade::AwayFromDatum ? 2.2_mm : -2.2_mm;
    pen.area({{at.x, at.y - 1.1_mm}, {at.x + reach, at.y}, {at.x, at.y + 1.1_mm}}, Ink::Black);
}

Length tapeHeight(const BoardCanvas& canvas) {
    return lanesOf(flagsOf(canvas)) * laneHeight + bandHeight + gapToBoard;
}

Length drawTape(BoardCanvas& canvas) {
    Pen& pen = canvas.pen;
    const std::vector<Flag> flags = flagsOf(canvas);
    const Length bandBottom = canvas.top() - gapToBoard;
    const Length bandTop = bandBottom - bandHeight;
    drawBand(canvas, flags, bandTop);
    for (const Flag& flag : flags) {
        const Length laneBottom = bandTop - flag.lane * laneHeight;
        const Length baseline = laneBottom - 1.6_mm;
        pen.line({flag.x, laneBottom - laneHeight + 0.6_mm}, {flag.x, canvas.top()},
                 {0.25_mm, LineStyle::Solid, Ink::Black});
        pen.text({flag.x + flagGap, baseline}, flag.text, readingStyle);
        drawBlade(pen, {flag.x, bandTop + 1.8_mm}, flag.blade);
    }
    // The hook of the tape over the datum end.
    pen.line({canvas.left, bandTop}, {canvas.left, canvas.bottom + 1_mm},
             {0.8_mm, LineStyle::Solid, Ink::Black});
    pen.area({{canvas.left - 2_mm, bandTop}, {canvas.left, bandTop}, {canvas.left, bandTop + 3_mm}},
             Ink::Black);
    return tapeHeight(canvas);
}

} // namespace stavewright::papers
