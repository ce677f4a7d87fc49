#include "ui/papers/PapersView.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QDate>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QListWidget>
#include <QPageLayout>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QSettings>
#include <QSplitter>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QToolButton>

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/glueup/LaidPlace.h"
#include "core/papers/LimitSheets.h"
#include "ui/paint/PagePainter.h"
#include "ui/papers/PageColumn.h"
#include "ui/papers/PagePhotoRun.h"
#include "ui/papers/PageScroll.h"
#include "ui/session/CutLimits.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Banner.h"
#include "ui/widgets/Counted.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

const QString paperKey = QStringLiteral("papers/paper");

/// From `first` to before `end`; false when the printer does not begin.
bool printPages(QPrinter& printer, const std::vector<papers::Page>& pages, std::size_t first,
                std::size_t end, const PhotoOnPage& photos) {
    QPainter painter;
    for (std::size_t i = first; i < end; ++i) {
        // The printer's own paper; only the turn changes from page to page.
        printer.setPageOrientation(pages[i].width > pages[i].height ? QPageLayout::Landscape
                                                                    : QPageLayout::Portrait);
        if (i == first) {
            if (!painter.begin(&printer)) {
                return false;
            }
        } else {
            printer.newPage();
        }
        painter.save();
        const double scale = printer.resolution() / 25.4;
        painter.scale(scale, scale);
        paintPage(painter, pages[i], photos);
        painter.restore();
    }
    return true;
}

} // namespace

PapersView::PapersView(DocumentSession& session, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_banner(new Banner)
    , m_save(new QPushButton(tr("&Save as PDF...")))
    , m_print(new QPushButton(tr("&Print...")))
    , m_paper(new QComboBox)
    , m_zoom(new QLabel)
    , m_limits(new QLabel)
    , m_list(new QListWidget)
    , m_scroll(new PageScroll)
    , m_hindrance(new QLabel)
    , m_planNow(new QPushButton(tr("Plan  (F9)")))
    , m_noPages(new QWidget)
    , m_stack(new QStackedWidget)
    , m_photoRun(new PagePhotoRun(this)) {
    m_hindrance->setAlignment(Qt::AlignCenter);
    m_hindrance->setWordWrap(true);
    m_hindrance->setTextFormat(Qt::PlainText);
    m_hindrance->setMargin(24);
    m_list->setAccessibleName(tr("List of pages"));
    m_list->setMinimumWidth(120);
    m_list->setTextElideMode(Qt::ElideRight);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);

    auto* split = new QSplitter;
    split->addWidget(m_list);
    split->addWidget(m_scroll);
    split->setStretchFactor(1, 1);
    split->setSizes({210, 900});
    m_stack->addWidget(split);
    auto* column = new QVBoxLayout(m_noPages);
    m_planNow->setObjectName("papersPlanButton");
    column->addStretch(2);
    column->addWidget(m_hindrance);
    column->addWidget(m_planNow, 0, Qt::AlignHCenter);
    column->addStretch(3);
    m_stack->addWidget(m_noPages);
    connect(m_planNow, &QPushButton::clicked, this, &PapersView::planWanted);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    buildBar(*layout);
    layout->addWidget(m_banner);
    layout->addWidget(m_stack, 1);
    m_banner->dismiss();

    connect(m_save, &QPushButton::clicked, this, &PapersView::choosePdf);
    connect(m_print, &QPushButton::clicked, this, &PapersView::print);
    connect(m_list, &QListWidget::currentRowChanged, this, [this](int row) {
        if (row >= 0 && static_cast<std::size_t>(row) != m_scroll->pageInView()) {
            m_scroll->showPage(static_cast<std::size_t>(row));
        }
    });
    connect(m_scroll, &PageScroll::pageInViewChanged, this, [this](int page) {
        const QSignalBlocker blocker(m_list);
        m_list->setCurrentRow(page);
    });
    connect(m_scroll, &PageScroll::zoomChanged, this, [this](double zoom) {
        m_zoom->setText(tr("%1 %").arg(static_cast<int>(std::lround(zoom * 100))));
    });
    connect(m_photoRun, &PagePhotoRun::finished, this, [this] {
        m_scroll->column().setPhotos(m_photoRun->photos().onPage());
        if (const auto waiting = std::exchange(m_waiting, {})) {
            waiting();
        }
    });
    connect(&m_session, &DocumentSession::changed, this, &PapersView::markStale);
    connect(&m_session, &DocumentSession::adopted, this, [this] {
        m_banner->dismiss(); // it spoke of another job
        markStale();
    });
    connect(&m_session, &DocumentSession::auditChanged, this, &PapersView::markStale);
    CutLimits& limits = CutLimits::of(m_session);
    connect(&limits, &CutLimits::ready, this, &PapersView::showLimits);
    connect(&limits, &CutLimits::ended, this, &PapersView::markStale);
}

