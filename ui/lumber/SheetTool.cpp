#include "ui/lumber/SheetTool.h"

#include <QCoreApplication>

#include "ui/lumber/DrawTool.h"
#include "ui/lumber/EdgeTool.h"
#include "ui/lumber/PickTool.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("SheetTool", text); }

Length rounded(Length value, Length step) {
    const Length half = value < Length() ? -step / 2 : step / 2;
    return step * ((value + half) / step);
}

} // namespace

char keyOf(ToolId tool) {
    switch (tool) {
    case ToolId::Select:
        return 'V';
    case ToolId::Ellipse:
        return 'E';
    case ToolId::Corners:
        return 'G';
    case ToolId::Freehand:
        return 'H';
    case ToolId::Stroke:
        return 'Q';
    case ToolId::Bad:
        return 'R';
    case ToolId::Look:
        return 'U';
    case ToolId::Edges:
        break;
    }
    return 'D';
}

QString nameOf(ToolId tool) {
    switch (tool) {
    case ToolId::Select:
        return tr("Pick");
    case ToolId::Ellipse:
        return tr("Ellipse");
    case ToolId::Corners:
        return tr("Corners");
    case ToolId::Freehand:
        return tr("Freehand");
    case ToolId::Stroke:
        return tr("Stroke");
    case ToolId::Bad:
        return tr("Bad");
    case ToolId::Look:
        return tr("Seen");
    case ToolId::Edges:
        break;
    }
    return tr("Edges");
}

QString tipOf(ToolId tool) {
    switch (tool) {
    case ToolId::Select:
        return tr("Pick a mark, move it, stretch it by its corners (V)");
    case ToolId::Ellipse:
        return tr("Drag a knot from corner to corner (E)");
    case ToolId::Corners:
        return tr("Set corner by corner; Enter closes, Backspace takes one back (G)");
    case ToolId::Freehand:
        return tr("Draw round it by hand (H)");
    case ToolId::Stroke:
        return tr("A check along its line, or wane along its edge: press W for wane (Q)");
    case ToolId::Bad:
        return tr("Drag along the board: bad from edge to edge (R)");
    case ToolId::Look:
        return tr("Drag along a face: this was looked at (U)");
    case ToolId::Edges:
        break;
    }
    return tr("Drag the corners of the outline; drag an edge to give it another (D)");
}

std::unique_ptr<SheetTool> makeTool(ToolId tool, SheetHost& host) {
    switch (tool) {
    case ToolId::Select:
        return std::make_unique<PickTool>(host);
    case ToolId::Edges:
        return std::make_unique<EdgeTool>(host);
    default:
        return std::make_unique<DrawTool>(host, tool);
    }
}

Point onStep(const Point& point, Length step) {
    return {rounded(point.x, step), rounded(point.y, step)};
}

} // namespace stavewright::ui
