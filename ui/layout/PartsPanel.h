#pragma once
// Beside the rack: every part with its placed blanks, and the tray of what is not placed with the
// reason.

#include <QFont>
#include <QWidget>

#include <vector>

#include "core/layout/Plan.h"
#include "ui/layout/PartRows.h"
#include "ui/widgets/Theme.h"

class QLabel;
class QModelIndex;
class QStandardItemModel;
class QTreeView;
class QListView;

namespace stavewright {
struct Plan;
struct Document;
} // namespace stavewright

namespace stavewright::ui {

class DocumentSession;
class FractionLabel;

class PartsPanel : public QWidget {
    Q_OBJECT
  public:
    explicit PartsPanel(DocumentSession& session, QWidget* parent = nullptr);

    /// Lists the document's parts as placed by `plan` (the document's, a preview, or null).
    void refresh(const Plan* plan);
    [[nodiscard]] QTreeView* tree() { return m_tree; }
    [[nodiscard]] QListView* tray() { return m_tray; }
    /// What is held over the tray and may be let go there; with no label: no longer.
    void awaitInTray(const QString& label);

  signals:
    /// One that waits in the tray is to be laid on a board.
    void laidOut(const stavewright::BlankPurpose& purpose);

  private:
    void fillParts(std::vector<PartRow> rows);
    void fillTray(std::vector<TrayRow> rows);
    [[nodiscard]] bool takeTexts(const std::vector<PartRow>& rows);
    void nameTray(const QString& words, Sign sign);
    void selectFromTree(const QModelIndex& index);
    void showSelection();

    DocumentSession& m_session;
    QTreeView* m_tree;
    QStandardItemModel* m_parts;
    FractionLabel* m_trayTitle;
    QString m_trayWords; ///< over the tray while nothing is held over it
    Sign m_traySign = Sign::None;
    QString m_awaited; ///< label of what is held over it
    QListView* m_tray;
    QStandardItemModel* m_unplaced;
    std::vector<PartRow> m_partRows; ///< what the lists hold
    std::vector<TrayRow> m_trayRows;
    QFont m_listed;           ///< font of the lists when they were filled
    bool m_selecting = false; ///< a selection of ours is on its way
};

} // namespace stavewright::ui