void PapersView::buildBar(QBoxLayout& layout) {
    const auto tool = [this](const QString& text, const QString& tip, auto action) {
        auto* button = new QToolButton;
        button->setText(text);
        button->setToolTip(tip);
        button->setAccessibleName(tip);
        button->setAutoRaise(true);
        connect(button, &QToolButton::clicked, this, action);
        return button;
    };
    m_paper->addItem(tr("Letter"), static_cast<int>(papers::Paper::Letter));
    m_paper->addItem(tr("A4"), static_cast<int>(papers::Paper::A4));
    m_paper->setToolTip(tr("Paper"));
    m_paper->setAccessibleName(tr("Paper"));
    const QSettings settings;
    if (settings.contains(paperKey)) {
        m_paperIsChosen = true;
        m_paper->setCurrentIndex(m_paper->findData(settings.value(paperKey).toInt()));
    }
    connect(m_paper, &QComboBox::activated, this, [this] {
        m_paperIsChosen = true;
        QSettings().setValue(paperKey, m_paper->currentData());
        markStale();
    });

    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(12, 8, 12, 8);
    bar->setSpacing(8);
    bar->addWidget(m_save);
    bar->addWidget(m_print);
    bar->addWidget(m_paper);
    m_limits->setObjectName("limitsWords");
    bar->addSpacing(8);
    bar->addWidget(m_limits);
    bar->addStretch(1);
    bar->addWidget(tool(QStringLiteral("−"), tr("Smaller (Ctrl and wheel)"),
                        [this] { m_scroll->zoomBy(1 / 1.25); }));
    bar->addWidget(m_zoom);
    bar->addWidget(tool(QStringLiteral("+"), tr("Larger (Ctrl and wheel)"),
                        [this] { m_scroll->zoomBy(1.25); }));
    bar->addWidget(tool(tr("Fit width"), tr("Fit the pages to the width of the view"),
                        [this] { m_scroll->fitWidth(); }));
    layout.addLayout(bar);
}

const std::vector<papers::Page>& PapersView::pages() const { return m_scroll->column().pages(); }

QString PapersView::hindrance() const {
    return m_stack->currentWidget() == m_noPages ? m_hindrance->text() : QString();
}

void PapersView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) {
        rebuild();
    }
}

void PapersView::markStale() {
    m_stale = true;
    if (isVisible()) {
        rebuild();
    }
}

papers::PaperOptions PapersView::options() const {
    papers::PaperOptions options;
    options.paper = static_cast<papers::Paper>(m_paper->currentData().toInt());
    options.date = QDate::currentDate().toString(Qt::ISODate).toStdString();
    return options;
}

void PapersView::rebuild() {
    m_stale = false;
    if (!m_paperIsChosen) {
        const bool inches = m_session.document().info.units == UnitSystem::Inches;
        m_paper->setCurrentIndex(m_paper->findData(
            static_cast<int>(inches ? papers::Paper::Letter : papers::Paper::A4)));
    }
    if (!m_session.document().plan) {
        const Document& job = m_session.document();
        showHindrance(
            job.boards.empty() || job.parts.empty()
                ? tr("There is nothing to print yet. Put in boards and parts, then plan.")
                : tr("There is no plan to print yet. Press Plan, and the sheets appear here."));
        return;
    }
    Result<std::vector<papers::Page>> made = papers::makePapers(
        m_session.document(), options(), FontMeasure(), CutLimits::of(m_session).all());
    if (!made) {
        showHindrance(words(made.error().message) + QStringLiteral("\n") +
                      tr("Plan again, or mend what the audit names; the sheets then appear here."));
        return;
    }
    m_scroll->column().setPages(std::move(made).value());
    makePhotos();
    m_stack->setCurrentIndex(0);
    m_scroll->pagesChanged();
    showZoomTools(true);
    m_save->setEnabled(true);
    m_print->setEnabled(true);
    fillList();
    std::vector<BoardId> boards;
    for (const BoardLayout& layout : m_session.document().plan->boards) {
        boards.push_back(layout.board);
    }
    CutLimits::of(m_session).want(boards);
    showLimits();
}

/// The sheets are there at once; how far each cut may land off comes when it is worked out.
void PapersView::showLimits() {
    const CutLimits& limits = CutLimits::of(m_session);
    const std::optional<Plan>& plan = m_session.document().plan;
    m_limits->setText(limits.isWorking() && plan
                          ? tr("Safe windows of the cuts: %1 of %2 boards...")
                                .arg(limits.known())
                                .arg(plan->boards.size())
                          : QString());
}

QString PapersView::lackingLimits() const {
    const CutLimits& limits = CutLimits::of(m_session);
    return limits.isWorking()
               ? tr(" Printed before all safe windows were worked out: sheets without "
                    "them say nothing of how far a cut may land off.")
               : QString();
}

void PapersView::makePhotos() {
    const Document& job = m_session.document();
    const std::vector<Board> boards = glueup::withLaidOut(job.boards, job.glueUp.laidOut);
    if (m_photoRun->photos().hasAllOf(boards, pages())) {
        m_photoRun->discard();
        m_scroll->column().setPhotos(m_photoRun->photos().onPage());
        if (const auto waiting = std::exchange(m_waiting, {})) {
            waiting();
        }
        return;
    }
    // Drawn figures stand in their places until then.
    m_photoRun->start(boards, pages());
}

