#pragma once
// The pages under way: adds pages of the chosen paper, and when all are there puts the foot on each
// (check line, units, kerfs, job, page x of y).

#include <deque>

#include "core/papers/Pen.h"

namespace stavewright::papers {

enum class Turn { Upright, Landscape };

class PageBook {
  public:
    PageBook(const Document& document, const PaperOptions& options, const TextMeasure& measure)
        : m_document(document)
        , m_options(options)
        , m_measure(measure) {}

    [[nodiscard]] const TextMeasure& measure() const { return m_measure; }
    [[nodiscard]] const std::string& date() const { return m_options.date; }

    /// The pen stays valid until finish().
    Pen add(std::string title, Turn turn);
    /// The same with its title at the head, as large as it is on every sheet of a panel or a block.
    Pen addTitled(const std::string& title, Turn turn);
    /// Between the margins and above the foot.
    [[nodiscard]] Rect contentArea(Turn turn) const;
    [[nodiscard]] std::size_t count() const { return m_pages.size(); }

    /// Puts the feet and hands the pages over.
    [[nodiscard]] std::vector<Page> finish();

  private:
    void putFoot(Page& page, std::size_t number) const;

    const Document& m_document;
    const PaperOptions& m_options;
    const TextMeasure& m_measure;
    std::deque<Page> m_pages; ///< a deque, so that pens keep their page
};

} // namespace stavewright::papers
