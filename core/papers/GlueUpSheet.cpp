// The glue-up page of each panel: the panel as it is laid on the bench, who stands where, and what
// the bench needs to know before the glue is open.

#include "core/papers/GlueUpSheet.h"

#include <algorithm>

#include "core/panels/BenchWords.h"
#include "core/panels/Fills.h"
#include "core/panels/PanelChecks.h"
#include "core/panels/Panels.h"
#include "core/panels/Proposal.h"
#include "core/panels/TermWords.h"
#include "core/papers/PanelDrawing.h"
#include "core/papers/Table.h"
#include "core/papers/Words.h"

namespace stavewright::papers {

namespace {

using panels::Panel;
using panels::PanelStave;

constexpr TextStyle words{10, Weight::Regular, Align::Left, Ink::Black, false, 0};

class PanelSheet {
  public:
    PanelSheet(const Document& document, const Panel& panel, const Panel* partner,
               const std::vector<Fill>& fills)
        : m_document(document)
        , m_fills(fills)
        , m_panel(panel)
        , m_partner(partner)
        , m_practice(panels::practiceFor(document, panel)) {}

    FlowRows rows(Length width, const TextMeasure& measure) {
        FlowRows rows;
        addStaves(rows, width);
        addHeading(rows, "At the bench", width, measure);
        for (const std::string& line : benchLines()) {
            addParagraph(rows, line, words, width, measure);
        }
        addHeading(rows, "Before the glue is open", width, measure);
        bool any = false;
        for (const std::string& sentence : m_panel.moved) {
            addParagraph(rows, sentence, words, width, measure);
            any = true;
        }
        for (const panels::PanelFinding& finding : panels::checkPanel(m_document, m_panel)) {
            addParagraph(rows, finding.sentence,
                         {10, finding.isRefusal ? Weight::SemiBold : Weight::Regular}, width,
                         measure);
            any = true;
        }
        for (const std::string& caution :
             panels::cautionsFor(m_panel, m_practice, m_document.info)) {
            addParagraph(rows, caution, words, width, measure);
            any = true;
        }
        if (const std::string fills = panels::fillSentence(m_document, m_panel, m_fills);
            !fills.empty()) {
            addParagraph(rows, fills, words, width, measure);
            any = true;
        }
        if (!any) {
            addParagraph(rows, "Ready to glue.", words, width, measure);
        }
        const std::string cup = panels::cupText(m_panel, m_document.info);
        addParagraph(rows,
                     "Forecast: the panel " +
                         panels::widthChangeText(panels::widthChangeOf(m_panel), m_document.info) +
                         (cup.empty() ? "" : " and " + cup) +
                         ", from the moisture each board has "
                         "now to " +
                         tenths(m_document.glueUp.settings.moistureInUseTenths) + " % in use.",
                     words, width, measure);
        if (const std::string unknown = panels::cupUnknownOf(m_panel); !unknown.empty()) {
            addParagraph(rows, unknown, words, width, measure);
        }
        addParagraph(rows, worthText(), {8, Weight::Regular}, width, measure);
        return rows;
    }

  private:
    static std::string tenths(int value) {
        return std::to_string(value / 10) +
               (value % 10 == 0 ? std::string() : "." + std::to_string(value % 10));
    }

    [[nodiscard]] std::string text(Length length) const {
        return lengthText(m_document.info, length);
    }

    [[nodiscard]] std::string clamps(int count, Length spacing) const {
        return panels::clampsText(count, spacing, m_document.info);
    }

    [[nodiscard]] Pose poseAt(std::size_t place) const {
        return glueup::poseOf(m_panel.order[place].pose);
    }

    void addStaves(FlowRows& rows, Length width) {
        const std::vector<Column> columns = {
            {4_mm, 10_mm, Align::Left},  {16_mm, 22_mm, Align::Left},
            {40_mm, 22_mm, Align::Left}, {64_mm, 26_mm, Align::Left},
            {92_mm, 44_mm, Align::Left}, {138_mm, width - 138_mm, Align::Left}};
        rows.push_back(
            tableHead(columns, {"Place", "Stave", "Net width", "Running width", "From", "Lies"}));
        Length running;
        for (std::size_t place = 0; place < m_panel.order.size(); ++place) {
            const PanelStave& stave = m_panel.staveAt(place);
            running += stave.net.width();
            rows.push_back(tableRow(
                columns,
                {{std::to_string(place + 1)},
                 {stave.label, 10, Weight::SemiBold},
                 {settingText(m_document.info, stave.net.width())},
                 {settingText(m_document.info, running), 10, Weight::SemiBold},
                 {"board " + stave.boardMark + ", from " + tapeText(m_document.info, stave.woodAt)},
                 {poseWords(poseAt(place))}}));
        }
    }

