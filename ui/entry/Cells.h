#pragma once
// The kinds of cells that the entry tables share. `take` turns what was read into the edit, or into
// the sentence why not.
//
//   return lengthCell(board.thinnest, style, [board](Length read) -> Result<Edit> { ... });

#include "core/units/LengthText.h"
#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

/// Shows the length as read off the tape; opens, and says in its tip, what it is to the last.
[[nodiscard]] EntryCell lengthCell(Length value, const LengthStyle& style,
                                   std::function<Result<Edit>(Length)> take);
/// The same without being typed into.
[[nodiscard]] EntryCell shownLength(Length value, const LengthStyle& style);
[[nodiscard]] EntryCell countCell(int value, int least, int most,
                                  std::function<Result<Edit>(int)> take);
[[nodiscard]] EntryCell choiceCell(int now, const QStringList& choices,
                                   std::function<Result<Edit>(int)> take);
[[nodiscard]] EntryCell textCell(const std::string& value,
                                 std::function<Result<Edit>(std::string)> take);

/// Facts one after another, each with its name, its tip and the name of its undo step.
class FactList {
  public:
    /// Undo steps are named "<owner>: <fact>".
    explicit FactList(QString owner)
        : m_owner(std::move(owner)) {}
    void add(const QString& name, const QString& tip, EntryCell cell);
    [[nodiscard]] std::vector<Fact> take() { return std::move(m_facts); }

  private:
    QString m_owner;
    std::vector<Fact> m_facts;
};

} // namespace stavewright::ui
