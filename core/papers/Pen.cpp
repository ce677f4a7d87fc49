#include "core/papers/Pen.h"

#include <cmath>
#include <numbers>

#include "core/papers/FractionText.h"

namespace stavewright::papers {

namespace {

/// Bytes of the first `count` characters of UTF-8 text.
std::size_t bytesOfCharacters(const std::string& utf8, std::size_t from) {
    std::size_t next = from + 1;
    while (next < utf8.size() && (static_cast<unsigned char>(utf8[next]) & 0xC0) == 0x80) {
        ++next;
    }
    return next;
}

bool startsFraction(const std::string& word) {
    const std::vector<TextRun> runs = runsOf(word);
    return !runs.empty() && runs.front().isFraction();
}

bool endsInDigit(const std::string& word) {
    return !word.empty() && word.back() >= '0' && word.back() <= '9';
}

} // namespace

std::vector<std::string> wordsOf(const std::string& utf8) {
    std::vector<std::string> words;
    std::size_t begin = 0;
    while (begin <= utf8.size()) {
        std::size_t end = utf8.find(' ', begin);
        if (end == std::string::npos) {
            end = utf8.size();
        }
        const std::string word = utf8.substr(begin, end - begin);
        if (!words.empty() && endsInDigit(words.back()) && startsFraction(word)) {
            words.back() += " " + word;
        } else if (!word.empty()) {
            words.push_back(word);
        }
        begin = end + 1;
    }
    return words;
}

Length Pen::widthOf(const std::string& utf8, const TextStyle& style) const {
    return m_measure->widthOf(utf8, style.points, style.weight);
}

Rect Pen::text(Point baseline, const std::string& utf8, const TextStyle& style) {
    Text mark;
    mark.at = baseline;
    mark.utf8 = utf8;
    mark.points = style.points;
    mark.weight = style.weight;
    mark.align = style.align;
    mark.ink = style.ink;
    mark.turnDegrees = style.turnDegrees;
    mark.halo = style.halo;
    const Rect box = boxOf(mark, *m_measure);
    if (!utf8.empty()) {
        m_page->marks.emplace_back(std::move(mark));
    }
    return box;
}

Length Pen::spans(Point baseline, const std::vector<Span>& line) {
    Length x = baseline.x;
    for (const Span& span : line) {
        const TextStyle style{span.points, span.weight, Align::Left, span.ink};
        text({x, baseline.y}, span.utf8, style);
        x += widthOf(span.utf8, style) + span.gapAfter;
    }
    return x;
}

void Pen::line(Point from, Point to, const LineLook& look) {
    m_page->marks.emplace_back(Line{from, to, look.width, look.style, look.ink});
}

void Pen::polygon(std::vector<Point> corners, const LineLook& look) {
    Shape shape;
    shape.corners = std::move(corners);
    shape.width = look.width;
    shape.style = look.style;
    shape.ink = look.ink;
    m_page->marks.emplace_back(std::move(shape));
}

void Pen::area(std::vector<Point> corners, Ink fill, const LineLook& look) {
    Shape shape;
    shape.corners = std::move(corners);
    shape.width = look.width;
    shape.style = look.style;
    shape.ink = look.ink;
    shape.filled = true;
    shape.fill = fill;
    m_page->marks.emplace_back(std::move(shape));
}

void Pen::rect(const Rect& rect, const LineLook& look) { polygon(cornersOf(rect), look); }

void Pen::circle(Point centre, Length radius, const LineLook& look) {
    polygon(circleCorners(centre, radius), look);
}

void Pen::disc(Point centre, Length radius, Ink fill) { area(circleCorners(centre, radius), fill); }

Length widthOf(const std::vector<Span>& line, const TextMeasure& measure) {
    Length width;
    for (const Span& span : line) {
        width += measure.widthOf(span.utf8, span.points, span.weight) + span.gapAfter;
    }
    return line.empty() ? width : width - line.back().gapAfter;
}

std::vector<Point> cornersOf(const Rect& rect) {
    return {{rect.x0, rect.y0}, {rect.x1, rect.y0}, {rect.x1, rect.y1}, {rect.x0, rect.y1}};
}

std::vector<Point> circleCorners(Point centre, Length radius) {
    constexpr int count = 32;
    std::vector<Point> corners;
    corners.reserve(count);
    for (int i = 0; i < count; ++i) {
        const double angle = 2 * std::numbers::pi * i / count;
        corners.push_back({centre.x + scaled(radius, std::cos(angle)),
                           centre.y + scaled(radius, std::sin(angle))});
    }
    return corners;
}

std::string elided(const std::string& utf8, Length width, const TextStyle& style,
                   const TextMeasure& measure) {
    if (measure.widthOf(utf8, style.points, style.weight) <= width) {
        return utf8;
    }
    std::string best;
    for (std::size_t end = 0; end < utf8.size();) {
        end = bytesOfCharacters(utf8, end);
        std::string shorter = utf8.substr(0, end);
        while (!shorter.empty() && shorter.back() == ' ') {
            shorter.pop_back();
        }
        shorter += "…";
        if (measure.widthOf(shorter, style.points, style.weight) > width) {
            break;
        }
        best = std::move(shorter);
    }
    return best;
}

std::vector<std::string> wrapped(const std::string& utf8, Length width, const TextStyle& style,
                                 const TextMeasure& measure) {
    const auto fits = [&](const std::string& line) {
        return measure.widthOf(line, style.points, style.weight) <= width;
    };
    std::vector<std::string> lines;
    std::string line;
    for (std::string word : wordsOf(utf8)) {
        if (const std::string longer = line.empty() ? word : line + " " + word; fits(longer)) {
            line = longer;
            continue;
        }
        if (!line.empty()) {
            lines.push_back(std::move(line));
        }
        while (!fits(word)) {
            std::size_t end = bytesOfCharacters(word, 0);
            while (end < word.size() && fits(word.substr(0, bytesOfCharacters(word, end)))) {
                end = bytesOfCharacters(word, end);
            }
            if (end >= word.size()) {
                break;
            }
            lines.push_back(word.substr(0, end));
            word.erase(0, end);
        }
        line = std::move(word);
    }
    if (!line.empty()) {
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace stavewright::papers
