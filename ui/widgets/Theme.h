#pragma once
// The colours, type sizes and signs of the visual language, light and dark. Widgets never hold a
// colour of their own: they ask coloursOf(palette()) while painting, so a change of appearance
// reaches all of them.
//
//   painter.setPen(coloursOf(palette()).ink);
//   label->setFont(sized(label->font(), TextSize::Heading));

#include <QColor>
#include <QFont>
#include <QPalette>

#include <array>

namespace stavewright::ui {

/// Every colour a painter may use. Contrast (WCAG) against `panel` is at least 4.5 for text roles.
struct Colours {
    bool dark = false;
    QColor ground;   ///< behind drawings
    QColor panel;    ///< behind lists and text
    QColor ink;      ///< text, outlines
    QColor quietInk; ///< second ink
    QColor hairline;
    QColor accent; ///< selection, links, focus
    QColor good;
    QColor caution;
    QColor wrong;
    QColor wood;
    QColor woodShade;
    QColor woodInk; ///< lines and letters on wood
    QColor blank;   ///< a planned blank
    QColor blankInk;
    std::array<QColor, 6> groupTints; ///< quiet tints of blanks by piece group
};

[[nodiscard]] const Colours& lightColours();
[[nodiscard]] const Colours& darkColours();
/// By the lightness of the palette's window colour.
[[nodiscard]] const Colours& coloursOf(const QPalette& palette);

enum class Appearance { System, Light, Dark };

/// Sets style, palette and font of the whole application. `System` follows the palette the desktop
/// gave.
void applyAppearance(Appearance appearance);

/// Steps of the type scale, as shares of the body size.
enum class TextSize { Caption, Body, Lead, Heading, Title };
[[nodiscard]] QFont sized(const QFont& base, TextSize size);
[[nodiscard]] QFont sized(const QFont& base, TextSize size, QFont::Weight weight);

/// Good, caution and wrong never stand as colour alone: each has a sign, and a word beside it.
enum class Sign { None, Tick, Triangle, Cross };
[[nodiscard]] QColor colourOf(Sign sign, const Colours& colours);

} // namespace stavewright::ui

class QPainter;
class QRectF;

namespace stavewright::ui {
/// Draws the sign into the square of the given rectangle.
void drawSign(QPainter& painter, const QRectF& where, Sign sign, const Colours& colours);
} // namespace stavewright::ui
