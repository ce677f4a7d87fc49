#pragma once
// One board, large: face A above, face B below as it is seen when the board is turned over its long
// axis. Both show the same stretch; the place under the pointer is crossed on both. The wheel
// zooms, dragging the wood moves it, tools mark defects, and letters say what they are.

#include <QWidget>

#include <map>
#include <optional>

#include "ui/layout/BoardPainter.h"
#include "ui/lumber/SheetTool.h"

namespace stavewright::ui {

/// An outline that somebody or something thinks is a defect; nothing of the job until it is taken.
struct SuggestedMark {
    BoardFace face = BoardFace::A;
    DefectKind kind = DefectKind::SoundKnot;
    Polygon outline;
    int confidencePercent = 0;
};

class BoardSheet : public QWidget, private SheetHost {
    Q_OBJECT
  public:
    explicit BoardSheet(QWidget* parent = nullptr);

    void setBoard(std::optional<BoardPicture> picture, const LengthStyle& style, DefectId freeId);
    void setSelectedDefect(std::optional<DefectId> defect);
    [[nodiscard]] std::optional<DefectId> defectAt(QPointF at) const;
    /// Where the middle of a defect is drawn on face A or, when it does not show there, on B.
    [[nodiscard]] QPointF spotOf(DefectId defect) const;
    /// Where a place of the board is drawn.
    [[nodiscard]] QPointF pixelOf(BoardFace face, Point at) const;
    void fit();

    void setTool(ToolId tool);
    [[nodiscard]] ToolId tool() const { return m_toolId; }
    void setKind(DefectKind kind);
    [[nodiscard]] DefectKind kind() const override { return m_kind; }
    void setFace(BoardFace face);
    [[nodiscard]] BoardFace face() const override { return m_face; }
    /// "31 1/2 from the datum end, 2 1/4 from the near edge"; empty while nothing is pointed at.
    [[nodiscard]] QString placeWords() const;
    [[nodiscard]] QString hint() const;

    /// A straightened photograph under the marks; nothing takes it away.
    void setPhoto(BoardFace face, std::optional<FacePhoto> photo);
    /// Drawn dashed with their confidence; a click asks for one to be taken.
    void setSuggestions(std::vector<SuggestedMark> suggestions);
    /// The board's own outline as a photograph shows it, dashed on both faces.
    void setSuggestedOutline(std::optional<Polygon> outline);
    /// The one that Enter takes and Del dismisses; M picks the next.
    void pickSuggestion(std::optional<int> index);
    [[nodiscard]] std::optional<int> pickedSuggestion() const { return m_pickedSuggestion; }

  signals:
    void defectClicked(stavewright::DefectId defect);
    void nothingPicked();
    /// A changed board, to become one undo step; `select` may hold nothing.
    void edited(const QString& step, const stavewright::Board& board,
                std::optional<stavewright::DefectId> select);
    void refused(const QString& sentence);
    void lookChanged(); ///< tool, kind, face or hint
    /// A letter with nothing picked: a mark of that kind is to be typed in figures.
    void markWanted(stavewright::DefectKind kind, bool through);
    void kindWanted(stavewright::DefectId defect, stavewright::DefectKind kind);
    void pairWanted();
    void removeWanted();
    void noteWanted();
    void largeWanted();
    void boardWanted(int by); ///< the next or the one before
    void suggestionTaken(int index);
    void suggestionDismissed(int index);
    void suggestionsWanted(); ///< M while there are none
    void photosWanted();      ///< I

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    // What tools ask for.
    [[nodiscard]] const Board& board() const override { return m_picture->board; }
    [[nodiscard]] QTransform toPixels(BoardFace face) const override;
    [[nodiscard]] std::optional<DefectId> selected() const override { return m_defect; }
    void select(std::optional<DefectId> defect) override;
    [[nodiscard]] std::optional<DefectId> markAt(const SheetPoint& point) const override;
    [[nodiscard]] DefectId freeId() const override { return m_freeId; }
    [[nodiscard]] std::string freeMark() const override;
    [[nodiscard]] Length handTolerance() const override;
    [[nodiscard]] Length tapeStep() const override;
    void commit(const QString& step, const Board& changed, std::optional<DefectId> select) override;
    void refuse(const QString& sentence) override { emit refused(sentence); }
    void repaint() override { update(); }

    [[nodiscard]] double fittingScale() const;
    [[nodiscard]] QRectF roomOf(BoardFace face) const;
    [[nodiscard]] std::optional<BoardFace> faceAt(QPointF at) const;
    [[nodiscard]] SheetPoint pointAt(BoardFace face, QPointF at) const;
    void zoom(double factor, QPointF about);
    void keepInSight();
    void bringIntoSight(); ///< the picked mark, where zooming has left it outside
    void bringIntoSight(QPointF spot);
    void paintTape(QPainter& painter, const Colours& colours) const;
    void paintFace(QPainter& painter, BoardFace face, const Colours& colours);
    void paintCaption(QPainter& painter, BoardFace face, const Colours& colours) const;
    void paintNotes(QPainter& painter, BoardFace face, const Colours& colours) const;
    void paintSuggestions(QPainter& painter, BoardFace face, const Colours& colours) const;
    void paintCross(QPainter& painter, const Colours& colours) const;
    [[nodiscard]] bool letterKey(QKeyEvent* event);
    [[nodiscard]] bool suggestionKey(QKeyEvent* event);
    [[nodiscard]] bool cursorKey(QKeyEvent* event);
    [[nodiscard]] bool viewKey(QKeyEvent* event);
    void escape(QKeyEvent* event);

    std::optional<BoardPicture> m_picture;
    LengthStyle m_style;
    StrokeCache m_cacheA;
    StrokeCache m_cacheB;
    std::map<BoardFace, FacePhoto> m_photos;
    std::vector<SuggestedMark> m_suggestions;
    std::optional<int> m_pickedSuggestion;
    std::optional<Polygon> m_suggestedOutline;
    std::optional<DefectId> m_defect;
    DefectId m_freeId;
    ToolId m_toolId = ToolId::Select;
    std::unique_ptr<SheetTool> m_tool;
    DefectKind m_kind = DefectKind::SoundKnot;
    BoardFace m_face = BoardFace::A;
    std::optional<SheetPoint> m_cross; ///< the place pointed at, by the pointer or by arrows
    double m_zoom = 1;
    double m_scaleBefore = 0; ///< that fitted before the last change of size
    QPointF m_offset;         ///< px the drawing is moved from where it fits
    QPointF m_pressed;
    QPointF m_offsetAtPress;
    bool m_toolPressed = false;
    bool m_dragging = false;
};

} // namespace stavewright::ui
