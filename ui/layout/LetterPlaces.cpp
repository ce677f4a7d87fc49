#include "ui/layout/LetterPlaces.h"

#include <QFontMetricsF>

#include <algorithm>
#include <array>
#include <cmath>

namespace stavewright::ui {

namespace {

constexpr double leastWide = 14; // px: a mark that holds its letter
constexpr double leastHigh = 13;
constexpr double compact = 24;      // px: on a larger mark a letter with its rim reads all the same
constexpr double leastScale = 0.09; // px per mm: below it small marks cannot be told apart

QRectF markBox(const DefectPicture& defect, BoardFace face, const QTransform& toPixels) {
    const Polygon& here = face == BoardFace::A ? defect.onA : defect.onB;
    const Polygon& there = face == BoardFace::A ? defect.onB : defect.onA;
    const Polygon& shown = here.empty() ? there : here;
    return shown.empty() ? QRectF() : toPixels.map(inMillimetres(shown)).boundingRect();
}

/// The nearest first: to the right, where one looks for it.
std::array<QRectF, 8> around(const QRectF& mark, QSizeF letter) {
    constexpr double gap = 1;
    const double right = mark.right() + gap;
    const double left = mark.left() - gap - letter.width();
    const double middle = mark.center().y() - letter.height() / 2;
    const double centred = mark.center().x() - letter.width() / 2;
    const double above = mark.top() - gap - letter.height();
    const double below = mark.bottom() + gap;
    return {QRectF({right, middle}, letter),  QRectF({left, middle}, letter),
            QRectF({centred, above}, letter), QRectF({centred, below}, letter),
            QRectF({right, above}, letter),   QRectF({right, below}, letter),
            QRectF({left, above}, letter),    QRectF({left, below}, letter)};
}

} // namespace

std::vector<LetterPlace> letterPlaces(const BoardPicture& picture, BoardFace face,
                                      const QTransform& toPixels, const QFont& font) {
    std::vector<LetterPlace> places(picture.defects.size());
    const bool writesSmall = std::abs(toPixels.m11()) >= leastScale;
    for (std::size_t i = 0; i < places.size(); ++i) {
        places[i].mark = markBox(picture.defects[i], face, toPixels);
        const bool isSmall =
            places[i].mark.width() < leastWide || places[i].mark.height() < leastHigh;
        places[i].isBeside = isSmall && !places[i].mark.isNull();
    }
    if (!writesSmall) {
        return places;
    }
    const QFontMetricsF metrics(font);
    const QRectF wood = toPixels.map(picture.outline).boundingRect();
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (!places[i].isBeside) {
            continue;
        }
        const QString letter(QChar::fromLatin1(letterOf(picture.defects[i].kind)));
        const QSizeF size(metrics.horizontalAdvance(letter) + 2, metrics.capHeight() + 2);
        const auto candidates = around(places[i].mark, size);
        const auto meets = [&](const QRectF& candidate, bool lettersAlone) {
            return std::any_of(places.begin(), places.end(), [&](const LetterPlace& other) {
                const bool blocks = !lettersAlone && &other != &places[i] &&
                                    std::max(other.mark.width(), other.mark.height()) < compact;
                return other.letter.intersects(candidate) ||
                       (blocks && other.mark.intersects(candidate));
            });
        };
        const auto first = [&](bool lettersAlone) {
            return std::find_if(candidates.begin(), candidates.end(), [&](const QRectF& each) {
                return wood.contains(each) && !meets(each, lettersAlone);
            });
        };
        auto found = first(false);
        found = found == candidates.end() ? first(true) : found;
        places[i].letter = found == candidates.end() ? candidates.front() : *found;
    }
    return places;
}

std::vector<QRectF> takenBy(const std::vector<LetterPlace>& places) {
    std::vector<QRectF> taken;
    for (const LetterPlace& place : places) {
        if (!place.mark.isNull()) {
            taken.push_back(place.mark.adjusted(-1, -1, 1, 1));
        }
        if (!place.letter.isEmpty()) {
            taken.push_back(place.letter);
        }
    }
    return taken;
}

} // namespace stavewright::ui
