#include "ui/entry/Cells.h"

#include "ui/entry/Reading.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

EntryCell shownLength(Length value, const LengthStyle& style) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    cell.text = tapeText(value, style);
    cell.tip = exactTip(value, style);
    if (!cell.tip.isEmpty()) {
        cell.opensWith = lengthText(value, finest(style));
    }
    return cell;
}

EntryCell lengthCell(Length value, const LengthStyle& style,
                     std::function<Result<Edit>(Length)> take) {
    EntryCell cell = shownLength(value, style);
    cell.reading = [style](const QString& typed) { return lengthReading(typed, style); };
    cell.propose = [style, take = std::move(take)](const QString& typed) -> Result<Edit> {
        const Result<Length> read = readLength(typed, style);
        if (!read) {
            return read.error();
        }
        return take(read.value());
    };
    return cell;
}

EntryCell countCell(int value, int least, int most, std::function<Result<Edit>(int)> take) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    cell.text = QString::number(value);
    cell.propose = [least, most, take = std::move(take)](const QString& typed) -> Result<Edit> {
        const Result<int> read = readCount(typed, least, most);
        if (!read) {
            return read.error();
        }
        return take(read.value());
    };
    return cell;
}

EntryCell choiceCell(int now, const QStringList& choices, std::function<Result<Edit>(int)> take) {
    EntryCell cell;
    cell.text = now >= 0 && now < choices.size() ? choices[now] : QString("?");
    cell.choices = choices;
    cell.propose = [choices, take = std::move(take)](const QString& typed) -> Result<Edit> {
        const Result<int> read = readChoice(typed, choices);
        if (!read) {
            return read.error();
        }
        return take(read.value());
    };
    return cell;
}

EntryCell textCell(const std::string& value, std::function<Result<Edit>(std::string)> take) {
    EntryCell cell;
    cell.text = words(value);
    cell.propose = [take = std::move(take)](const QString& typed) -> Result<Edit> {
        return take(typed.trimmed().toStdString());
    };
    return cell;
}

void FactList::add(const QString& name, const QString& tip, EntryCell cell) {
    cell.tip = tip.isEmpty() || cell.tip.isEmpty() ? tip + cell.tip : tip + "\n" + cell.tip;
    cell.step = m_owner + ": " + name.toLower();
    m_facts.push_back({name, std::move(cell)});
}

} // namespace stavewright::ui
