#pragma once
// Where a stave lies in a photograph of staves laid out, and the way from that picture to the wood.
//
//   if (const auto laid = laidPlaceOf(glueUp.laidOut, board, BoardFace::A, frame, net)) {
//       Point inPicture = laid->toLaid(onBoard);
//   }

#include <optional>
#include <vector>

#include "core/layout/LaidOut.h"
#include "core/lumber/Board.h"

namespace stavewright::glueup {

class LaidPlace {
  public:
    /// The stave at `place`, from the near edge.
    LaidPlace(const LaidOut& laid, std::size_t place);

    /// The picture as that of a board of its own; see asBoard().
    [[nodiscard]] BoardId picture() const { return BoardId{m_photo.value}; }
    /// Of the picture: A the panel's show face, B its back.
    [[nodiscard]] BoardFace face() const { return m_face; }
    /// Where the net wood of the stave lies, in the frame of the picture; of one that lay askew, as
    /// if it were turned straight round its middle.
    [[nodiscard]] const Rect& band() const { return m_band; }
    /// A place on the board, in the frame of the picture; and back.
    [[nodiscard]] Point toLaid(Point onBoard) const;
    [[nodiscard]] Point toBoard(Point inPicture) const;

  private:
    PhotoId m_photo;
    BoardFace m_face = BoardFace::A;
    /// How much farther from the near edge a stave that lay askew is there than at its middle.
    [[nodiscard]] Length risenAt(Length x) const;

    LaidStave m_stave;
    Rect m_band;
    double m_slope = 0; ///< of its edges; a degree at most, so lengths along it stay as they are
};

/// The face of the board that this photograph shows of a stave.
[[nodiscard]] BoardFace shownOfBoard(const LaidOut& laid, const LaidStave& stave);

/// The same wood: the net rectangle lies in that of the stave laid out, but for a tenth at most.
[[nodiscard]] bool isSameWood(const LaidStave& stave, BoardId board, const Frame& frame,
                              const Rect& net);

/// The picture that shows this face of this wood; of several the one that was added last.
[[nodiscard]] std::optional<LaidPlace> laidPlaceOf(const std::vector<LaidOut>& laidOut,
                                                   BoardId board, BoardFace face,
                                                   const Frame& frame, const Rect& net);

/// Staves side by side are straightened like one wide board: its outline is their size, its one
/// photograph theirs, its id the photograph's (no id stands twice in a job).
[[nodiscard]] Board asBoard(const LaidOut& laid);
/// The boards, and behind them what is laid out as boards: all that pictures are made of.
[[nodiscard]] std::vector<Board> withLaidOut(std::vector<Board> boards,
                                             const std::vector<LaidOut>& laidOut);
[[nodiscard]] const LaidOut* findPicture(const std::vector<LaidOut>& laidOut, BoardId picture);

} // namespace stavewright::glueup
