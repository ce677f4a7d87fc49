#include "core/tally/StretchNote.h"

#include <algorithm>
#include <array>

#include "core/base/PlainText.h"
#include "core/lumber/Marking.h"
#include "core/tally/TallyCells.h"
#include "core/units/Glyph.h"

namespace stavewright {

namespace {

Error refused(std::string sentence) { return {ErrorCode::BadInput, std::move(sentence), {}}; }

/// Lower case, single blanks, without the commas and stops between words; a comma between digits
/// stays, it is a decimal sign.
std::string plainWords(std::string_view text) {
    std::string plain = " ";
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool betweenDigits = i > 0 && i + 1 < text.size() && text[i - 1] >= '0' &&
                                   text[i - 1] <= '9' && text[i + 1] >= '0' && text[i + 1] <= '9';
        const bool pause = (c == ',' || c == '.' || c == ';' || c == ':') && !betweenDigits;
        if (pause || c == ' ') {
            plain += plain.back() == ' ' ? "" : " ";
        } else {
            plain += c;
        }
    }
    plain += plain.back() == ' ' ? "" : " ";
    return stavewright::lowerCase(plain);
}

/// Takes the words out; true when they were there.
bool take(std::string& text, std::string_view words) {
    const std::string wanted = ' ' + std::string(words) + ' ';
    const std::size_t at = text.find(wanted);
    if (at == std::string::npos) {
        return false;
    }
    text.replace(at, wanted.size(), " ");
    return true;
}

bool takeAny(std::string& text, std::initializer_list<std::string_view> choices) {
    bool found = false;
    for (const std::string_view words : choices) {
        found = take(text, words) || found;
    }
    return found;
}

} // namespace

Result<StretchNote> readStretchNote(std::string_view text, UnitSystem units, Length boardLength) {
    std::string rest = plainWords(text);
    StretchNote note;
    const bool both = takeAny(rest, {"on both faces", "both faces", "on both", "both"});
    const bool onA = takeAny(rest, {"on face a", "face a", "on a"});
    const bool onB = takeAny(rest, {"on face b", "face b", "on b"});
    if (both || onA) {
        note.faces.push_back(BoardFace::A);
    }
    if (both || onB) {
        note.faces.push_back(BoardFace::B);
    }
    const bool bad = takeAny(rest, {"bad", "waste", "useless"});
    const bool sound = takeAny(rest, {"sound", "clear", "good", "looked at", "looked", "seen"});
    if (bad == sound) {
        return refused("Say what the wood is there: “bad from 31 to 36”, “the rest sound, "
                       "under 1”, “looked at 0 to 40 on B”.");
    }
    note.what = bad ? StretchNote::What::Bad : StretchNote::What::Sound;
    takeAny(rest, {"is", "are", "knots", "and"});
    for (const std::string_view word : {" under ", " below ", " less than "}) {
        const std::size_t at = rest.find(word);
        if (at == std::string::npos) {
            continue;
        }
        const Result<Length> size = parseLength(trimmed(rest.substr(at + word.size())), units);
        if (!size) {
            return size.error();
        }
        if (size.value() <= Length()) {
            return refused("The size under which knots were not marked must be above 0.");
        }
        note.knotsUnder = size.value();
        rest.resize(at + 1);
        break;
    }
    if (bad && note.knotsUnder) {
        return refused("A bad stretch has no size of knots; only sound wood has.");
    }
    const bool all = takeAny(rest, {"all of it", "all", "the whole", "whole", "everything"});
    const bool remainder = takeAny(rest, {"the rest", "rest"});
    takeAny(rest, {"from", "the"});
    const std::string_view range = trimmed(rest);
    if (all) {
        note.stretch = Stretch{Length(), boardLength};
    }
    if (range.empty()) {
        if (bad && !all) {
            return refused("Say from where to where it is bad, such as “bad from 31 to 36”.");
        }
        return note;
    }
    const std::size_t to = range.find(" to ");
    if (to == std::string_view::npos || all || remainder) {
        return refused(reading::inQuotes(range) +
                       " is no stretch; it runs from one reading to another, such as 31 to 36.");
    }
    const auto end = [&](std::string_view word) -> Result<Length> {
        word = trimmed(word);
        if (word == "end" || word == "far end") {
            return boardLength;
        }
        return parseLength(word, units);
    };
    const Result<Length> first = end(range.substr(0, to));
    const Result<Length> last = end(range.substr(to + 4));
    if (!first || !last) {
        return first ? last.error() : first.error();
    }
    const Length from = std::min(first.value(), last.value());
    const Length until = std::max(first.value(), last.value());
    if (from < Length() || until > boardLength || from >= until) {
        const LengthStyle style{units, 64, true};
        return refused("The stretch runs from " + formatLength(from, style) + " to " +
                       formatLength(until, style) + "; it must have a length and lie from 0 to " +
                       formatLength(boardLength, style) + ", the length of the board.");
    }
    note.stretch = Stretch{from, until};
    return note;
}

Result<Board> withNote(Board board, const StretchNote& note, BoardFace inView, DefectId id,
                       const std::string& mark) {
    constexpr std::array<BoardFace, 2> bothFaces = {BoardFace::A, BoardFace::B};
    std::vector<BoardFace> faces = note.faces;
    if (note.what == StretchNote::What::Sound) {
        if (faces.empty()) {
            faces = {inView};
        }
        for (const BoardFace face : faces) {
            board = note.stretch
                        ? withLook(std::move(board), {face, *note.stretch, note.knotsUnder})
                        : withRestLookedAt(std::move(board), face, note.knotsUnder);
        }
        return board;
    }
    if (faces.empty()) {
        faces.assign(bothFaces.begin(), bothFaces.end()); // bad wood is bad all through
    }
    const Result<FaceMark> place = stretchMark(board.outline, note.stretch.value_or(Stretch()));
    if (!place) {
        return place.error();
    }
    Defect defect;
    defect.id = id;
    defect.mark = mark;
    defect.kind = DefectKind::Other;
    defect.note = "bad wood";
    for (const BoardFace face : faces) {
        (face == BoardFace::A ? defect.onA : defect.onB) = place.value();
        board = withLook(std::move(board), {face, note.stretch.value_or(Stretch()), {}});
    }
    defect.through = faces.size() == 2;
    board.defects.push_back(std::move(defect));
    return board;
}

} // namespace stavewright
