#include "ui/widgets/LengthWords.h"

#include <QCoreApplication>

#include "ui/widgets/Words.h"

namespace stavewright::ui {

QString tapeText(Length length, const LengthStyle& style) {
    return words(settingText(length, style));
}

QString readingText(Length length, const LengthStyle& style) {
    return tapeText(onTape(length, style), style);
}

QString exactText(Length length, const LengthStyle& style) {
    LengthStyle fine = style;
    fine.denominator = 64; // the finest that a rule shows
    fine.withUnit = true;
    if (!piecesOf(length, fine).rounded) {
        return words(formatLength(length, fine));
    }
    constexpr int digits = 4;
    return style.units == UnitSystem::Inches
               ? QString::number(length.toInches(), 'f', digits) + '"'
               : QString::number(length.toMillimetres(), 'f', digits) + " mm";
}

QString exactTip(Length length, const LengthStyle& style) {
    return piecesOf(length, settingStyle(length, style)).rounded
               ? QCoreApplication::translate("LengthWords", "exactly %1")
                     .arg(exactText(length, style))
               : QString();
}

} // namespace stavewright::ui
