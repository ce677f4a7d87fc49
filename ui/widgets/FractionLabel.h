#pragma once
// A label that sets fractions as fractions and wraps; optionally with a sign before the words, and
// optionally a link that can be reached by keyboard.

#include <QWidget>

#include "ui/widgets/Theme.h"

namespace stavewright::ui {

class FractionLabel : public QWidget {
    Q_OBJECT
  public:
    explicit FractionLabel(const QString& text = {}, QWidget* parent = nullptr);

    [[nodiscard]] const QString& text() const { return m_text; }
    void setText(const QString& text);
    void setSign(Sign sign);
    void setQuiet(bool quiet);                  ///< second ink
    void setAlignment(Qt::Alignment alignment); ///< horizontal, for a single line
    void setWrapped(bool wrapped);
    void setLink(bool link); ///< accent colour, focus, clicked()

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return m_wrapped; }
    [[nodiscard]] int heightForWidth(int width) const override;

  signals:
    void clicked();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    [[nodiscard]] int indent() const;

    QString m_text;
    Sign m_sign = Sign::None;
    bool m_quiet = false;
    bool m_wrapped = false;
    bool m_link = false;
    Qt::Alignment m_alignment = Qt::AlignLeft;
};

} // namespace stavewright::ui
