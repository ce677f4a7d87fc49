#include "ui/layout/HandSteps.h"

#include <QCoreApplication>
#include <QKeySequence>

#include "core/hand/PlanTree.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("HandSteps", text); }

HandStep step(int key, const QString& text) {
    return {key, text, QKeySequence(key).toString(QKeySequence::NativeText)};
}

} // namespace

std::vector<HandStep> handSteps(const Document& document, const Selection& selection) {
    if (!document.plan) {
        return {};
    }
    const auto place = selection.blank ? hand::placeOf(*document.plan, *selection.blank)
                                       : std::optional<hand::TreePlace>();
    if (place) {
        const bool isLocked = hand::blankAt(*document.plan, *place).locked;
        return {step(Qt::Key_M, tr("Move it with the arrows or the pointer")),
                step(Qt::Key_P, tr("Type where its datum-side end stands")),
                step(Qt::Key_E, tr("Turn it end for end")),
                step(Qt::Key_F, tr("Turn it face over")),
                step(Qt::Key_X, tr("Swap it with another")),
                step(Qt::Key_Delete, tr("Lay it in the tray")),
                step(Qt::Key_K, isLocked ? tr("Unlock it") : tr("Lock it where it is")),
                step(Qt::Key_C, tr("Move the cuts beside it"))};
    }
    const BoardLayout* layout =
        selection.board ? hand::layoutOf(*document.plan, *selection.board) : nullptr;
    if (layout == nullptr) {
        return {};
    }
    return {step(Qt::Key_K, layout->locked ? tr("Unlock the board")
                                           : tr("Lock the board: nothing on it moves")),
            step(Qt::Key_C, tr("Move its cuts"))};
}

} // namespace stavewright::ui
