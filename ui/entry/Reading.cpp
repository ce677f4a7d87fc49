#include "ui/entry/Reading.h"

#include <QCoreApplication>

#include <algorithm>

#include "core/units/QuantityText.h"
#include "core/wood/Species.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("Reading", text); }

} // namespace

Error wrong(const QString& sentence) { return {ErrorCode::BadInput, sentence.toStdString(), {}}; }

Result<Length> readLength(const QString& typed, const LengthStyle& style) {
    if (typed.trimmed().isEmpty()) {
        return wrong(tr("A length is wanted here, such as 27 1/2 or 880 mm."));
    }
    return parseLength(typed.toStdString(), style.units);
}

Result<std::optional<Length>> readMaybe(const QString& typed, const LengthStyle& style) {
    if (typed.trimmed().isEmpty()) {
        return std::optional<Length>();
    }
    const Result<Length> length = readLength(typed, style);
    if (!length) {
        return length.error();
    }
    return std::optional(length.value());
}

Result<int> readCount(const QString& typed, int least, int most) {
    bool good = false;
    const int count = typed.trimmed().toInt(&good);
    if (!good || count < least || count > most) {
        return wrong(
            tr("“%1” is no count from %2 to %3.").arg(typed.trimmed()).arg(least).arg(most));
    }
    return count;
}

Result<Money> readMoney(const QString& typed) { return parseMoney(typed.toStdString()); }

Result<Quarter> readQuarter(const QString& typed) {
    QString text = typed.trimmed();
    if (text.endsWith("/4")) {
        text.chop(2);
    }
    bool good = false;
    const Quarter quarter{text.trimmed().toInt(&good)};
    if (!good ||
        std::find(tradeQuarters.begin(), tradeQuarters.end(), quarter) == tradeQuarters.end()) {
        return wrong(tr("“%1” is no rough thickness; it must be 4/4, 5/4, 6/4, 8/4, 10/4, 12/4 or "
                        "16/4.")
                         .arg(typed.trimmed()));
    }
    return quarter;
}

Result<std::string> readSpecies(const QString& typed) {
    const QString text = typed.trimmed().toLower();
    const Species* only = nullptr;
    int found = 0;
    for (const Species& species : allSpecies()) {
        const QString name = words(species.name).toLower();
        if (name == text || words(species.key) == text) {
            return std::string(species.key);
        }
        if (!text.isEmpty() && name.contains(text)) {
            only = &species;
            ++found;
        }
    }
    if (found == 1) {
        return std::string(only->key);
    }
    return wrong(
        found == 0
            ? tr("“%1” is not in the list of species; choose one of them.").arg(typed.trimmed())
            : tr("“%1” may be %2 species; type more of the name.").arg(text).arg(found));
}

Result<std::optional<std::int64_t>> readTenths(const QString& typed) {
    QString text = typed.trimmed();
    text.remove('%');
    text.replace(',', '.');
    if (text.trimmed().isEmpty()) {
        return std::optional<std::int64_t>();
    }
    bool good = false;
    const double value = text.toDouble(&good);
    if (!good || value < 0 || value > 200) {
        return wrong(
            tr("“%1” is no moisture content; it must be from 0 to 200 percent.").arg(typed));
    }
    return std::optional<std::int64_t>(qRound64(value * 10));
}

Result<int> readChoice(const QString& typed, const QStringList& choices) {
    const QString text = typed.trimmed();
    int found = -1;
    int count = 0;
    for (int i = 0; i < choices.size(); ++i) {
        if (choices[i].compare(text, Qt::CaseInsensitive) == 0) {
            return i;
        }
        if (!text.isEmpty() && choices[i].startsWith(text, Qt::CaseInsensitive)) {
            found = i;
            ++count;
        }
    }
    if (count == 1) {
        return found;
    }
    return wrong(tr("“%1” is not among %2.").arg(text, choices.join(", ")));
}

LengthStyle finest(LengthStyle style) {
    style.denominator = 64;
    return style;
}

QString lengthText(Length length, const LengthStyle& style) {
    return words(formatLength(length, style));
}

QString speciesText(const std::string& key) {
    const Species* species = findSpecies(key);
    return species != nullptr ? words(species->name) : words(key);
}

QStringList speciesNames() {
    QStringList names;
    for (const Species& species : allSpecies()) {
        names << words(species.name);
    }
    return names;
}

QString moneyText(Money amount) { return words(formatMoney(amount, "")); }

QString tenthsText(const std::optional<std::int64_t>& tenths) {
    return tenths ? tr("%1.%2 %").arg(*tenths / 10).arg(*tenths % 10) : QString();
}

QString lengthReading(const QString& typed, const LengthStyle& style) {
    const Result<Length> length = parseLength(typed.toStdString(), style.units);
    if (!length) {
        return {};
    }
    LengthStyle here = style;
    here.withUnit = true;
    LengthStyle there = here;
    there.units = style.units == UnitSystem::Inches ? UnitSystem::Millimetres : UnitSystem::Inches;
    return tr("%1 = %2").arg(lengthText(length.value(), here), lengthText(length.value(), there));
}

} // namespace stavewright::ui
