#pragma once
// What the maker reports from the shop: each command opens its few fields, shows what it comes to
// and takes it as one undo step.

#include <QObject>

#include "core/hand/SafeWindow.h"
#include "core/midjob/ShopEvent.h"
#include "ui/session/DocumentSession.h"

class QWidget;

namespace stavewright::ui {

class ShopDialog;

class ShopEvents : public QObject {
    Q_OBJECT
  public:
    ShopEvents(DocumentSession& session, QWidget* window);

    void cutMade(BoardId board, const hand::CutRef& cut);
    void moveCut(BoardId board, const hand::CutRef& cut); ///< before it is made
    void keepBoard(BoardId board);                        ///< for a part, or a part off it
    void setAside(BoardId board, bool aside);             ///< or let plans cut it again
    void lockSection(SectionId section, bool locked);
    /// The others work on what is selected; where nothing fits they say what to select.
    void nextCutMade();
    void allCutsMade();
    void freshEnd();
    void knotFound();
    void spoiled();
    void sizeMeasured(BlankId blank);
    void boardRejected();
    void warpMeasured();
    void stateReached(BlankId blank, CutState state);
    void nextState(); ///< of the selected blank
    void showLog();

  signals:
    /// Something was taken; planning the rest is worth it where a piece moved or lacks its place.
    void told(const QString& sentence, const QStringList& remedies, bool isWorthPlanning);
    void refused(const QString& sentence);

  private:
    ShopDialog* dialog(const QString& title, const QString& step);
    void take(const QString& step, const Edit& edit, const QString& sentence,
              const QStringList& remedies);
    [[nodiscard]] const Board* board();   ///< selected, or that of the selected blank
    [[nodiscard]] const Board* planned(); ///< the same, where there is a plan; else says so
    /// A round length to begin with, in the job's units.
    [[nodiscard]] Length inUnits(Length inInches, Length inMillimetres) const;

    DocumentSession& m_session;
    QWidget* m_window;
};

} // namespace stavewright::ui
