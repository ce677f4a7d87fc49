#pragma once
// What the straightened photographs tell of a stave: its colours, and which way the lines of its
// figure run along its edges.

#include <functional>
#include <memory>
#include <vector>

#include "core/glueup/Stave.h"
#include "core/layout/LaidOut.h"
#include "core/photo/Image.h"

namespace stavewright::ui {

/// Strips of about an inch, at least three, from the near to the far edge of `area`, which stands
/// in `frame`; nothing where the picture does not show enough of it. `shown` is what the picture
/// shows, `toPicture` the way from the board frame into the picture's: none where it is the same.
[[nodiscard]] glueup::PhotoLook staveLook(const photo::ImageView& straightened, const Rect& shown,
                                          const Frame& frame, const Rect& area,
                                          const std::function<Point(Point)>& toPicture = {});

/// The same for all staves of a job without a window: straightens what it is asked about, here and
/// now, once each. Copies share what they have made. A photograph of the staves laid out goes
/// before that of the board.
class PhotoLooks {
  public:
    PhotoLooks(std::vector<Board> boards, std::vector<LaidOut> laidOut);
    [[nodiscard]] glueup::PhotoLook operator()(BoardId board, BoardFace face, const Frame& frame,
                                               const Rect& area) const;

  private:
    struct Made;
    std::shared_ptr<Made> m_made;
};

} // namespace stavewright::ui
