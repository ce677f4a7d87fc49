#include "ui/widgets/Theme.h"

#include <QApplication>
#include <QFontDatabase>
#include <QPainter>
#include <QPainterPath>
#include <QProxyStyle>
#include <QStyleFactory>
#include <QStyleOption>

#include <algorithm>

namespace stavewright::ui {

namespace {

QPalette paletteOf(const Colours& c) {
    QPalette palette;
    const QColor button = c.dark ? QColor("#34312D") : QColor("#F1EDE3");
    palette.setColor(QPalette::Window, c.panel);
    palette.setColor(QPalette::WindowText, c.ink);
    palette.setColor(QPalette::Base, c.dark ? QColor("#211F1D") : QColor("#FFFFFF"));
    palette.setColor(QPalette::AlternateBase, c.ground);
    palette.setColor(QPalette::Text, c.ink);
    palette.setColor(QPalette::PlaceholderText, c.quietInk);
    palette.setColor(QPalette::Button, button);
    palette.setColor(QPalette::ButtonText, c.ink);
    palette.setColor(QPalette::BrightText, c.wrong);
    palette.setColor(QPalette::ToolTipBase, c.panel);
    palette.setColor(QPalette::ToolTipText, c.ink);
    palette.setColor(QPalette::Link, c.accent);
    palette.setColor(QPalette::LinkVisited, c.accent);
    palette.setColor(QPalette::Highlight, c.accent);
    palette.setColor(QPalette::HighlightedText, c.dark ? c.ground : c.panel);
    palette.setColor(QPalette::Light, button.lighter(c.dark ? 130 : 104));
    palette.setColor(QPalette::Midlight, button.lighter(c.dark ? 115 : 102));
    palette.setColor(QPalette::Mid, c.hairline);
    palette.setColor(QPalette::Dark, c.hairline.darker(c.dark ? 130 : 115));
    palette.setColor(QPalette::Shadow, c.dark ? QColor("#000000") : QColor("#7A7468"));
    for (const QPalette::ColorRole role :
         {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        QColor faded = c.quietInk;
        faded.setAlpha(150);
        palette.setColor(QPalette::Disabled, role, faded);
    }
    palette.setColor(QPalette::Disabled, QPalette::Highlight, c.hairline);
    return palette;
}

/// Fusion's lines between cells and round the boxes that are ticked vanish on dark grounds: what is
/// to be typed into or ticked needs an edge, and a tool that is chosen a line of the accent.
class GridStyle : public QProxyStyle {
  public:
    GridStyle()
        : QProxyStyle(QStyleFactory::create("Fusion")) {}
    int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                  QStyleHintReturn* result) const override {
        if (hint == SH_Table_GridLineColor) {
            const QPalette& palette = option != nullptr ? option->palette : QApplication::palette();
            return static_cast<int>(coloursOf(palette).hairline.rgb());
        }
        return QProxyStyle::styleHint(hint, option, widget, result);
    }
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        if (element == PE_PanelButtonTool && option != nullptr &&
            option->state.testFlag(State_On)) { // a shade of grey alone is easily overlooked
            const QRect& box = option->rect;
            painter->fillRect(QRect(box.left() + 3, box.bottom() - 2, box.width() - 6, 2),
                              option->palette.color(QPalette::Highlight));
        }
        const bool isBox = element == PE_IndicatorCheckBox || element == PE_IndicatorRadioButton;
        if (isBox && option != nullptr && coloursOf(option->palette).dark) {
            painter->save();
            painter->setRenderHint(QPainter::Antialiasing, element == PE_IndicatorRadioButton);
            painter->setPen(option->palette.color(QPalette::PlaceholderText));
            painter->setBrush(Qt::NoBrush);
            const QRectF edge = QRectF(option->rect).adjusted(0.5, 0.5, -0.5, -0.5);
            element == PE_IndicatorCheckBox ? painter->drawRect(edge) : painter->drawEllipse(edge);
            painter->restore();
        }
    }
};

} // namespace

