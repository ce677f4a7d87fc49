#pragma once
// The straightened photograph of the staves laid out, with the lines where two of them meet. Lines
// are dragged, at their ends to lean, or picked by Tab and moved, leaned and parted by keys; what
// lies at the picked one is shown large below, at both ends and in the middle. The canvas changes
// nothing itself: it says what is wanted.

#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

#include "core/layout/LaidOut.h"
#include "ui/layout/FacePhoto.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

class JointCanvas : public QWidget {
    Q_OBJECT
  public:
    explicit JointCanvas(QWidget* parent = nullptr);

    /// `labels`: of the staves, from the near edge. The back is shown as the photograph shows it,
    /// its near edge above.
    void setLaidOut(const LaidOut& laid, std::vector<QString> labels);
    void clear(const QString& words); ///< stand in its place
    /// Asked while it paints; null while the picture is made. It stays until the event loop runs.
    void setPicture(std::function<const FacePhoto*()> picture) { m_picture = std::move(picture); }
    [[nodiscard]] std::optional<std::size_t> picked() const { return m_picked; }
    [[nodiscard]] QPointF middleOf(std::size_t joint) const; ///< in the widget

  signals:
    /// One undo step; those of one joint with `nudge` are one together.
    void placed(std::size_t joint, stavewright::Length at, const stavewright::JointLie& lie,
                bool nudge);
    void findWanted();
    void widthsWanted();
    void leaveWanted();

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    [[nodiscard]] bool isBack() const { return m_laid->photo.face == BoardFace::B; }
    [[nodiscard]] double longMm() const { return m_laid->photo.size.length.toMillimetres(); }
    [[nodiscard]] double wideMm() const { return m_laid->photo.size.widthAtDatum.toMillimetres(); }
    [[nodiscard]] QRectF area() const; ///< of the picture
    [[nodiscard]] double yOf(Length across) const;
    [[nodiscard]] Length acrossAt(double y) const;
    [[nodiscard]] Length placeOf(std::size_t joint) const; ///< also while it is dragged
    [[nodiscard]] JointLie lieOf(std::size_t joint) const;
    /// Across from the near edge, so far along: share of the length, 0 the near end.
    [[nodiscard]] Length acrossOf(std::size_t joint, double share) const;
    void pickNext(int by);
    void place(Length at, JointLie lie, bool nudge); ///< the picked one, as far as there is room
    void nudge(int key, Length step);
    void paintJoint(QPainter& painter, std::size_t joint, const Colours& colours) const;
    void paintPhoto(QPainter& painter, const QRectF& into, const QRectF& millimetres) const;
    void paintLarge(QPainter& painter, const Colours& colours) const;

    std::optional<LaidOut> m_laid;
    std::vector<QString> m_labels;
    QString m_words;
    std::function<const FacePhoto*()> m_picture;
    std::optional<std::size_t> m_picked;
    std::optional<Length> m_dragged; ///< where the picked one is held, at its middle
    Length m_draggedLean;
    double m_pressedAt = 0; ///< share of the length
    bool m_pressed = false;
};

} // namespace stavewright::ui
