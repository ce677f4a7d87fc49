#pragma once
// Typed texts as values, with the sentence why not. Lengths by the project's own reader; words by
// name, by a unique beginning, or by a key letter.
//
//   const Result<Length> length = readLength(typed, session.lengthStyle());

#include <QString>
#include <QStringList>

#include <optional>

#include "core/document/Document.h"

namespace stavewright::ui {

[[nodiscard]] Error wrong(const QString& sentence);

[[nodiscard]] Result<Length> readLength(const QString& typed, const LengthStyle& style);
/// An empty text is "none".
[[nodiscard]] Result<std::optional<Length>> readMaybe(const QString& typed,
                                                      const LengthStyle& style);
[[nodiscard]] Result<int> readCount(const QString& typed, int least, int most);
[[nodiscard]] Result<Money> readMoney(const QString& typed);
/// "8/4", or the bare 8.
[[nodiscard]] Result<Quarter> readQuarter(const QString& typed);
/// The key of the species table; typed by name, by key or by a unique part of the name.
[[nodiscard]] Result<std::string> readSpecies(const QString& typed);
/// "7.5" percent in tenths; empty is "not measured".
[[nodiscard]] Result<std::optional<std::int64_t>> readTenths(const QString& typed);
/// The place of the choice that is meant: the whole of it, or a beginning that only one has.
[[nodiscard]] Result<int> readChoice(const QString& typed, const QStringList& choices);

/// Down to 1/64 in, for allowances and kerfs, which coarser fractions would round.
[[nodiscard]] LengthStyle finest(LengthStyle style);

[[nodiscard]] QString lengthText(Length length, const LengthStyle& style);
[[nodiscard]] QString speciesText(const std::string& key);
[[nodiscard]] QStringList speciesNames();
[[nodiscard]] QString moneyText(Money amount);
[[nodiscard]] QString tenthsText(const std::optional<std::int64_t>& tenths);

/// "27 1/2 in = 698.5 mm", or nothing when it cannot be read.
[[nodiscard]] QString lengthReading(const QString& typed, const LengthStyle& style);

} // namespace stavewright::ui
