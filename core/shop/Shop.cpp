#include "core/shop/Shop.h"

#include <algorithm>

namespace stavewright {

const RuleSet* findRuleSet(const Shop& shop, RuleSetId id) {
    const auto found = std::find_if(shop.ruleSets.begin(), shop.ruleSets.end(),
                                    [id](const RuleSet& rules) { return rules.id == id; });
    return found == shop.ruleSets.end() ? nullptr : &*found;
}

} // namespace stavewright
