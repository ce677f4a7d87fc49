#include "tests/tools/RoughLumber.h"

#include <algorithm>

#include "core/geometry/PolygonOps.h"

namespace stavewright::samples {

namespace {

/// Edge heights of a board at a handful of stations along it.
Polygon roughOutline(Dice& dice, const Stack& stack, Length length, Length width) {
    constexpr int stations = 9;
    const Length step = stack.step;
    const Length taper = dice.oneIn(3) ? dice.between(step * 4, step * 14, step) : Length();
    const Length crook = dice.oneIn(3) ? dice.between(step * 2, step * 9, step) : Length();
    const bool waneNear = dice.oneIn(4);
    const bool waneFar = !waneNear && dice.oneIn(5);
    const int waneFrom = dice.between(0, stations - 4);
    const int waneTo = waneFrom + dice.between(2, 3);
    std::vector<Length> near;
    std::vector<Length> far;
    std::vector<Length> xs;
    for (int i = 0; i < stations; ++i) {
        const std::int64_t permille = i * 1000 / (stations - 1);
        xs.push_back(i + 1 == stations ? length : length * permille / 1000 / step * step);
        const Length bend = crook * 4 * permille / 1000 * (1000 - permille) / 1000;
        // Measured to the step, as a maker reads her tape.
        const Length edge = bend / step * step;
        const Length narrowing = taper * permille / 1000 / step * step;
        Length low = edge + dice.between(Length(), step, step);
        Length high = edge + width - narrowing - dice.between(Length(), step, step);
        if (i >= waneFrom && i <= waneTo) {
            low += waneNear ? dice.between(step * 4, step * 12, step) : Length();
            high -= waneFar ? dice.between(step * 4, step * 12, step) : Length();
        }
        near.push_back(low);
        far.push_back(high);
    }
    const Length lowest = *std::min_element(near.begin(), near.end());
    Polygon outline;
    for (std::size_t i = 0; i < near.size(); ++i) {
        outline.push_back({xs[i], near[i] - lowest});
    }
    for (std::size_t i = far.size(); i-- > 0;) {
        outline.push_back({xs[i], far[i] - lowest});
    }
    return normalised(outline);
}

FaceMark ellipseMark(Point centre, Length along, Length across) {
    return {ellipsePolygon(centre, along, across), Ellipse{centre, along, across}};
}

bool clearOf(const Polygon& candidate, const Board& board, Length gap) {
    if (!coveredBy(candidate, board.outline)) {
        return false;
    }
    const Rect box = boundingBox(grown(candidate, gap, gap / 4));
    return std::all_of(board.defects.begin(), board.defects.end(), [&](const Defect& other) {
        return (!other.onA || !box.overlaps(boundingBox(other.onA->outline))) &&
               (!other.onB || !box.overlaps(boundingBox(other.onB->outline)));
    });
}

class DefectMaker {
  public:
    DefectMaker(Document& document, Dice& dice, const Stack& stack, Board& board)
        : m_document(document)
        , m_dice(dice)
        , m_stack(stack)
        , m_board(board) {}

    void knot() {
        const Length step = m_stack.step;
        const Length even = step * 2; // so that both ends of a knot lie on the step
        const Length size = m_dice.between(m_stack.smallestKnot, m_stack.largestKnot, even);
        const Length across = std::max(step * 4, size * m_dice.between(60, 95) / 100 / even * even);
        const Length slantX = m_dice.between(-step * 8, step * 8, step);
        const Length slantY = m_dice.between(-step * 5, step * 5, step);
        const int draw = m_dice.between(1, 100);
        Defect defect;
        defect.kind = draw <= 55   ? DefectKind::SoundKnot
                      : draw <= 82 ? DefectKind::LooseKnot
                      : draw <= 92 ? DefectKind::KnotHole
                                   : DefectKind::BarkPocket;
        defect.through = size >= step * 12;
        const bool onA = defect.through || m_dice.oneIn(2);
        for (int attempt = 0; attempt < 40; ++attempt) {
            const Point centre = somewhere(size);
            const Point shifted{centre.x + slantX, centre.y + slantY};
            FaceMark first = ellipseMark(centre, size, across);
            FaceMark second = ellipseMark(shifted, size * 85 / 100 / even * even,
                                          std::max(even, across * 9 / 10 / even * even));
            if (!clearOf(first.outline, m_board, step * 16) ||
                (defect.through && !clearOf(second.outline, m_board, step * 16))) {
                continue;
            }
            if (defect.through) {
                defect.onA = std::move(first);
                defect.onB = std::move(second);
            } else {
                (onA ? defect.onA : defect.onB) = std::move(first);
            }
            add(std::move(defect), "K");
            return;
        }
    }

