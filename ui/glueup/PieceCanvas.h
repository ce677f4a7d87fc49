#pragma once
// What the pictures of a panel and of a laminated block share: their pieces, staves or plies, are
// picked, moved, turned, rolled over and exchanged by the same keys. It changes nothing itself; it
// says what is wanted.

#include <QWidget>

#include <optional>

class QMenu;
class QPainter;

namespace stavewright::ui {

struct Colours;

class PieceCanvas : public QWidget {
    Q_OBJECT
  public:
    [[nodiscard]] std::optional<std::size_t> selected() const { return m_selected; }
    void setSelected(std::optional<std::size_t> piece);
    [[nodiscard]] QSize minimumSizeHint() const override { return {320, 200}; }
    /// Of a piece, in the widget.
    [[nodiscard]] virtual QRectF boxOf(std::size_t piece) const = 0;

  signals:
    void picked(std::size_t piece);
    void moveWanted(std::size_t from, std::size_t to);
    void endForEndWanted(std::size_t piece);
    void faceOverWanted(std::size_t piece);
    void exchangeWanted(std::size_t piece); ///< for one of another panel or block
    void arrangeWanted();
    void nextPanelWanted(int by); ///< of the list
    void layoutWanted();

  protected:
    explicit PieceCanvas(QWidget* parent);

    [[nodiscard]] virtual std::size_t pieces() const = 0;
    /// For whoever hears the picture instead of seeing it.
    [[nodiscard]] virtual QString described(std::size_t piece) const = 0;
    /// What is added to a piece's number one place higher in the picture.
    [[nodiscard]] virtual int upwards() const = 0;

    /// What else can be done with a piece of this picture alone.
    virtual void addToMenu(QMenu& menu, std::size_t piece);

    void pick(std::size_t piece);
    /// There are other pieces now: what is picked stays as long as there is such a place.
    void piecesChanged();
    [[nodiscard]] std::optional<std::size_t> pieceAt(QPointF spot) const;
    void paintFocus(QPainter& painter, const Colours& colours) const;

    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    /// All that its keys do to the piece, for whoever works by mouse alone.
    void contextMenuEvent(QContextMenuEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void step(int by, bool take);
    [[nodiscard]] bool takesKey(int key); ///< of the piece that is picked

    std::optional<std::size_t> m_selected;
};

} // namespace stavewright::ui
