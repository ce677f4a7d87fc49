#pragma once
// The shop's saws, machines and single figures as cells to type into.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

[[nodiscard]] std::vector<EntryTitle> sawTitles();
/// Rows: the saw for boards, for ripping, for strips, for rough ripping.
inline constexpr std::size_t saws = 4;
[[nodiscard]] EntryCell sawCell(const DocumentSession& session, std::size_t saw, int column);

[[nodiscard]] std::vector<Fact> machineFacts(const DocumentSession& session);
[[nodiscard]] std::vector<Fact> practiceFacts(const DocumentSession& session);
[[nodiscard]] std::vector<Fact> offcutAndPriceFacts(const DocumentSession& session);

[[nodiscard]] inline Edit replacing(Shop shop) { return Edit{ReplaceShop{std::move(shop)}}; }

} // namespace stavewright::ui
