#pragma once
// The place "Papers": the pages as they will print, a list of them at the side, and the two ways
// out: a PDF and the printer. Without a plan that passes the audit it says in one sentence what to
// do.

#include <QWidget>

#include <functional>
#include <memory>

#include "core/papers/PageModel.h"

class QBoxLayout;
class QComboBox;
class QLabel;
class QListWidget;
class QPrinter;
class QPushButton;
class QStackedWidget;
class QToolButton;

namespace stavewright::ui {

class Banner;
class DocumentSession;
class PagePhotoRun;
class PageScroll;

class PapersView : public QWidget {
    Q_OBJECT
  public:
    explicit PapersView(DocumentSession& session, QWidget* parent = nullptr);

    [[nodiscard]] const std::vector<papers::Page>& pages() const;
    /// What is shown in place of pages; empty when there are pages.
    [[nodiscard]] QString hindrance() const;
    /// Writes the pages, as soon as their photographs are there; a failure is shown as a sentence
    /// in the view. False when nothing was or will be written.
    bool savePdf(const QString& path);
    /// Photographs are being made ready.
    [[nodiscard]] bool isMakingPhotos() const;
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
    void makePhotos();
    /// Now, or when the photographs are ready; false when it was done at once and failed.
    bool withPhotos(std::function<bool()> step);
    bool writeNow(const QString& path);
    void printNow(const std::shared_ptr<QPrinter>& printer, int first, int last);
    void fillList();
    void showLimits();
    [[nodiscard]] QString lackingLimits() const; ///< a sentence while they are worked out
    void showZoomTools(bool shown);
    void showHindrance(const QString& sentence);
    [[nodiscard]] papers::PaperOptions options() const;

    DocumentSession& m_session;
    Banner* m_banner;
    QPushButton* m_save;
    QPushButton* m_print;
    QComboBox* m_paper;
    QLabel* m_zoom;
    QLabel* m_limits; ///< how far the safe windows are worked out
    QListWidget* m_list;
    PageScroll* m_scroll;
    QLabel* m_hindrance;
    QPushButton* m_planNow;
    QWidget* m_noPages;
    QStackedWidget* m_stack;
    PagePhotoRun* m_photoRun;
    std::function<bool()> m_waiting; ///< what is done when the photographs are ready
    bool m_stale = true;
    bool m_paperIsChosen = false; ///< otherwise it follows the job's unit
};

} // namespace stavewright::ui
