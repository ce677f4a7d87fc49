#pragma once
// The side panel: everything about what is selected, with "why?" on numbers, and the findings of
// the audit as links to where they are.

#include <QScrollArea>

#include <vector>

#include "core/hand/SafeWindow.h"
#include "core/milling/BlankSpec.h"
#include "ui/session/DocumentSession.h"
#include "ui/session/PlanController.h"

namespace stavewright::ui {

class FactSheet;
class ShopEvents;

class SelectionPanel : public QScrollArea {
    Q_OBJECT
  public:
    SelectionPanel(DocumentSession& session, ShopEvents& shop, QWidget* parent = nullptr);

    /// What the panel tells of.
    struct Shown {
        const Plan* plan = nullptr;
        bool isPreview = false;       ///< the plan is only shown so far
        QString title;                ///< of a finished plan that is only shown
        std::optional<BlankId> asked; ///< why this one lies where it lies
        bool isAsking = false;
        QString why;                                        ///< the answer
        std::optional<PlanController::BestKnown> bestKnown; ///< of any plan for the job as it is
    };

    /// Fills the panel for the present selection.
    void refresh(const Shown& shown);

  signals:
    void whyAsked(stavewright::BlankId blank);
    void whyStopped();
    void ownPlanWanted();    ///< in place of one that is only shown
    void keyWanted(int key); ///< what the rack does with this key

  private:
    void jobFacts(const Plan* plan);
    void boardFacts(const Board& board, const Plan* plan);
    void blankFacts(BlankId id, const Plan* plan);
    void partFacts(const Part& part, const Plan* plan);
    // What the shop reports (ShopFacts.cpp).
    void choiceCost(const Plan& plan);
    void boardShop(const Board& board);
    void boardRules(const Board& board);
    void cutsLeft(const Board& board);
    void blankShop(BlankId id);
    void byHand();
    void asideLink(const Board& board);
    void findings(const Plan* plan);
    void sizeSums(const BlankSpec& spec);
    void whyHere(BlankId id);
    void selectBoard(BoardId id);
    void selectFinding(const Finding& finding);

    [[nodiscard]] QString length(Length value) const;
    [[nodiscard]] QString reading(Length value) const;
    [[nodiscard]] QString size(Length width, Length along) const;
    [[nodiscard]] QString lumber(BoardFeet amount) const;

    /// Answers that take a moment, for the state of the job in which they were asked for.
    struct AskedStandby {
        BlankId blank;
        std::int64_t revision = 0;
        QStringList sentences;
    };

    DocumentSession& m_session;
    ShopEvents& m_shop;
    FactSheet* m_sheet;
    Shown m_shown;
    std::optional<AskedStandby> m_standby;
    bool m_movesOpen = false;
    Selection m_about; ///< of what it shows
    bool m_handOpen = false;
    bool m_isPreview = false;
    bool m_sumsOpen = false;
};

} // namespace stavewright::ui
