#pragma once
// Painting of one board of the rack: a pure function of its picture, where it stands on the device,
// and how it is to look. All lines and letters have the same size at every zoom.

#include <QFont>
#include <QTransform>

#include <map>
#include <optional>

#include "core/drawing/DefectSymbol.h"
#include "core/lumber/Board.h"
#include "ui/layout/BoardPicture.h"
#include "ui/layout/FacePhoto.h"
#include "ui/widgets/Theme.h"

class QPainter;

namespace stavewright::ui {

/// Strokes that depend on the zoom, kept between paintings of one board.
class StrokeCache {
  public:
    const std::vector<QPolygonF>& grain(const Board& board, BoardFace face, double pixelsPerMm);
    const drawing::DefectSymbol& symbol(const DefectPicture& defect, BoardFace face,
                                        double pixelsPerMm);
    void clear();

  private:
    Length m_grainSpacing;
    BoardFace m_grainFace = BoardFace::A;
    std::optional<std::vector<QPolygonF>> m_grain;
    Length m_symbolSpacing;
    std::map<std::pair<std::int64_t, BoardFace>, drawing::DefectSymbol> m_symbols;
};

struct BoardLook {
    Colours colours;
    QFont font;
    BoardFace face = BoardFace::A; ///< the face that lies up
    std::optional<BlankId> selectedBlank;
    std::optional<DefectId> selectedDefect;
    bool boardSelected = false;
    const FacePhoto* photo = nullptr; ///< lies in place of the drawn figure
    bool readings = true;             ///< of the tape, above the cuts
};

/// `toPixels` maps the board frame (mm) to the painter's device.
/// Returns the names of the blanks that are too small to carry them.
QStringList paintBoard(QPainter& painter, const BoardPicture& picture, StrokeCache& cache,
                       const QTransform& toPixels, const BoardLook& look);

/// The line above the board; `left` is where the text begins, so that it stays in sight when
/// panned.
void paintBoardHeader(QPainter& painter, const BoardPicture& picture, const QRectF& room,
                      const BoardLook& look);

/// The words of a board that hangs in one row among many: its mark at the left of the wood, its
/// yield and what it gives at the right, up to `right`.
void paintBoardRow(QPainter& painter, const BoardPicture& picture, const QStringList& unnamed,
                   const QRectF& wood, double left, double right, const BoardLook& look);

} // namespace stavewright::ui
