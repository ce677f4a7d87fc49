#pragma once
// Photographs for the place Glue-up: each stave shows its own stretch of its board's face, and
// their colours count in the arrangement. They come from FacePictures as they are made.

#include <QObject>

#include <map>
#include <string>

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
    [[nodiscard]] panels::ColoursOnBoard colours();
    /// Some were asked for and are being made; coloursReady() follows.
    [[nodiscard]] bool coloursAreComing() const { return m_coloursAsked; }

  signals:
    void pictureReady(); ///< paint again
    void coloursReady(); ///< what is known of the staves has changed

  private:
    [[nodiscard]] glueup::ColourStrips coloursOf(BoardId board, BoardFace face, const Frame& frame,
                                                 const Rect& area);

    struct Pixels {
        qint64 key = 0; ///< of the QImage they come from
        photo::Image image;
    };
    DocumentSession& m_session;
    std::map<std::pair<BoardId, BoardFace>, Pixels> m_pixels;
    bool m_coloursAsked = false; ///< some were missing when they were asked for
};

} // namespace stavewright::ui
