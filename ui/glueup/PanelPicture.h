#pragma once
// What of a panel is drawn: each stave with the way from its board into the panel, so that knots,
// grain and photographs come to lie where the wood will.
//
// Panel frame in millimetres: x along the grain, y across from the near edge, show face up. The
// view of the back mirrors y, as if the panel were rolled over its long axis.

#include <QPolygonF>
#include <QRectF>
#include <QString>
#include <QTransform>

#include <map>
#include <optional>
#include <vector>

#include "core/panels/Panels.h"
#include "ui/layout/BoardPainter.h"

namespace stavewright::ui {

/// A straightened photograph of one face of a board, or null: whoever has photographs gives them
/// here. Its image has to outlive the painting.
using PhotoOfFace = std::function<const FacePhoto*(BoardId, BoardFace)>;

struct KnotPicture {
    QPolygonF outline; ///< board frame, mm
    QString letter;    ///< of what it is; its chalk mark where it is to be filled
};

struct StavePicture {
    QString label;
    QString width;
    QString board;
    QRectF place;                 ///< panel frame, mm
    QTransform fromBoard;         ///< board frame, mm, into the panel frame
    std::vector<QPolygonF> grain; ///< board frame, mm, of the face that is seen
    std::vector<KnotPicture> knots;
    BoardId boardId;
    BoardFace face = BoardFace::A; ///< of the board that is seen
    /// A photograph of the staves laid out that shows this face; it goes before the board's.
    struct Laid {
        BoardId picture;
        BoardFace face = BoardFace::A; ///< of the picture
        QTransform fromPicture;        ///< its frame, mm, into the panel frame
    };
    std::optional<Laid> laid;
    bool turned = false; ///< end for end
    bool locked = false;
    int planing = 0;      ///< in the panel: +1 to the far end, -1 to the near one
    int heart = 0;        ///< +1 up, -1 down, 0 unknown, in this view
    double ringAngle = 0; ///< degrees between rings and face
    bool flagged = false; ///< something is found against it
};

struct PanelPicture {
    std::vector<StavePicture> staves; ///< from the near edge
    QRectF whole;                     ///< all staves, mm
    QRectF finished;                  ///< what stays once it is trimmed
    bool back = false;
    /// The panel that this one matches, where it has one; it lies so much farther from the lower
    /// edge of the view (below 0: beneath this one).
    std::vector<PanelPicture> beside;
    double besideAt = 0;

    [[nodiscard]] QRectF wholeWithBeside() const;
};

/// `picture` with `other` lying beside it: at its far edge, or its near one.
[[nodiscard]] PanelPicture withBeside(PanelPicture picture, PanelPicture other, bool atFarEdge);

/// The panel with its staves in `order` (its own, or one that is tried).
[[nodiscard]] PanelPicture pictureOf(const Document& document, const panels::Panel& panel,
                                     const glueup::Order& order, bool back);

} // namespace stavewright::ui
