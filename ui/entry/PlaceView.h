#pragma once
// What the places with something to type in share: three panes side by side, a sentence with a
// button while there is nothing in them, the line that says why something was refused, and the keys
// for rows. A place says what its rows are.

#include <QKeySequence>
#include <QWidget>

#include <functional>
#include <vector>

#include "core/document/Edit.h"

class QSplitter;
class QStackedWidget;

namespace stavewright::ui {

class Banner;
class DocumentSession;

class PlaceView : public QWidget {
    Q_OBJECT
  public:
    /// How wide the outer panes are: a share of the place in hundredths, within pixels.
    struct PaneWidth {
        int hundredths = 30;
        int least = 0;
        int most = 500;
    };

  protected:
    /// `name` begins the object names: "lumber" gives "lumberPlace", "lumberSplit", "lumberEmpty".
    PlaceView(DocumentSession& session, const QString& name, QWidget* parent);

    void setPanes(QWidget* left, QWidget* middle, QWidget* right, PaneWidth leftWidth,
                  PaneWidth rightWidth);
    void setEmptyWords(const QString& sentence, const QString& button, std::function<void()> begin,
                       const QString& key = {}); ///< without a key: Insert
    /// A page that lies over panes and empty words alike while it is shown.
    void setCover(QWidget* cover);
    void showCover(bool shown);
    [[nodiscard]] bool isCovered() const;
    void addKey(const char* name, const QList<QKeySequence>& keys, std::function<void()> action);
    /// Insert, Ctrl+Return, Ctrl+D, Del, and F6 for the next pane.
    void addRowKeys();
    void showEmpty(bool empty);
    /// The outer panes make room for the middle one, or come back.
    void showSides(bool shown);
    [[nodiscard]] bool showsSides() const;

    /// One undo step; refused with a sentence when the job would offend by it.
    bool change(const QString& step, const Edit& edit);
    [[nodiscard]] Banner& banner() { return *m_banner; }

    virtual void addRow() = 0;
    virtual void duplicateRow() = 0;
    virtual void removeRow() = 0;
    virtual void fitColumns() = 0;
    /// In the order of F6; the first has the keys as soon as the place is shown.
    [[nodiscard]] virtual std::vector<QWidget*> panes() const = 0;

    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void showEvent(QShowEvent* event) override;

    DocumentSession& m_session;

  private:
    void focusFirst();
    void focusNextPane();

    QString m_name;
    QSplitter* m_split;
    QStackedWidget* m_stack;
    QWidget* m_cover = nullptr;
    bool m_empty = false;
    Banner* m_banner;
    PaneWidth m_left;
    PaneWidth m_right;
    bool m_widthsAreChosen = false; ///< drawn by hand; kept
};

[[nodiscard]] bool holdsFocus(const QWidget* widget);

} // namespace stavewright::ui
