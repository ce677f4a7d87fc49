#pragma once
// Cbc as the search needs it: silent, limited in nodes, and ended when the search is interrupted.
//
//   OsiClpSolverInterface solver;
//   silence(solver);
//   CbcModel model(solver);
//   CbcWatch watch(interrupt);
//   limit(model, nodes, watch);

#include <coin/CbcEventHandler.hpp>
#include <coin/CbcModel.hpp>
#include <coin/OsiClpSolverInterface.hpp>

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

inline void silence(OsiClpSolverInterface& solver) {
    solver.messageHandler()->setLogLevel(0);
    solver.getModelPtr()->setLogLevel(0);
}

/// The model keeps a copy of the watch.
inline void limit(CbcModel& model, int nodes, CbcWatch& watch) {
    model.setLogLevel(0);
    model.messageHandler()->setLogLevel(0);
    model.solver()->messageHandler()->setLogLevel(0);
    model.passInEventHandler(&watch);
    model.setMaximumNodes(nodes);
    // Strong branching fails an assertion of OsiClp's on some of these; they are small.
    model.setNumberStrong(0);
}

} // namespace stavewright::cutting