bool PapersView::isMakingPhotos() const { return m_photoRun->isRunning(); }

bool PapersView::withPhotos(std::function<bool()> step) {
    if (!m_photoRun->isRunning()) {
        return step();
    }
    m_banner->showMessage(Sign::Triangle,
                          tr("The photographs are being made ready; the pages follow by "
                             "themselves."));
    m_waiting = std::move(step);
    return true;
}

void PapersView::fillList() {
    const QSignalBlocker blocker(m_list);
    m_list->clear();
    int number = 0;
    for (const papers::Page& page : pages()) {
        m_list->addItem(tr("%1  %2").arg(++number).arg(words(page.title)));
        m_list->item(number - 1)->setToolTip(words(page.title));
    }
    m_list->setCurrentRow(static_cast<int>(m_scroll->pageInView()));
}

void PapersView::showZoomTools(bool shown) {
    m_zoom->setVisible(shown);
    for (QToolButton* button : findChildren<QToolButton*>()) {
        button->setVisible(shown);
    }
}

void PapersView::showHindrance(const QString& sentence) {
    m_photoRun->discard();
    m_waiting = {}; // there is nothing to write any more
    m_scroll->column().setPages({});
    m_list->clear();
    m_hindrance->setText(sentence);
    m_stack->setCurrentWidget(m_noPages);
    m_planNow->setVisible(!m_session.document().boards.empty() &&
                          !m_session.document().parts.empty());
    showZoomTools(false);
    m_save->setEnabled(false);
    m_print->setEnabled(false);
    m_limits->clear(); // of sheets that are not shown
}

bool PapersView::savePdf(const QString& path) {
    return withPhotos([this, path] { return writeNow(path); });
}

bool PapersView::writeNow(const QString& path) {
    const Status written = writePdf(pages(), path, words(m_session.document().info.title),
                                    m_photoRun->photos().onPage());
    if (!written) {
        m_banner->showMessage(Sign::Cross, words(describe(written.error())));
        return false;
    }
    m_banner->showMessage(Sign::Tick,
                          tr("Wrote %1.").arg(QFileInfo(path).fileName()) + lackingLimits());
    return true;
}

void PapersView::choosePdf() {
    if (pages().empty()) {
        return;
    }
    const QFileInfo job(m_session.path());
    const QString suggested =
        m_session.path().isEmpty()
            ? QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation) + "/" +
                  m_session.nameForFiles() + ".pdf"
            : job.path() + "/" + job.completeBaseName() + ".pdf";
    const QString path = QFileDialog::getSaveFileName(this, tr("Save the papers as PDF"), suggested,
                                                      tr("PDF (*.pdf)"));
    if (!path.isEmpty()) {
        savePdf(path);
    }
}

void PapersView::print() {
    if (pages().empty()) {
        return;
    }
    const auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    printer->setFullPage(true); // the pages carry their own margins
    printer->setDocName(words(m_session.document().info.title));
    const bool a4 = options().paper == papers::Paper::A4;
    printer->setPageSize(QPageSize(a4 ? QPageSize::A4 : QPageSize::Letter));
    const int count = static_cast<int>(pages().size());
    QPrintDialog dialog(printer.get(), this);
    dialog.setOption(QAbstractPrintDialog::PrintPageRange);
    dialog.setOption(QAbstractPrintDialog::PrintCurrentPage);
    dialog.setMinMax(1, count);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    int first = 1;
    int last = count;
    if (printer->printRange() == QPrinter::CurrentPage) {
        first = last = static_cast<int>(m_scroll->pageInView()) + 1;
    } else if (printer->printRange() == QPrinter::PageRange && printer->fromPage() > 0) {
        first = std::clamp(printer->fromPage(), 1, count);
        last = std::clamp(printer->toPage(), first, count);
    }
    withPhotos([this, printer, first, last] {
        printNow(printer, first, last);
        return true;
    });
}

void PapersView::printNow(const std::shared_ptr<QPrinter>& printer, int first, int last) {
    last = std::min(last, static_cast<int>(pages().size()));
    first = std::min(first, last);
    if (first < 1) {
        return; // the plan went away meanwhile
    }
    if (printPages(*printer, pages(), static_cast<std::size_t>(first - 1),
                   static_cast<std::size_t>(last), m_photoRun->photos().onPage())) {
        const QString sent = counted(last - first + 1, tr("page"), tr("pages"));
        const QString file = printer->outputFileName(); // the dialog can print to a file as well
        m_banner->showMessage(Sign::Tick, (file.isEmpty() ? tr("Sent %1 to the printer.").arg(sent)
                                                          : tr("Wrote %1 to %2.").arg(sent, file)) +
                                              lackingLimits());
    } else {
        m_banner->showMessage(Sign::Cross,
                              tr("The printer \"%1\" does not take the pages; choose another, or "
                                 "save them as PDF.")
                                  .arg(printer->printerName()));
    }
}

} // namespace stavewright::ui
