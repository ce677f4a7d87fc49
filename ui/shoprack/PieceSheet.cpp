#include "ui/shoprack/PieceSheet.h"

#include <QPainter>

#include <algorithm>

#include "ui/widgets/FractionText.h"

namespace stavewright::ui {

PieceSheet::PieceSheet(QWidget* parent)
    : QWidget(parent) {
    setObjectName("pieceSheet");
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void PieceSheet::show(const std::optional<Board>& board, const QString& title,
                      const LengthStyle& style) {
    m_picture.reset();
    for (StrokeCache& strokes : m_strokes) {
        strokes.clear();
    }
    if (board) {
        Document alone;
        alone.boards = {*board};
        m_picture = picturesOf(alone, nullptr, {}, style).front();
        m_picture->title = title;
        setAccessibleName(title + ", " + m_picture->facts);
    }
    update();
}

void PieceSheet::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    BoardLook look;
    look.colours = coloursOf(palette());
    look.font = font();
    look.readings = false;
    painter.fillRect(rect(), look.colours.ground);
    if (!m_picture) {
        return;
    }
    constexpr double margin = 12;
    constexpr double head = 24;
    constexpr double label = 16;
    painter.setFont(sized(font(), TextSize::Body, QFont::DemiBold));
    painter.setPen(look.colours.ink);
    drawFractionText(painter, QRectF(margin, 0, width() - 2 * margin, head), Qt::AlignVCenter,
                     m_picture->title + ": " + m_picture->facts);
    // One above the other, or side by side where the wood is short: whichever shows it larger.
    const QRectF room(margin, head, width() - 2 * margin, height() - head - 8);
    const double across = m_picture->highest - m_picture->lowest;
    const auto scaleIn = [&](double wide, double high) {
        return std::min(wide / m_picture->length, (high - label) / across);
    };
    const double stacked = scaleIn(room.width(), room.height() / 2);
    const double beside = scaleIn((room.width() - margin) / 2, room.height());
    const bool isBeside = beside > stacked;
    const double scale = std::max(stacked, beside);
    QPointF corner = room.topLeft();
    for (const BoardFace face : {BoardFace::A, BoardFace::B}) {
        look.face = face;
        painter.setFont(sized(font(), TextSize::Caption));
        painter.setPen(look.colours.quietInk);
        painter.drawText(QRectF(corner, QSizeF(80, label)), Qt::AlignLeft | Qt::AlignVCenter,
                         face == BoardFace::A ? tr("face A") : tr("face B"));
        const double top = corner.y() + label;
        const QTransform toPixels =
            face == BoardFace::A
                ? QTransform(scale, 0, 0, -scale, corner.x(), top + m_picture->highest * scale)
                : QTransform(scale, 0, 0, scale, corner.x(), top - m_picture->lowest * scale);
        paintBoard(painter, *m_picture, m_strokes[face == BoardFace::A ? 0 : 1], toPixels, look);
        corner += isBeside ? QPointF(m_picture->length * scale + 2 * margin, 0)
                           : QPointF(0, room.height() / 2);
    }
}

} // namespace stavewright::ui