    [[nodiscard]] std::vector<std::string> benchLines() const {
        std::vector<std::string> lines;
        int number = 0;
        const bool isWhole = m_practice.subPanels.size() == 1;
        for (const panels::SubPanel& subPanel : m_practice.subPanels) {
            std::string labels;
            for (std::size_t place = subPanel.first; place <= subPanel.last; ++place) {
                labels += (labels.empty() ? "" : ", ") + m_panel.staveAt(place).label;
            }
            std::string line = (isWhole ? "In one go" : "Sub-panel " + std::to_string(++number)) +
                               ": " + labels + ", " + text(subPanel.width) + " wide.";
            if (subPanel.last > subPanel.first) {
                line += " " + clamps(subPanel.clamps, subPanel.clampSpacing) +
                        ", alternately above and below.";
            }
            lines.push_back(line);
        }
        if (m_practice.lastJoints > 0) {
            lines.push_back("Then the sub-panels, one joint at a time: " +
                            clamps(m_practice.lastClamps, m_practice.lastSpacing) + ".");
        }
        lines.push_back(
            "Pressure " + panels::pressureText(m_document, m_practice.leastPounds) + ". Glue: " +
            panels::glueText(m_practice.millilitres, m_practice.glueArea, m_document.info) + ".");
        return lines;
    }

    /// Against the order in which the staves come off the boards, lying as they lie now.
    [[nodiscard]] std::string worthText() const {
        const glueup::Score now = panels::scoreOf(m_panel, m_partner);
        const glueup::Score then = panels::scoreAsTheyCome(m_panel, m_partner);
        const std::string together = m_partner ? " together with " + m_partner->label : "";
        const std::string counted =
            std::string(" (fewer are better") +
            (anyPhotographed() ? "; photographs are not counted here)." : ").");
        const std::string points = panels::pointsText(now.total) + " points" + together;
        const std::string text =
            now.total == then.total
                ? "The order: as good as the one in which the staves come off the boards, " +
                      points + counted
                : "The order: " + points + ", " + panels::pointsText(then.total) +
                      " as the staves come off the boards" + counted;
        std::string worse;
        for (const std::string& term : panels::whatGotWorse(then, now, m_document.info)) {
            worse += (worse.empty() ? " Worse than there: " : "; ") + term;
        }
        return text + worse + (worse.empty() ? "" : ".");
    }

    [[nodiscard]] bool anyPhotographed() const {
        return std::any_of(m_panel.staves.begin(), m_panel.staves.end(),
                           [&](const PanelStave& stave) {
                               const Board* board = findBoard(m_document, stave.board);
                               return board && !board->photos.empty();
                           });
    }

    const Document& m_document;
    const std::vector<Fill>& m_fills;
    const Panel& m_panel;
    const Panel* m_partner; ///< the panel that it should match
    panels::GluePractice m_practice;
};

} // namespace

void addGlueUpSheets(PageBook& book, const Document& document, const std::vector<Fill>& fills) {
    const Result<std::vector<Panel>> panels = panels::panelsOf(document);
    if (!panels) {
        return; // the parts' pages could not have been made either
    }
    const Rect area = book.contentArea(Turn::Upright);
    for (const Panel& panel : panels.value()) {
        const std::string title = "Glue-up " + panel.label + " " + panel.title;
        Pen pen = book.addTitled(title, Turn::Upright);
        PanelSheet sheet(document, panel, panels::partnerOf(panels.value(), panel), fills);
        const Length top = area.y0 + rowHeight(20) + 2_mm;
        const FlowRows rows = sheet.rows(area.length(), book.measure());
        const auto below = [&](Length y) {
            return std::vector<Rect>{{area.x0, y, area.x1, area.y1}};
        };
        const Length end = drawPanel(pen, document, panel, area, top, [&](Length y) {
            return spotsIn(rows, 0, below(y)).size() == rows.size();
        });
        flow(rows, {pen, below(end)}, [&] {
            return FlowPage{book.addTitled(title + ", continued", Turn::Upright), below(top)};
        });
    }
}

} // namespace stavewright::papers
