#pragma once
// The terms of the score: what each comes to now and before, its weight (typed into the table), and
// the points it costs. What got worse carries a sign and stands in bold.

#include <QTableWidget>

#include "core/document/Document.h"
#include "core/glueup/Scoring.h"

namespace stavewright::ui {

class TermTable : public QTableWidget {
    Q_OBJECT
  public:
    explicit TermTable(QWidget* parent = nullptr);

    void setScores(const glueup::Score& now, const glueup::Score& before, const JobInfo& info);
    [[nodiscard]] QSize sizeHint() const override;

  signals:
    void weightTyped(stavewright::GlueTerm term, int hundredths);
    void refused(const QString& sentence);

  private:
    void typed(QTableWidgetItem* item);

    glueup::Score m_now;
    JobInfo m_info;
    bool m_filling = false;
};

} // namespace stavewright::ui
