#pragma once
// One maker for each class of tests, and what they share.

#include <QApplication>
#include <QObject>
#include <QTest>

#include <memory>

#include "core/shop/Presets.h"
#include "ui/session/DocumentSession.h"

namespace stavewright::testing_places {

std::unique_ptr<QObject> makeEntryTest();
std::unique_ptr<QObject> makeLumberPlaceTest();
std::unique_ptr<QObject> makeMarkingPlaceTest();
std::unique_ptr<QObject> makePiecePlaceTest();
std::unique_ptr<QObject> makeQuickEntryTest();
std::unique_ptr<QObject> makeShopPlaceTest();
std::unique_ptr<QObject> makeWholeJobTest();
std::unique_ptr<QObject> makePicturesTest();

/// What a new job begins with.
inline Document emptyJob(UnitSystem units = UnitSystem::Inches) {
    Document document;
    document.info.title = "Bench";
    document.info.units = units;
    document.shop = units == UnitSystem::Inches ? inchShop() : metricShop();
    document.nextId = presetRules::last + 1;
    return document;
}

/// Keys go to whatever has the focus, as they do at the desk.
inline void type(const QString& text) { QTest::keyClicks(QApplication::focusWidget(), text); }
inline void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
    QTest::keyClick(QApplication::focusWidget(), key, modifiers);
    QCoreApplication::processEvents(); // Enter and Tab are taken when the loop comes round
}

/// Every step undone leads back to `before`, every step redone forth to the same document.
inline bool undoesAndRedoes(ui::DocumentSession& session, const Document& before) {
    const Document after = session.document();
    QUndoStack& stack = session.undoStack();
    const int steps = stack.index();
    for (int round = 0; round < 2; ++round) {
        while (stack.canUndo()) {
            stack.undo();
        }
        if (!(session.document() == before)) {
            return false;
        }
        while (stack.index() < steps) {
            stack.redo();
        }
        if (!(session.document() == after)) {
            return false;
        }
    }
    return true;
}

} // namespace stavewright::testing_places
