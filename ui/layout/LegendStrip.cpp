#include "ui/layout/LegendStrip.h"

#include <QFontMetricsF>
#include <QPainter>

#include <set>

#include "ui/layout/Hatch.h"
#include "ui/widgets/Theme.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {
constexpr double swatch = 24;
constexpr double swatchHigh = 13;
constexpr int roomy = 760; // the row of swatches in its long words
} // namespace

LegendStrip::LegendStrip(QWidget* parent)
    : QWidget(parent) {
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    setAccessibleName(tr("Legend of the rack"));
}

void LegendStrip::setPictures(const std::vector<BoardPicture>& pictures, BoardFace face) {
    m_face = face;
    m_blanks = m_offcuts = m_unseen = m_otherFace = m_trims = false;
    std::set<DefectKind> kinds;
    for (const BoardPicture& picture : pictures) {
        m_blanks = m_blanks || !picture.blanks.empty();
        m_offcuts = m_offcuts || !picture.offcuts.empty();
        m_trims = m_trims || !picture.trims.empty();
        m_unseen = m_unseen ||
                   !notLookedAt(picture.board, face, {Length(), lengthOf(picture.board)}).empty();
        for (const DefectPicture& defect : picture.defects) {
            kinds.insert(defect.kind);
            m_otherFace = m_otherFace || (face == BoardFace::A ? defect.onA : defect.onB).empty();
        }
    }
    m_defects.clear();
    for (const DefectKind kind : kinds) {
        m_defects.push_back(
            {kind, QString("%1 %2").arg(QChar::fromLatin1(letterOf(kind)), words(nameOf(kind)))});
    }
    update();
}

QSize LegendStrip::sizeHint() const {
    return {200,
            2 * static_cast<int>(QFontMetricsF(sized(font(), TextSize::Caption)).height()) + 16};
}

void LegendStrip::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Colours& c = coloursOf(palette());
    painter.fillRect(rect(), c.ground);
    const QFont plain = sized(font(), TextSize::Caption);
    const QFontMetricsF metrics(plain);
    painter.setFont(plain);
    const double row = metrics.height() + 6;
    double x = 12;
    double middle = row / 2 + 2;
    const auto box = [&] { return QRectF(x, middle - swatchHigh / 2, swatch, swatchHigh); };
    const auto label = [&](const QString& text, double lead) {
        painter.setPen(c.quietInk);
        painter.drawText(QPointF(x + lead, middle + metrics.capHeight() / 2), text);
        x += lead + metrics.horizontalAdvance(text) + 14;
    };
    if (m_blanks) {
        QColor blank = c.groupTints[0];
        painter.setPen(QPen(c.dark ? c.blankInk : c.ink, 1.5));
        painter.setBrush(blank);
        painter.drawRect(box());
        label(tr("blank"), swatch + 5);
        const QRectF corner = box();
        painter.setPen(QPen(c.blankInk, 1));
        painter.setBrush(blank);
        painter.drawRect(corner);
        painter.setBrush(c.blankInk);
        painter.drawPolygon(QPolygonF({corner.bottomLeft(), corner.bottomLeft() + QPointF(8, 0),
                                       corner.bottomLeft() + QPointF(0, -8)}));
        label(width() < roomy ? tr("its datum corner")
                              : tr("its datum corner (hollow: face A under)"),
              swatch + 5);
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.wood);
        painter.drawRect(box());
        QColor waste = c.woodInk;
        waste.setAlpha(110);
        paintHatch(painter, box(), waste, 5, HatchLean::Rising);
        label(tr("waste"), swatch + 5);
    }
    if (m_offcuts) {
        painter.setBrush(c.wood);
        painter.setPen(QPen(c.woodInk, 1, Qt::DotLine));
        painter.drawRect(box());
        label(tr("offcut to keep"), swatch + 5);
    }
    if (m_trims) {
        QColor trim = c.woodInk;
        trim.setAlpha(110);
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.wood);
        painter.drawRect(box());
        paintHatch(painter, box(), trim, 5, HatchLean::Falling);
        label(tr("raw end, cut off"), swatch + 5);
    }
    if (m_unseen) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.wood);
        painter.drawRect(box());
        paintDots(painter, box().adjusted(2, 2, -2, -2), c.woodInk, 4);
        label(tr("not looked at"), swatch + 5);
    }
    if (m_otherFace) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(c.ink, 1, Qt::DotLine));
        painter.drawEllipse(box().adjusted(3, 0, -3, 0));
        label(m_face == BoardFace::A ? tr("on face B") : tr("on face A"), swatch + 2);
    }
    x = 12; // the letters of the marks have a row of their own
    middle += row;
    for (const DefectEntry& entry : m_defects) {
        if (x + metrics.horizontalAdvance(entry.text) > width() - 8) {
            painter.setPen(c.quietInk);
            painter.drawText(QPointF(x, middle + metrics.capHeight() / 2), QChar(0x2026));
            break;
        }
        label(entry.text, 0);
    }
}

} // namespace stavewright::ui
