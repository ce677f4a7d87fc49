#pragma once
// The colours of a stave as the straightened photograph of its board shows them.

#include <memory>
#include <vector>

#include "core/glueup/Stave.h"
#include "core/layout/Plan.h"
#include "core/photo/Image.h"

namespace stavewright::ui {

/// Strips of about an inch, at least three, from the near to the far edge of `area`, which stands
/// in `frame`; empty where the picture does not show enough of it. `shown` is what the picture
/// shows of the board.
[[nodiscard]] glueup::ColourStrips staveColours(const photo::ImageView& straightened,
                                                const Rect& shown, const Frame& frame,
                                                const Rect& area);

/// The same for all staves of a job without a window: straightens what it is asked about, here and
/// now, once each. Copies share what they have made.
class PhotoColours {
  public:
    explicit PhotoColours(std::vector<Board> boards);
    [[nodiscard]] glueup::ColourStrips operator()(BoardId board, BoardFace face, const Frame& frame,
                                                  const Rect& area) const;

  private:
    struct Made;
    std::shared_ptr<Made> m_made;
};

} // namespace stavewright::ui
