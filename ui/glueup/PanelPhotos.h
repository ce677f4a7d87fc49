#pragma once
// Photographs for the place Glue-up: each stave shows its own stretch of its board's face, or of
// the staves laid out, and its colours and lines count in the arrangement. They come from
// FacePictures as they are made.

#include <QObject>

#include <functional>
#include <map>
#include <optional>
#include <vector>

#include "core/panels/Panels.h"
#include "core/photo/Image.h"
#include "ui/glueup/PanelPicture.h"

namespace stavewright::ui {

class DocumentSession;

class PanelPhotos : public QObject {
    Q_OBJECT
  public:
    explicit PanelPhotos(DocumentSession& session, QObject* parent = nullptr);

    [[nodiscard]] PhotoOfFace pictures();
    [[nodiscard]] panels::LooksOnBoard looks();
    /// Some were asked for and are being made; coloursReady() follows.
    [[nodiscard]] bool coloursAreComing() const { return m_coloursAsked; }

  signals:
    void pictureReady(); ///< paint again
    void coloursReady(); ///< what is known of the staves has changed

  private:
    [[nodiscard]] glueup::PhotoLook lookOf(BoardId board, BoardFace face, const Frame& frame,
                                           const Rect& area);
    /// What this picture tells of the rectangle `area`, which stands in `frame`.
    [[nodiscard]] std::optional<glueup::PhotoLook>
    lookIn(const Board& picture, BoardFace face, const Frame& frame, const Rect& area,
           const std::function<Point(Point)>& toPicture);
    /// The pixels of a face as the core wants them; null while they are made or cannot be.
    [[nodiscard]] const photo::Image* pixelsFor(const Board& board, BoardFace face);

    struct Pixels {
        qint64 key = 0; ///< of the QImage they come from
        photo::Image image;
    };
    DocumentSession& m_session;
    std::map<std::pair<BoardId, BoardFace>, Pixels> m_pixels;
    /// By picture and place in it: a panel is made anew with every step, its wood is not.
    std::map<std::vector<std::int64_t>, glueup::PhotoLook> m_looks;
    bool m_coloursAsked = false; ///< some were missing when they were asked for
};

} // namespace stavewright::ui