    /// A long thin mark along the grain: check, split, pith, bark pocket, sapwood, stain.
    void streak(DefectKind kind, Length along, Length across, bool through, bool atEnd) {
        for (int attempt = 0; attempt < 40; ++attempt) {
            const Rect box = boundingBox(m_board.outline);
            const Length step = m_stack.step;
            const Length x = atEnd ? (m_dice.oneIn(2) ? box.x0 : box.x1 - along)
                                   : m_dice.between(box.x0, box.x1 - along, step);
            const Length y = m_dice.between(box.y0, box.y1 - across, step);
            FaceMark mark{polygonOf({x, y, x + along, y + across}), std::nullopt};
            if (!clearOf(mark.outline, m_board, step)) {
                continue;
            }
            Defect defect;
            defect.kind = kind;
            defect.through = through;
            if (through) {
                defect.onB = mark;
            }
            defect.onA = std::move(mark);
            add(std::move(defect), "D");
            return;
        }
    }

  private:
    Point somewhere(Length size) {
        const Rect box = boundingBox(m_board.outline);
        const Length step = m_stack.step;
        const Length margin = size / 2 / step * step;
        return {m_dice.between(box.x0 + margin, box.x1 - margin, step),
                m_dice.between(box.y0 + margin, box.y1 - margin, step)};
    }

    void add(Defect defect, const std::string& letter) {
        defect.id = m_document.takeId<DefectId>();
        int number = 1;
        for (const Defect& other : m_board.defects) {
            number += other.mark.starts_with(letter) ? 1 : 0;
        }
        defect.mark = letter + std::to_string(number);
        m_board.defects.push_back(std::move(defect));
    }

    Document& m_document;
    Dice& m_dice;
    const Stack& m_stack;
    Board& m_board;
};

void addOtherDefects(DefectMaker& maker, Dice& dice, Length step) {
    switch (dice.between(1, 9)) {
    case 1:
        maker.streak(DefectKind::Split, dice.between(step * 64, step * 160, step * 8), step * 2,
                     true, true);
        break;
    case 2:
        maker.streak(DefectKind::Check, dice.between(step * 32, step * 80, step * 8), step, false,
                     true);
        break;
    case 3:
        maker.streak(DefectKind::Pith, dice.between(step * 160, step * 480, step * 16), step * 6,
                     true, false);
        break;
    case 4:
        maker.streak(DefectKind::Stain, dice.between(step * 96, step * 240, step * 16), step * 16,
                     false, false);
        break;
    case 5:
        maker.streak(DefectKind::WormHoles, step * 24, step * 12, false, false);
        break;
    case 6:
        maker.streak(DefectKind::Sapwood, dice.between(step * 320, step * 640, step * 16),
                     step * 10, false, false);
        break;
    case 7:
        maker.streak(DefectKind::Shake, dice.between(step * 64, step * 160, step * 8), step * 3,
                     false, false);
        break;
    default:
        break;
    }
}

} // namespace

void addBoards(Document& document, Dice& dice, const Stack& stack, int count, int firstMark) {
    const Length step = stack.step;
    for (int i = 0; i < count; ++i) {
        Board board;
        board.id = document.takeId<BoardId>();
        board.mark = std::to_string(firstMark + i);
        board.species = stack.species;
        board.quarter = stack.quarter;
        board.thinnest = dice.between(stack.thinnestLeast, stack.thinnestMost, step);
        const Length length = dice.between(stack.shortest, stack.longest, step * 4);
        const Length width = dice.between(stack.narrowest, stack.widest, step * 2);
        board.outline = roughOutline(dice, stack, length, width);
        board.pricePerBoardFoot = stack.price;
        board.heart = dice.oneIn(2) ? HeartSide::FaceA : HeartSide::FaceB;
        board.planing =
            dice.oneIn(2) ? PlaningDirection::TowardsFarEnd : PlaningDirection::TowardsDatumEnd;
        board.moistureTenths = dice.between(70, 95);
        if (dice.oneIn(stack.warpedOneIn)) {
            board.warp.bow = dice.between(Length(), step * 7, step);
            board.warp.cup = dice.between(Length(), step * 2, step);
            board.warp.twist = dice.between(Length(), step * 4, step);
        }
        if (dice.oneIn(3)) {
            board.trimAtDatum = dice.between(step * 24, step * 48, step * 4);
        }
        if (dice.oneIn(3)) {
            board.trimAtFar = dice.between(step * 24, step * 48, step * 4);
        }
        DefectMaker maker(document, dice, stack, board);
        const int feet = static_cast<int>(length / Length::inches(12));
        const int knots = std::max(1, (feet * stack.knotsPerTenFeet + dice.between(0, 9)) / 10);
        for (int k = 0; k < knots; ++k) {
            maker.knot();
        }
        if (stack.otherDefects) {
            addOtherDefects(maker, dice, step);
        }
        const Length seenTo = dice.oneIn(6) ? length * 2 / 3 / step * step : length;
        board.lookedAt = {{BoardFace::A, {Length(), length}}, {BoardFace::B, {Length(), seenTo}}};
        document.boards.push_back(std::move(board));
    }
}

} // namespace stavewright::samples
