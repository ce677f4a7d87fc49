#pragma once
// What an edit changes outside of the document, undone and redone with it: wood that goes to the
// shop rack and comes from there. Where that cannot be done, the edit is left as it stands as well,
// and its step goes.

#include "core/base/Result.h"

namespace stavewright::ui {

class Companion {
  public:
    virtual ~Companion() = default;
    virtual Status takeBack() = 0;
    virtual Status makeAgain() = 0;
};

} // namespace stavewright::ui
