#pragma once
// The place "Glue-up": the panels of the plan at the left, the chosen one assembled in the middle,
// its score, checks and the bench's figures at the right.

#include <QWidget>

#include <map>

#include "core/panels/PlyPairs.h"
#include "core/panels/Proposal.h"
#include "ui/glueup/PanelPicture.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QListWidget;
class QPushButton;
class QScrollArea;
class QStackedWidget;
class QTimer;
class QToolButton;

namespace stavewright::ui {

class ArrangeRun;
class BlockCanvas;
class Banner;
class DocumentSession;
class FactSheet;
class LaidDesk;
class PanelCanvas;
class PanelPhotos;
class TermTable;

class GlueUpView : public QWidget {
    Q_OBJECT
  public:
    explicit GlueUpView(DocumentSession& session, QWidget* parent = nullptr);
    ~GlueUpView() override;

    [[nodiscard]] PanelCanvas& canvas() { return *m_canvas; }
    [[nodiscard]] BlockCanvas& blockCanvas() { return *m_blockCanvas; }
    [[nodiscard]] TermTable& terms() { return *m_terms; }
    [[nodiscard]] QListWidget& list() { return *m_list; }
    [[nodiscard]] Banner& banner() { return *m_banner; }
    /// The panel that is shown; null when the plan has none.
    [[nodiscard]] const panels::Panel* shown() const;
    [[nodiscard]] bool isArranging() const;
    [[nodiscard]] LaidDesk& laidDesk() { return *m_laid; }

  signals:
    void planWanted();   ///< there is nothing to glue before there is a plan
    void layoutWanted(); ///< the selected stave, on its board

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    /// A panel and an order of it.
    struct Stand {
        const panels::Panel* panel = nullptr;
        glueup::Order order;
    };
    void build();
    QWidget* buildTools();
    void markStale();
    void takeColours(); ///< photographs tell more than they did
    void rebuild();
    void fillList();
    void showPanel();
    void showScores(const Stand& stand);
    void fillFacts();
    void blockFacts(const panels::Block& block);
    void staveFacts(const panels::Panel& panel, std::size_t place);
    void practiceFacts(const panels::Panel& panel);
    void refreshPicture();
    void refreshTools();
    void layOut(bool shown); ///< the photograph of the staves in place of the panel
    void pictureFacts(const panels::Panel& panel, std::size_t place);
    void choose(const PanelName& name);
    [[nodiscard]] bool holdsSelection() const; ///< the picked blank is of what is shown
    void pickFromSelection();

    bool change(const QString& step, const Result<Edit>& edit);
    bool changeOrder(const QString& step, const Result<Edit>& edit);
    void arrange();
    void take(const panels::Proposal& proposal);
    void keepAsItStands();
    void keepAsBefore(const PanelName& name);
    void exchangeStave(std::size_t place);
    void connectBlock();
    bool changePlies(const QString& step, const Result<Edit>& edit);
    void exchangePly(std::size_t ply);
    void pairPlies();
    void setWishes();
    void setWeight(GlueTerm term, int hundredths);
    void selectStave(std::size_t place);
    [[nodiscard]] Stand before() const;
    [[nodiscard]] Stand before(const panels::Panel& panel) const;
    /// The panel that the one shown matches; null where it matches none.
    [[nodiscard]] const panels::Panel* partner() const;
    [[nodiscard]] glueup::Score scoreOf(const Stand& stand, bool partnerIsBefore) const;
    void blinkAlternately();
    void stopBlinking();
    void showNextPanel(int by);
    void focusNextPane();
    [[nodiscard]] Stand now() const; ///< what is looked at
    [[nodiscard]] QString labelAt(std::size_t place) const;

    DocumentSession& m_session;
    Banner* m_banner;
    QStackedWidget* m_stack;
    QListWidget* m_list;
    PanelCanvas* m_canvas;
    BlockCanvas* m_blockCanvas;
    QStackedWidget* m_pictures;
    LaidDesk* m_laid;
    QLabel* m_hint = nullptr;
    QScrollArea* m_factsRoom = nullptr;
    TermTable* m_terms;
    FactSheet* m_facts;
    QLabel* m_total;
    QPushButton* m_arrange = nullptr;
    QToolButton* m_blink = nullptr;
    QToolButton* m_back = nullptr;
    QToolButton* m_photograph = nullptr;
    QComboBox* m_rings = nullptr;
    QComboBox* m_matches = nullptr;
    QCheckBox* m_noCentreSeam = nullptr;
    QTimer* m_blinking = nullptr; ///< runs while before and now are shown by turns
    ArrangeRun* m_run;
    PanelPhotos* m_photos;

    std::vector<panels::Panel> m_panels;
    std::vector<panels::Block> m_blocks;
    std::optional<PanelName> m_name;
    std::optional<std::size_t> m_block; ///< a block is shown in place of a panel
    /// How a panel stood before the last change made here, with its staves: they may have been
    /// exchanged since.
    std::map<PanelName, panels::Panel> m_before;
    std::map<PanelName, glueup::Proved> m_proved; ///< of the arrangement as it stands
    bool m_showsBefore = false;
    bool m_laysOut = false;
    bool m_awaitsColours = false; ///< arranges when the photographs have told theirs
    bool m_stale = true;
    bool m_filling = false;
};

} // namespace stavewright::ui
