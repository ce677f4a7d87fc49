#include "ui/widgets/Icons.h"

#include <QFile>
#include <QPainter>
#include <QPixmap>
#include <QSvgRenderer>

#include "ui/widgets/Theme.h"

// Q_INIT_RESOURCE must stand outside of any namespace.
static void initialiseIcons() { Q_INIT_RESOURCE(icons); }

namespace stavewright::ui {

namespace {

QPixmap rendered(const QByteArray& svg, const QColor& colour, int side) {
    QByteArray coloured = svg;
    coloured.replace("currentColor", colour.name().toLatin1());
    QSvgRenderer renderer(coloured);
    QPixmap pixmap(side, side);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    renderer.render(&painter);
    return pixmap;
}

} // namespace

QIcon iconOf(const QString& name, const QPalette& palette) {
    initialiseIcons();
    QFile file(":/icons/" + name + ".svg");
    if (!file.open(QIODevice::ReadOnly)) {
        return {};
    }
    const QByteArray svg = file.readAll();
    const Colours& colours = coloursOf(palette);
    QIcon icon;
    for (const int side : {16, 20, 32, 40, 64}) {
        icon.addPixmap(rendered(svg, colours.ink, side), QIcon::Normal);
        icon.addPixmap(rendered(svg, colours.hairline, side), QIcon::Disabled);
    }
    return icon;
}

} // namespace stavewright::ui
