#pragma once
// What each stage takes: the five chains of the shop, walked from the finished piece back to rough.

#include "ui/entry/EntryModel.h"

namespace stavewright::ui {

struct ChainOfShop {
    const char* name; ///< of its table
    QString title;
    MillingChain Chains::*chain;
};
[[nodiscard]] std::vector<ChainOfShop> chainsOfShop();

[[nodiscard]] std::vector<EntryTitle> stageTitles();
[[nodiscard]] EntryCell stageCell(const DocumentSession& session, MillingChain Chains::*chain,
                                  std::size_t stage, int column);

} // namespace stavewright::ui
