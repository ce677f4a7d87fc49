#pragma once
// The place "Papers": the pages as they will print, a list of them at the side, and the two ways
// out: a PDF and the printer. Without a plan that passes the audit it says in one sentence what to
// do.

#include <QWidget>

#include "core/papers/PageModel.h"

class QBoxLayout;
class QComboBox;
class QLabel;
class QListWidget;
class QPushButton;
class QStackedWidget;
class QToolButton;

namespace stavewright::ui {

class Banner;
class DocumentSession;
class PageScroll;

class PapersView : public QWidget {
    Q_OBJECT
  public:
    explicit PapersView(DocumentSession& session, QWidget* parent = nullptr);

    [[nodiscard]] const std::vector<papers::Page>& pages() const;
    /// What is shown in place of pages; empty when there are pages.
    [[nodiscard]] QString hindrance() const;
    /// Writes the pages; a failure is shown as a sentence in the view.
    bool savePdf(const QString& path);
    [[nodiscard]] PageScroll& scroll() { return *m_scroll; }

  public slots:
    void choosePdf();
    void print();

  signals:
    void planWanted(); ///< there is nothing to print before there is a plan

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void buildBar(QBoxLayout& layout);
    void markStale();
    void rebuild();
    void fillList();
    void showZoomTools(bool shown);
    void showHindrance(const QString& sentence);
    [[nodiscard]] papers::PaperOptions options() const;

    DocumentSession& m_session;
    Banner* m_banner;
    QPushButton* m_save;
    QPushButton* m_print;
    QComboBox* m_paper;
    QLabel* m_zoom;
    QListWidget* m_list;
    PageScroll* m_scroll;
    QLabel* m_hindrance;
    QPushButton* m_planNow;
    QWidget* m_noPages;
    QStackedWidget* m_stack;
    bool m_stale = true;
    bool m_paperIsChosen = false; ///< otherwise it follows the job's unit
};

} // namespace stavewright::ui