const Colours& lightColours() {
    static const Colours colours{
        .dark = false,
        .ground = "#F4F1EA",
        .panel = "#FBFAF6",
        .ink = "#23211D",
        .quietInk = "#5C574D",
        .hairline = "#C9C2B4",
        .accent = "#1F5F7A",
        .good = "#2C6E49",
        .caution = "#9A5B00",
        .wrong = "#A1252B",
        .wood = "#E4CFA6",
        .woodShade = "#CDB082",
        .woodInk = "#23211D",
        .blank = QColor(255, 253, 247, 215),
        .blankInk = "#23211D",
        .groupTints = {QColor("#FFFDF7"), QColor("#E3EBE6"), QColor("#F3E2D6"), QColor("#DFE5EE"),
                       QColor("#EFE9C9"), QColor("#E9DEE8")},
    };
    return colours;
}

const Colours& darkColours() {
    static const Colours colours{
        .dark = true,
        .ground = "#1E1D1B",
        .panel = "#272522",
        .ink = "#ECE7DC",
        .quietInk = "#B1A999",
        .hairline = "#4A463F",
        .accent = "#7CC0DC",
        .good = "#7CC79B",
        .caution = "#E3A94F",
        .wrong = "#F08A86",
        .wood = "#7A6442",
        .woodShade = "#5F4D31",
        .woodInk = "#ECE7DC",
        .blank = QColor(207, 196, 172, 235),
        .blankInk = "#1E1D1B",
        .groupTints = {QColor("#CFC4AC"), QColor("#B9C6BB"), QColor("#D0B6A2"), QColor("#B3BFCF"),
                       QColor("#CDC492"), QColor("#C4B3C3")},
    };
    return colours;
}

const Colours& coloursOf(const QPalette& palette) {
    return palette.color(QPalette::Window).lightness() < 128 ? darkColours() : lightColours();
}

void applyAppearance(Appearance appearance) {
    // The desktop's own lightness, read once before any palette of ours covers it.
    static const bool systemIsDark =
        QApplication::palette().color(QPalette::Window).lightness() < 128;
    QApplication::setStyle(new GridStyle); // the application owns it
    const bool dark =
        appearance == Appearance::Dark || (appearance == Appearance::System && systemIsDark);
    QApplication::setPalette(paletteOf(dark ? darkColours() : lightColours()));
    if (QFontDatabase::families().contains("Inter")) {
        QFont font("Inter");
        font.setPointSizeF(9.75); // 13 px at 96 dots an inch
        QApplication::setFont(font);
    }
}

QFont sized(const QFont& base, TextSize size) {
    static constexpr std::array<double, 5> pixels = {11, 13, 15, 20, 28};
    const QFont& body = QApplication::font();
    QFont font = base;
    font.setPointSizeF(body.pointSizeF() * pixels[static_cast<std::size_t>(size)] / 13.0);
    return font;
}

QFont sized(const QFont& base, TextSize size, QFont::Weight weight) {
    QFont font = sized(base, size);
    font.setWeight(weight);
    return font;
}

QColor colourOf(Sign sign, const Colours& colours) {
    switch (sign) {
    case Sign::Tick:
        return colours.good;
    case Sign::Triangle:
        return colours.caution;
    case Sign::Cross:
        return colours.wrong;
    case Sign::None:
        break;
    }
    return colours.quietInk;
}

void drawSign(QPainter& painter, const QRectF& where, Sign sign, const Colours& colours) {
    if (sign == Sign::None) {
        return;
    }
    const double side = std::min(where.width(), where.height());
    const QPointF middle = where.center();
    const auto at = [&](double x, double y) { return middle + QPointF(x, y) * side / 2; };
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QColor colour = colourOf(sign, colours);
    painter.setPen(QPen(colour, side * 0.13, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    if (sign == Sign::Tick) {
        painter.drawPolyline(QPolygonF({at(-0.7, 0.05), at(-0.2, 0.55), at(0.75, -0.55)}));
    } else if (sign == Sign::Cross) {
        painter.drawLine(at(-0.6, -0.6), at(0.6, 0.6));
        painter.drawLine(at(-0.6, 0.6), at(0.6, -0.6));
    } else {
        painter.drawPolygon(QPolygonF({at(0, -0.7), at(0.8, 0.65), at(-0.8, 0.65)}));
        painter.drawLine(at(0, -0.2), at(0, 0.2));
        painter.drawPoint(at(0, 0.43));
    }
    painter.restore();
}

} // namespace stavewright::ui
