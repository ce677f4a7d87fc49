#include "core/papers/PageBook.h"

#include <algorithm>

#include "core/papers/Flow.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

constexpr Length margin = 10_mm;
constexpr Length footHeight = 12_mm;
constexpr TextStyle footStyle{8, Weight::Regular, Align::Left, Ink::Black, false, 0};

struct PaperSize {
    Length shorter, longer;
};
PaperSize sizeOf(Paper paper) {
    return paper == Paper::A4 ? PaperSize{210_mm, 297_mm}
                              : PaperSize{Length::inches(17, 2), Length::inches(11)};
}

bool inInches(const Document& document) { return document.info.units == UnitSystem::Inches; }

std::string unitsText(const Document& document) {
    const std::string denominator = std::to_string(document.info.inchDenominator);
    return inInches(document) ? "Inches; tape readings to the nearest 1/" + denominator
                              : "Millimetres; tape readings to the nearest 0.5";
}

std::string kerfsText(const Document& document) {
    const Machines& machines = document.shop.machines;
    const auto kerf = [&](const std::string& use, const Saw& saw) {
        return use + " " + lengthText(document.info, saw.kerf);
    };
    return "Kerfs: " + kerf("crosscut", machines.crosscut) + ", " + kerf("rip", machines.rip) +
           ", " + kerf("second crosscut", machines.stripCrosscut) + ", " +
           kerf("rough rip", machines.roughRip);
}

} // namespace

Pen PageBook::add(std::string title, Turn turn) {
    const PaperSize size = sizeOf(m_options.paper);
    Page page;
    page.title = std::move(title);
    page.width = turn == Turn::Upright ? size.shorter : size.longer;
    page.height = turn == Turn::Upright ? size.longer : size.shorter;
    m_pages.push_back(std::move(page));
    return {m_pages.back(), m_measure};
}

Pen PageBook::addTitled(const std::string& title, Turn turn) {
    Pen pen = add(title, turn);
    const Rect area = contentArea(turn);
    const TextStyle style{20, Weight::SemiBold};
    pen.text({area.x0, area.y0 + baselineIn(style.points)},
             elided(title, area.length(), style, m_measure), style);
    return pen;
}

Rect PageBook::contentArea(Turn turn) const {
    const PaperSize size = sizeOf(m_options.paper);
    const Length width = turn == Turn::Upright ? size.shorter : size.longer;
    const Length height = turn == Turn::Upright ? size.longer : size.shorter;
    return {margin, margin, width - margin, height - margin - footHeight};
}

void PageBook::putFoot(Page& page, std::size_t number) const {
    Pen pen(page, m_measure);
    const Length left = margin;
    const Length right = page.width - margin;
    const Length rule = page.height - margin - footHeight + 2_mm;
    pen.line({left, rule}, {right, rule}, {0.2_mm, LineStyle::Solid, Ink::Grey});

    // The check line: whoever prints at another size sees it here.
    const bool inches = inInches(m_document);
    const Length checkLength = inches ? Length::inches(4) : 100_mm;
    const Length y = rule + 8.5_mm;
    pen.line({left, y}, {left + checkLength, y}, {0.3_mm, LineStyle::Solid, Ink::Black});
    pen.line({left, y - 1.5_mm}, {left, y + 1.5_mm}, {0.3_mm, LineStyle::Solid, Ink::Black});
    pen.line({left + checkLength, y - 1.5_mm}, {left + checkLength, y + 1.5_mm},
             {0.3_mm, LineStyle::Solid, Ink::Black});
    pen.text({left + 2_mm, y - 1.6_mm},
             inches ? "Print at 100 %: this line is then 4 in long"
                    : "Print at 100 %: this line is then 100 mm long",
             footStyle);

    const Length textLeft = left + checkLength + 6_mm;
    const std::string pageText =
        "Page " + std::to_string(number) + " of " + std::to_string(m_pages.size());
    TextStyle pageStyle = footStyle;
    pageStyle.weight = Weight::SemiBold;
    pageStyle.align = Align::Right;
    pen.text({right, rule + 4_mm}, pageText, pageStyle);
    const Length room = right - textLeft - pen.widthOf(pageText, pageStyle) - 4_mm;
    std::string job = m_document.info.title;
    if (!m_options.date.empty()) {
        job += " · " + m_options.date;
    }
    pen.text({textLeft, rule + 4_mm}, elided(job, room, footStyle, m_measure), footStyle);
    const std::string units = unitsText(m_document) + ". " + kerfsText(m_document);
    const std::vector<std::string> lines = wrapped(units, right - textLeft, footStyle, m_measure);
    Length lineY = rule + 8_mm;
    for (std::size_t i = 0; i < std::min<std::size_t>(lines.size(), 2); ++i) {
        pen.text({textLeft, lineY}, lines[i], footStyle);
        lineY += 3.8_mm;
    }
}

std::vector<Page> PageBook::finish() {
    std::size_t number = 0;
    for (Page& page : m_pages) {
        putFoot(page, ++number);
    }
    return {std::make_move_iterator(m_pages.begin()), std::make_move_iterator(m_pages.end())};
}

} // namespace stavewright::papers
