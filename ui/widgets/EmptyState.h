#pragma once
// What stands where nothing has been put in yet.

#include <QWidget>

namespace stavewright::ui {

/// One sentence, one button, one key.
class EmptyState : public QWidget {
    Q_OBJECT
  public:
    EmptyState(const QString& objectName, const QString& sentence, const QString& button,
               const QString& key, QWidget* parent = nullptr);
  signals:
    void begun();
};

} // namespace stavewright::ui
