#pragma once
// One photograph as it was taken, with what is marked in it: corners of the board, places on its
// edges, readings of a tape, spots that other photographs show too. Marks are dragged, or picked
// and nudged by the arrow keys, under a loupe. The canvas changes nothing itself: it says what the
// marks should become.

#include <QImage>
#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

#include "core/photo/Straighten.h"
#include "ui/lumber/PhotoMarks.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

/// A spot that another photograph shows, where this one should show it.
struct SpotHint {
    int number = 1;
    photo::PhotoPoint at;
};

class PhotoCanvas : public QWidget {
    Q_OBJECT
  public:
    /// What the next press puts down.
    enum class Tool { Pick, Tape, NearEdge, FarEdge, Spot };

    explicit PhotoCanvas(QWidget* parent = nullptr);

    /// As photoLevels makes them; none: `words` stand in their place.
    void setPicture(std::vector<QImage> levels, const QString& words);
    [[nodiscard]] bool hasPicture() const { return !m_levels.empty(); }
    void setMarks(const photo::PhotoControls& controls, const photo::BoardSize& board,
                  const std::optional<photo::Straightening>& fit);
    /// How the photograph is straightened while a mark is dragged.
    using Refit = std::function<std::optional<photo::Straightening>(const photo::PhotoControls&)>;
    void setRefit(Refit refit) { m_refit = std::move(refit); }
    /// `next`: the number of the next spot; 0 when there is none left.
    void setSpots(int next, std::vector<SpotHint> hints);
    /// What readings of a tape are guessed in: whole inches or centimetres.
    void setReadingStep(Length step) { m_readingStep = step; }
    void setPicked(std::optional<PhotoMark> mark);
    [[nodiscard]] std::optional<PhotoMark> picked() const { return m_picked; }
    void setTool(Tool tool);
    [[nodiscard]] Tool tool() const { return m_tool; }
    [[nodiscard]] QPointF pixelOf(photo::PhotoPoint at) const; ///< where it is drawn
    void fit();

  signals:
    /// One undo step; those with the same mark and `nudge` are one together.
    void changed(const QString& step, const stavewright::photo::PhotoControls& controls,
                 bool nudge);
    void pickedChanged();
    void toolChanged();
    void readingWanted();       ///< the tape mark just put down has no reading yet
    void anotherWanted(int by); ///< the next photograph of the board, or the one before
    void leaveWanted();         ///< Esc with nothing left to give up

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    static constexpr double grip = 9; // px round a mark

    [[nodiscard]] double scale() const; ///< px of the screen for each of the photograph
    [[nodiscard]] QPointF toScreen(QPointF photo) const;
    [[nodiscard]] QPointF toPhoto(QPointF screen) const;
    [[nodiscard]] photo::PhotoPoint inside(QPointF photo) const;
    [[nodiscard]] std::optional<PhotoMark> markAt(QPointF screen) const;
    [[nodiscard]] QPointF pointed() const; ///< the pointer, or the middle of the view
    void zoom(double factor, QPointF about);
    void keepInSight();
    void showPicked(); ///< brings the picked mark into the view
    void putDown(Tool tool, QPointF photo);
    [[nodiscard]] int spotMeant(QPointF photo) const;
    void pickNext(int by);
    void pickCorner(photo::Corner corner);
    void nudge(QPointF by);
    void removePicked();
    void paintPicture(QPainter& painter) const;
    void paintBoard(QPainter& painter, const Colours& colours) const;
    void paintMarks(QPainter& painter, const Colours& colours) const;
    void paintHints(QPainter& painter) const;
    void paintLoupe(QPainter& painter, const Colours& colours) const;

    std::vector<QImage> m_levels; ///< each half as large as the one before
    QString m_words;
    photo::PhotoControls m_controls;
    photo::BoardSize m_board;
    std::optional<photo::Straightening> m_fit;
    Refit m_refit;
    int m_nextSpot = 1;
    std::vector<SpotHint> m_hints;
    Length m_readingStep = Length::inches(1);
    std::optional<PhotoMark> m_picked;
    Tool m_tool = Tool::Pick;
    double m_zoom = 1;
    QPointF m_offset;
    std::optional<QPointF> m_pointer;
    QPointF m_pressed;
    QPointF m_offsetAtPress;
    std::optional<photo::PhotoControls> m_beforeDrag; ///< while a mark is dragged
    bool m_moved = false;
};

} // namespace stavewright::ui
