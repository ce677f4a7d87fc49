#pragma once
// Ends Cbc when the search is interrupted.

#include <coin/CbcEventHandler.hpp>

#include "core/cutting/Interrupt.h"

namespace stavewright::cutting {

class CbcWatch : public CbcEventHandler {
  public:
    explicit CbcWatch(const Interrupt& interrupt)
        : m_interrupt(&interrupt) {}
    CbcAction event(CbcEvent) override {
        return m_interrupt->isCalled() ? CbcEventHandler::stop : CbcEventHandler::noAction;
    }
    [[nodiscard]] CbcEventHandler* clone() const override { return new CbcWatch(*this); }

  private:
    const Interrupt* m_interrupt;
};

} // namespace stavewright::cutting
