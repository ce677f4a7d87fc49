// What the side panel says and offers about the shop's work on what is selected.

#include "core/hand/HandEdits.h"
#include "core/hand/PlanTree.h"
#include "core/layout/PieceState.h"
#include "core/layout/StateNames.h"
#include "core/midjob/MadeCuts.h"
#include "core/midjob/Standby.h"
#include "core/units/QuantityText.h"
#include "ui/layout/FactSheet.h"
#include "ui/layout/HandSteps.h"
#include "ui/layout/SelectionPanel.h"
#include "ui/midjob/ShopEvents.h"
#include "ui/session/CutLimits.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

/// "Crosscut at 32 1/8", "Second crosscut of T1-1 at 30"
QString cutWords(const Document& document, const hand::CutRef& cut, const QString& reading) {
    const auto place = cut.blank ? hand::placeOf(*document.plan, *cut.blank) : std::nullopt;
    if (place) {
        return QObject::tr("%1 at %2")
            .arg(words(labelOf(document, hand::blankAt(*document.plan, *place).purpose)), reading);
    }
    return (cut.strip ? QObject::tr("Rip at %1") : QObject::tr("Crosscut at %1")).arg(reading);
}

} // namespace

/// What was laid by hand, against the best plan that is known.
void SelectionPanel::choiceCost(const Plan& plan) {
    if (m_isPreview || plan.origin.source != Origin::Source::Hand || !m_shown.bestKnown) {
        return;
    }
    const PlanController::BestKnown& best = *m_shown.bestKnown;
    const JobInfo& info = m_session.document().info;
    if (!plan.unplaced.empty()) {
        m_sheet->fact(tr("By hand"), tr("%1 without a place; the best plan known places all for %2")
                                         .arg(plan.unplaced.size())
                                         .arg(words(formatMoney(best.cost, info.currency))));
        return;
    }
    const Money more = plan.totals.cost - best.cost;
    const BoardFeet lumber = plan.totals.lumberUsed - best.lumberUsed;
    if (more <= Money()) {
        m_sheet->fact(tr("By hand"), tr("no plan is known that costs less"), Sign::Tick);
        return;
    }
    const QString money = words(formatMoney(more, info.currency));
    m_sheet->fact(tr("By hand"),
                  lumber > BoardFeet()
                      ? tr("costs %1 more than the best plan known, with %2 of lumber more")
                            .arg(money, words(lumberText(lumber, info.units)))
                      : tr("costs %1 more than the best plan known, of no more lumber").arg(money));
}

void SelectionPanel::boardShop(const Board& board) {
    const Document& document = m_session.document();
    boardRules(board);
    asideLink(board);
    if (!document.plan) {
        return;
    }
    choiceCost(*document.plan);
    byHand();
    m_sheet->section(tr("In the shop"));
    cutsLeft(board);
    m_sheet->link(tr("A fresh end was taken off..."), Sign::None, [this] { m_shop.freshEnd(); });
    m_sheet->link(tr("A knot was found..."), Sign::None, [this] { m_shop.knotFound(); });
    m_sheet->link(tr("Warp was measured again..."), Sign::None, [this] { m_shop.warpMeasured(); });
    if (!board.setAside) {
        m_sheet->link(tr("Reject the board..."), Sign::None, [this] { m_shop.boardRejected(); });
    }
}

/// Everything the keys of the rack do, for those who do not know them yet.
void SelectionPanel::byHand() {
    const std::vector<HandStep> steps = handSteps(m_session.document(), m_session.selection());
    if (m_isPreview || steps.empty()) {
        return;
    }
    m_sheet->beginFold(tr("Move or lock it by hand"), tr("Move or lock it by hand"), m_handOpen,
                       [this](bool open) { m_handOpen = open; });
    for (const HandStep& step : steps) {
        m_sheet->link(tr("%1 (%2)").arg(step.text, step.keyText), Sign::None,
                      [this, key = step.key] { emit keyWanted(key); });
    }
    m_sheet->endFold();
}

void SelectionPanel::asideLink(const Board& board) {
    const bool isAside = board.setAside;
    m_sheet->link(isAside ? tr("Let plans cut it again")
                          : tr("Set it aside: nothing is cut from it"),
                  Sign::None, [this, id = board.id, isAside] { m_shop.setAside(id, !isAside); });
}

void SelectionPanel::boardRules(const Board& board) {
    const Document& document = m_session.document();
    m_sheet->section(tr("Kept for"));
    const std::vector<BoardRule>& rules = document.boardRules;
    for (std::size_t i = 0; i < rules.size(); ++i) {
        if (rules[i].board != board.id) {
            continue;
        }
        const Part* part = findPart(document, rules[i].part);
        const QString name = part != nullptr ? words(part->mark) : QString();
        const QString where =
            rules[i].along ? tr(" from %1 to %2")
                                 .arg(reading(rules[i].along->from), reading(rules[i].along->to))
                           : QString();
        m_sheet->link((rules[i].kind == BoardRule::Kind::KeptFor ? tr("Only %1%2: take that back")
                                                                 : tr("No %1%2: take that back"))
                          .arg(name, where),
                      Sign::None, [this, i] {
                          std::vector<BoardRule> left = m_session.document().boardRules;
                          left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
                          m_session.edit(tr("Take a board's rule back"),
                                         Edit{ReplaceBoardRules{std::move(left)}});
                      });
    }
    m_sheet->link(tr("Keep it for a part, or a part off it..."), Sign::None,
                  [this, id = board.id] { m_shop.keepBoard(id); });
}

