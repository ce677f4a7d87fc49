#pragma once
// One maker for each class of tests; main.cpp runs them in turn.

#include <QObject>

#include <memory>

namespace stavewright::testing_ui {

std::unique_ptr<QObject> makeWidgetsTest();
std::unique_ptr<QObject> makeLengthEditTest();
std::unique_ptr<QObject> makeSessionTest();
std::unique_ptr<QObject> makePictureChangeTest();
std::unique_ptr<QObject> makeRackArrangementTest();
std::unique_ptr<QObject> makeRackPaintTest();
std::unique_ptr<QObject> makeWindowTest();
std::unique_ptr<QObject> makeChoicesTest();
std::unique_ptr<QObject> makeCutDragTest();
std::unique_ptr<QObject> makeGlueUpTest();
std::unique_ptr<QObject> makeHandTest();
std::unique_ptr<QObject> makeLaidOutTest();
std::unique_ptr<QObject> makeMakerDaysTest();
std::unique_ptr<QObject> makeShopRackTest();
std::unique_ptr<QObject> makeShopTest();

} // namespace stavewright::testing_ui
