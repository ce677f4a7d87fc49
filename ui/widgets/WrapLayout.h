#pragma once
// Buttons and fields side by side, on as many lines as the width asks: in a narrow window nothing
// is squeezed until its words are cut off.

#include <QLayout>

#include <vector>

namespace stavewright::ui {

class WrapLayout : public QLayout {
    Q_OBJECT
  public:
    explicit WrapLayout(QWidget* parent = nullptr)
        : QLayout(parent) {
        setContentsMargins(0, 0, 0, 0);
        setSpacing(4);
    }
    ~WrapLayout() override;
    Q_DISABLE_COPY_MOVE(WrapLayout)

    void addItem(QLayoutItem* item) override;
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;

    [[nodiscard]] Qt::Orientations expandingDirections() const override { return {}; }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override; ///< all on one line
    [[nodiscard]] QSize minimumSize() const override;
    void setGeometry(const QRect& rect) override;

  private:
    /// What it takes in height; the items are moved only where `moves`.
    int lay(const QRect& rect, bool moves) const;

    std::vector<QLayoutItem*> m_items;
};

} // namespace stavewright::ui