void SelectionPanel::cutsLeft(const Board& board) {
    const Document& document = m_session.document();
    if (hand::layoutOf(*document.plan, board.id) == nullptr) {
        return;
    }
    const std::vector<hand::CutRef> cuts = hand::cutsOn(document, board.id);
    m_sheet->fact(tr("Cuts left"), QString::number(cuts.size()));
    if (cuts.empty()) {
        return;
    }
    CutLimits& limits = CutLimits::of(m_session);
    const hand::BoardLimits* known = limits.find(board.id);
    if (known == nullptr) {
        limits.want({board.id});
        m_sheet->sentence(tr("How far each may land off is being worked out..."));
    }
    std::optional<hand::CutKind> kind;
    for (const hand::CutRef& cut : cuts) {
        const std::optional<Length> mark = hand::markOf(document, board.id, cut);
        if (!mark) {
            continue;
        }
        if (kind != cut.kind()) {
            kind = cut.kind();
            m_sheet->sentence(*kind == hand::CutKind::Crosscut ? tr("Crosscuts, on the tape")
                              : *kind == hand::CutKind::Rip
                                  ? tr("Rips, from the straightened edge")
                                  : tr("Second crosscuts, on the tape along the strip"));
        }
        m_sheet->link(tr("%1 is made...").arg(cutWords(document, cut, reading(*mark))), Sign::None,
                      [this, id = board.id, cut] { m_shop.cutMade(id, cut); });
        for (const hand::CutWindow& window :
             known != nullptr ? known->cuts : std::vector<hand::CutWindow>()) {
            if (window.cut == cut) {
                m_sheet->sentence(words(hand::sentenceOf(document, window)));
            }
        }
    }
    if (known != nullptr) {
        m_sheet->sentence(tr("All other cuts on their marks. At the limit a part has no allowance "
                             "left: aim for the mark."));
        for (const std::string& standby : known->standbys) {
            m_sheet->sentence(words(standby));
        }
    }
    m_sheet->link(tr("All of them are made..."), Sign::None, [this] { m_shop.allCutsMade(); });
    m_sheet->beginFold(tr("Move a cut"), tr("Move a cut"), m_movesOpen,
                       [this](bool open) { m_movesOpen = open; });
    for (const hand::CutRef& cut : cuts) {
        if (cut.kind() == hand::CutKind::Second) {
            continue; // it moves with its blank
        }
        if (const std::optional<Length> mark = hand::markOf(document, board.id, cut)) {
            m_sheet->link(tr("%1...").arg(cutWords(document, cut, reading(*mark))), Sign::None,
                          [this, id = board.id, cut] { m_shop.moveCut(id, cut); });
        }
    }
    m_sheet->endFold();
}

void SelectionPanel::blankShop(BlankId id) {
    const Document& document = m_session.document();
    const auto place = document.plan ? hand::placeOf(*document.plan, id) : std::nullopt;
    if (!place) {
        return;
    }
    const Blank& blank = hand::blankAt(*document.plan, *place);
    const Section& section = hand::sectionAt(*document.plan, *place);
    const CutState is = stateOf(section, blank);
    m_sheet->section(tr("In the shop"));
    m_sheet->fact(tr("State"), words(briefOf(is)));
    if (blank.actual) {
        m_sheet->fact(tr("Cut to"), size(blank.actual->width(), blank.actual->length()));
    }
    for (const CutState state : midjob::statesFor(document, blank.purpose)) {
        if (state > is) {
            m_sheet->link(tr("It is %1").arg(words(nameOf(state))), Sign::None,
                          [this, id, state] { m_shop.stateReached(id, state); });
        }
    }
    m_sheet->link(tr("It was measured..."), Sign::None, [this, id] { m_shop.sizeMeasured(id); });
    m_sheet->link(tr("A knot was found in it..."), Sign::None, [this] { m_shop.knotFound(); });
    m_sheet->link(tr("It is spoiled..."), Sign::None, [this] { m_shop.spoiled(); });
    if (m_standby && m_standby->blank == id && m_standby->revision == m_session.revision()) {
        for (const QString& sentence : m_standby->sentences) {
            m_sheet->sentence(sentence);
        }
        if (m_standby->sentences.isEmpty()) {
            m_sheet->sentence(tr("No knot in it would spoil it by opening."), Sign::Tick);
        }
    } else {
        m_sheet->link(tr("What if a knot in it opens at the planer?"), Sign::None, [this, id] {
            AskedStandby asked{id, m_session.revision(), {}};
            for (const std::string& sentence :
                 midjob::standbysIfKnotsOpen(m_session.document(), id)) {
                asked.sentences << words(sentence);
            }
            m_standby = std::move(asked);
            refresh(m_shown);
        });
    }
    m_sheet->link(section.locked ? tr("Unlock its section") : tr("Lock its section"), Sign::None,
                  [this, section = section.id, locked = section.locked] {
                      m_shop.lockSection(section, !locked);
                  });
}

} // namespace stavewright::ui
