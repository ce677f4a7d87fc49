#pragma once
// What is known of one board beside its tally line: warp, trims, heart side, planing direction,
// moisture; its outline station by station; what was looked at; and what warp leaves.

#include "core/lumber/BoardShape.h"
#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<Fact> boardFacts(const DocumentSession& session, const Board& board);

[[nodiscard]] std::vector<EntryTitle> stationTitles();
[[nodiscard]] EntryCell stationCell(const DocumentSession& session, const Board& board,
                                    std::size_t station, int column);
/// One more station in the middle of the widest gap, where the edges run already.
[[nodiscard]] Board withOneMoreStation(const Board& board);
/// The board without the station; the two ends stay.
[[nodiscard]] Board withoutStation(const Board& board, std::size_t station);

[[nodiscard]] std::vector<EntryTitle> lookedTitles();
[[nodiscard]] EntryCell lookedCell(const DocumentSession& session, const Board& board,
                                   std::size_t place, int column);
/// The whole face has been seen.
[[nodiscard]] Board withFaceSeen(const Board& board, BoardFace face);
[[nodiscard]] Board withStretchSeen(const Board& board, BoardFace face);

[[nodiscard]] std::vector<EntryTitle> reachTitles();
/// "The whole board makes 1 9/16; 41 in pieces still make 1 3/4."
[[nodiscard]] QString reachWords(const Board& board, Length cleaning, const LengthStyle& style);
/// The trims drawn behind the checks that run out at the ends.
[[nodiscard]] Board trimmedBehindChecks(const Board& board);
/// Lengths of pieces that the table of what warp leaves speaks of, in the job's own units.
[[nodiscard]] std::vector<Length> reachPieces(UnitSystem units);

} // namespace stavewright::ui
