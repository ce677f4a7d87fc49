#pragma once
// The job's log on one page: when, what, why; the latest first.

#include <QDialog>

namespace stavewright::ui {

class DocumentSession;

class LogPage : public QDialog {
    Q_OBJECT
  public:
    LogPage(const DocumentSession& session, QWidget* parent);
};

} // namespace stavewright::ui
