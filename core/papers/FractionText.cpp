#include "core/papers/FractionText.h"

#include <algorithm>
#include <cstdlib>

#include "core/papers/PaperUnits.h"

namespace stavewright::papers {

namespace {

bool isDigit(char c) { return c >= '0' && c <= '9'; }

/// Characters that make "1/2" part of something else: a path, a word, a decimal, a date.
bool belongsToWord(char c) {
    return isDigit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '/' || c == '.' ||
           c == ',' || static_cast<unsigned char>(c) >= 0xC3; // letters beyond ASCII
}

bool endsWord(char c) {
    return isDigit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '/';
}

struct Found {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::string numerator;
    std::string denominator;
};

bool isHalvedInch(const std::string& numerator, const std::string& denominator) {
    const int n = std::atoi(numerator.c_str());
    const int d = std::atoi(denominator.c_str());
    const bool halved = d == 2 || d == 4 || d == 8 || d == 16 || d == 32 || d == 64;
    return halved && n > 0 && n < d;
}

/// The fraction whose bar stands at `slash`, if it is one.
bool fractionAt(std::string_view text, std::size_t slash, Found& found) {
    std::size_t begin = slash;
    while (begin > 0 && isDigit(text[begin - 1])) {
        --begin;
    }
    std::size_t end = slash + 1;
    while (end < text.size() && isDigit(text[end])) {
        ++end;
    }
    const std::size_t above = slash - begin;
    const std::size_t below = end - slash - 1;
    if (above < 1 || above > 2 || below < 1 || below > 2) {
        return false;
    }
    if ((begin > 0 && belongsToWord(text[begin - 1])) ||
        (end < text.size() && endsWord(text[end]))) {
        return false;
    }
    found = {begin, end, std::string(text.substr(begin, above)),
             std::string(text.substr(slash + 1, below))};
    return isHalvedInch(found.numerator, found.denominator);
}

} // namespace

std::vector<TextRun> runsOf(std::string_view utf8) {
    std::vector<TextRun> runs;
    std::size_t done = 0;
    for (std::size_t slash = utf8.find('/'); slash != std::string_view::npos;
         slash = utf8.find('/', slash + 1)) {
        Found found;
        if (slash < done || !fractionAt(utf8, slash, found)) {
            continue;
        }
        std::string_view before = utf8.substr(done, found.begin - done);
        TextRun fraction;
        fraction.numerator = found.numerator;
        fraction.denominator = found.denominator;
        fraction.afterWhole =
            before.size() >= 2 && before.back() == ' ' && isDigit(before[before.size() - 2]);
        if (fraction.afterWhole) {
            before.remove_suffix(1);
        }
        if (!before.empty()) {
            runs.push_back({std::string(before), {}, {}, false});
        }
        runs.push_back(std::move(fraction));
        done = found.end;
    }
    if (done < utf8.size()) {
        runs.push_back({std::string(utf8.substr(done)), {}, {}, false});
    }
    return runs;
}

std::vector<TextRun> runsOf(std::string_view utf8, double points) {
    if (points < fractionSetting::leastPoints && !utf8.empty()) {
        return {{std::string(utf8), {}, {}, false}};
    }
    return runsOf(utf8);
}

LineExtent extentOf(std::string_view utf8, double points) {
    const std::vector<TextRun> runs = runsOf(utf8, points);
    const bool hasFraction =
        std::any_of(runs.begin(), runs.end(), [](const TextRun& run) { return run.isFraction(); });
    return hasFraction ? LineExtent{1.0, 0.27} : LineExtent{};
}

Length widthOfRuns(const std::vector<TextRun>& runs, double size, const PlainWidth& plainWidth) {
    Length width;
    for (const TextRun& run : runs) {
        if (!run.isFraction()) {
            width += plainWidth(run.text, size);
            continue;
        }
        const double small = size * fractionSetting::scale;
        const Length wider =
            larger(plainWidth(run.numerator, small), plainWidth(run.denominator, small));
        width += wider + points(size * 2 * fractionSetting::overhang);
        if (run.afterWhole) {
            width += points(size * fractionSetting::gapAfterWhole);
        }
    }
    return width;
}

Rect boxOf(const Text& text, const TextMeasure& measure) {
    const Length width = measure.widthOf(text.utf8, text.points, text.weight);
    const LineExtent extent = extentOf(text.utf8, text.points);
    const Length up = points(text.points * extent.ascent);
    const Length down = points(text.points * extent.descent);
    const Length before = text.align == Align::Left     ? Length()
                          : text.align == Align::Centre ? width / 2
                                                        : width;
    if (text.turnDegrees == 0) {
        return {text.at.x - before, text.at.y - up, text.at.x - before + width, text.at.y + down};
    }
    // Reading upwards: the line runs towards smaller y, its ascenders towards smaller x.
    return {text.at.x - up, text.at.y + before - width, text.at.x + down, text.at.y + before};
}

} // namespace stavewright::papers
