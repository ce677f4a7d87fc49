#include "ui/lumber/PhotoDesk.h"

#include <QBuffer>
#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QMimeData>
#include <QSplitter>
#include <QToolButton>
#include <QUrl>

#include <algorithm>

#include "ui/entry/Cells.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/photo/FaceWork.h"
#include "ui/photo/PhotoFile.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

using Of = photo::MarkResidual::Of;

PhotoDesk::PhotoDesk(DocumentSession& session, std::function<const Board*()> board, QWidget* parent)
    : QWidget(parent)
    , m_session(session)
    , m_board(std::move(board))
    , m_list(new QComboBox(this))
    , m_face(new QToolButton(this))
    , m_bar(new QWidget(this))
    , m_canvas(new PhotoCanvas(this))
    , m_words(new FractionLabel({}, this)) {
    setObjectName("photoDesk");
    m_worker.setMaxThreadCount(1);
    makeBar();
    makeTables();
    m_marks->setMinimumWidth(220);
    m_facts->setMinimumWidth(170);
    auto* tables = new QSplitter(Qt::Horizontal, this);
    tables->setChildrenCollapsible(false);
    tables->addWidget(m_marks);
    tables->addWidget(m_facts);
    tables->setSizes({420, 240});
    auto* lower = new QWidget(this);
    auto* lowerColumn = new QVBoxLayout(lower);
    lowerColumn->setContentsMargins(0, 0, 0, 0);
    lowerColumn->setSpacing(0);
    m_words->setObjectName("photoWords");
    m_words->setWrapped(true);
    m_words->setContentsMargins(8, 4, 8, 4);
    lowerColumn->addWidget(m_words);
    lowerColumn->addWidget(tables, 1);
    auto* split = new QSplitter(Qt::Vertical, this);
    split->setChildrenCollapsible(false);
    split->addWidget(m_canvas);
    split->addWidget(lower);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 1);
    split->setSizes({430, 210});
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_bar);
    layout->addWidget(split, 1);
    connect(m_canvas, &PhotoCanvas::changed, this, &PhotoDesk::takeMarks);
    connect(m_canvas, &PhotoCanvas::leaveWanted, this, &PhotoDesk::leaveWanted);
    connect(m_canvas, &PhotoCanvas::pickedChanged, this, [this] {
        const BoardPhoto* shown = photo();
        int row = -1;
        if (shown != nullptr && m_canvas->picked()) {
            const std::vector<PhotoMark> marks = marksOf(shown->controls);
            const auto found = std::find(marks.begin(), marks.end(), *m_canvas->picked());
            row = found == marks.end() ? -1 : static_cast<int>(found - marks.begin());
        }
        m_marks->showRow(row);
    });
    connect(m_canvas, &PhotoCanvas::readingWanted, this, [this] {
        const int row = m_marks->currentIndex().row();
        if (row >= 0) {
            m_marks->setFocus();
            m_marks->openRow(row, 1);
        }
    });
    connect(m_marks, &EntryView::rowChosen, this, [this](int row) {
        if (const BoardPhoto* shown = photo()) {
            const std::vector<PhotoMark> marks = marksOf(shown->controls);
            if (row >= 0 && static_cast<std::size_t>(row) < marks.size()) {
                m_canvas->setPicked(marks[static_cast<std::size_t>(row)]);
            }
        }
    });
    connect(m_marks, &EntryView::entered, m_canvas,
            [this] { m_canvas->setFocus(); }); // a reading is done: the next mark
    connect(m_canvas, &PhotoCanvas::toolChanged, this, [this] {
        for (std::size_t i = 0; i < m_tools.size(); ++i) {
            m_tools[i]->setChecked(static_cast<int>(m_canvas->tool()) == static_cast<int>(i));
        }
    });
    refresh();
}

PhotoDesk::~PhotoDesk() {
    m_stop.request_stop();
    m_worker.clear();
    m_worker.waitForDone();
}

void PhotoDesk::makeBar() {
    m_bar->setObjectName("photoBar");
    auto* column = new QVBoxLayout(m_bar);
    column->setContentsMargins(8, 4, 8, 4);
    column->setSpacing(2);
    auto* files = new QHBoxLayout;
    auto* tools = new QHBoxLayout;
    files->setSpacing(4);
    tools->setSpacing(2);
    const auto button = [this](const char* name, const QString& text, const QString& tip) {
        auto* made = new QToolButton(m_bar);
        made->setObjectName(name);
        made->setText(text);
        made->setToolTip(tip);
        made->setAutoRaise(true);
        return made;
    };
    auto* back = button("photoBack", tr("Back"), tr("To the drawing of the board (Esc)"));
    m_list->setObjectName("photoList");
    m_list->setAccessibleName(tr("Photographs of the board"));
    m_list->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_list->setMinimumContentsLength(8);
    auto* add = button("photoAdd", tr("Add..."),
                       tr("Ctrl+Shift+I; files can also be dropped or pasted here"));
    m_face->setObjectName("photoFace");
    m_face->setAutoRaise(true);
    m_face->setToolTip(tr("The face that the photograph shows; press to change it"));
    auto* remove = button("photoRemove", tr("Remove"),
                          tr("Takes the photograph off the board; Ctrl+Z brings it back"));
    files->addWidget(back);
    files->addWidget(m_list, 1);
    files->addWidget(m_face);
    files->addWidget(add);
    files->addWidget(remove);
    const struct {
        const char* name;
        QString text;
        QString tip;
    } kinds[] = {
        {"photoPick", tr("Pick"),
         tr("Drag marks, or pick them with Tab and nudge with the arrows. 1 to 4: the corners")},
        {"photoTape", tr("Tape"), tr("T: a place on the tape; then type what it reads")},
        {"photoNear", tr("Near edge"), tr("N: a place on the near edge of the board")},
        {"photoFar", tr("Far edge"), tr("F: a place on the far edge of the board")}};
    for (std::size_t i = 0; i < 4; ++i) {
        QToolButton* tool = button(kinds[i].name, kinds[i].text, kinds[i].tip);
        tool->setCheckable(true);
        tool->setChecked(i == 0);
        tool->setFocusPolicy(Qt::NoFocus);
        connect(tool, &QToolButton::clicked, this, [this, i] {
            m_canvas->setTool(static_cast<PhotoCanvas::Tool>(i));
            m_canvas->setFocus();
        });
        m_tools.push_back(tool);
        tools->addWidget(tool);
    }
    tools->addStretch(1);
    column->addLayout(files);
    column->addLayout(tools);
    connect(back, &QToolButton::clicked, this, &PhotoDesk::leaveWanted);
    connect(add, &QToolButton::clicked, this, [this] {
        const BoardPhoto* shown = photo();
        addPhotos(shown != nullptr ? shown->face : BoardFace::A);
    });
    connect(remove, &QToolButton::clicked, this, &PhotoDesk::removeShown);
    connect(m_face, &QToolButton::clicked, this, [this] {
        const Board* board = m_board();
        const BoardPhoto* shown = photo();
        if (board != nullptr && shown != nullptr) {
            const BoardPhoto turned = asOfOtherFace(*shown);
            m_session.edit(
                tr("Photograph shows face %1").arg(turned.face == BoardFace::A ? "A" : "B"),
                replacingPhoto(*board, turned));
        }
    });
    connect(m_list, &QComboBox::activated, this, [this](int row) {
        const Board* board = m_board();
        if (board != nullptr && row >= 0 && static_cast<std::size_t>(row) < board->photos.size()) {
            showPhoto(board->photos[static_cast<std::size_t>(row)].id);
            m_canvas->setFocus();
        }
    });
}

void PhotoDesk::makeTables() {
    m_markModel = new EntryModel(
        m_session,
        {{tr("Mark"), tr("Corners 1 to 4, readings of the tape, places on the edges")},
         {tr("Reads"), tr("What the tape says there, from the datum end")},
         {tr("Off along"), tr("How far the mark lies from where all marks together put it")},
         {tr("Off across"), tr("How far the mark lies from where all marks together put it")}},
        [this] { return photo() != nullptr ? marksOf(photo()->controls).size() : 0; },
        [this](int row, int column) {
            const BoardPhoto shown = *photo();
            const PhotoMark mark = marksOf(shown.controls)[static_cast<std::size_t>(row)];
            const LengthStyle style = m_session.lengthStyle();
            EntryCell cell;
            if (column == 0) {
                cell.text = nameOf(shown.controls, mark);
            } else if (column == 1 && mark.of == Of::Tape) {
                const Board board = *m_board();
                cell = lengthCell(shown.controls.tape[mark.index].reading, style,
                                  [board, shown, mark](Length typed) -> Result<Edit> {
                                      BoardPhoto changed = shown;
                                      changed.controls.tape[mark.index].reading = typed;
                                      return replacingPhoto(board, changed);
                                  });
                cell.step = tr("Tape reading in a photograph");
            } else if (column > 1 && m_fit &&
                       static_cast<std::size_t>(row) < m_fit->residuals.size()) {
                const photo::MarkResidual& off = m_fit->residuals[static_cast<std::size_t>(row)];
                const bool says = column == 2 ? mark.of != Of::Edge : mark.of != Of::Tape;
                if (says && off.overruled && column == 2) {
                    cell.text = tr("tape decides");
                } else if (says) {
                    cell.text = readingText(column == 2 ? off.along : off.across,
                                            {style.units, 64, style.withUnit});
                    cell.kind = EntryCell::Kind::Number;
                }
            }
            return cell;
        },
        this);
    m_marks = new EntryView("photoMarks", tr("Marks in the photograph"), m_markModel, this);
    m_factModel = new FactModel(
        m_session,
        [this] {
            std::vector<Fact> facts;
            const BoardPhoto* shown = photo();
            const Board* now = m_board();
            if (shown == nullptr || now == nullptr) {
                return facts;
            }
            FactList list(tr("Photograph"));
            const auto add = [&](const QString& name, const QString& tip,
                                 Length photo::BoardSize::*figure) {
                list.add(name, tip,
                         lengthCell(shown->size.*figure, m_session.lengthStyle(),
                                    [board = *now, changed = *shown,
                                     figure](Length typed) -> Result<Edit> {
                                        BoardPhoto measured = changed;
                                        measured.size.*figure = typed;
                                        return replacingPhoto(board, measured);
                                    }));
            };
            add(tr("Length"), tr("Between the marked ends, as measured with the tape"),
                &photo::BoardSize::length);
            add(tr("Width, datum end"), tr("Between the marked corners of the datum end"),
                &photo::BoardSize::widthAtDatum);
            add(tr("Width, far end"), tr("Between the marked corners of the far end"),
                &photo::BoardSize::widthAtFar);
            return list.take();
        },
        this);
    m_facts = new EntryView("photoFacts", tr("The board as it was measured"), m_factModel, this);
    m_facts->showAsFacts();
}

// ---- photographs in ----------------------------------------------------------------------------

void PhotoDesk::addPhotos(BoardFace face) {
    const QStringList paths = QFileDialog::getOpenFileNames(
        this, tr("Photographs of face %1").arg(face == BoardFace::A ? "A" : "B"), {},
        tr("Photographs (*.jpg *.jpeg *.png *.tif *.tiff *.webp *.heic *.heif);;All files (*)"));
    addFiles(paths, face);
}

void PhotoDesk::addFiles(const QStringList& paths, BoardFace face) {
    std::vector<Source> sources;
    for (const QString& path : paths) {
        sources.push_back({QFileInfo(path).fileName(), path, {}, {}});
    }
    read(std::move(sources), face);
}

void PhotoDesk::addPicture(const QImage& picture, BoardFace face) {
    read({{tr("pasted picture"), {}, {}, picture}}, face);
}

bool PhotoDesk::holdsPhotos(const QMimeData& given) {
    static const QStringList endings = {"jpg",  "jpeg", "png",  "tif",
                                        "tiff", "webp", "heic", "heif"};
    const QList<QUrl> urls = given.urls();
    return given.hasImage() || std::any_of(urls.begin(), urls.end(), [](const QUrl& url) {
               return url.isLocalFile() &&
                      endings.contains(QFileInfo(url.toLocalFile()).suffix().toLower());
           });
}

void PhotoDesk::addFrom(const QMimeData& given, BoardFace face) {
    QStringList paths;
    for (const QUrl& url : given.urls()) {
        if (url.isLocalFile()) {
            paths << url.toLocalFile();
        }
    }
    if (!paths.isEmpty()) {
        addFiles(paths, face);
    } else if (given.hasImage()) {
        addPicture(qvariant_cast<QImage>(given.imageData()), face);
    }
}

void PhotoDesk::read(std::vector<Source> sources, BoardFace face) {
    const Board* board = m_board();
    if (sources.empty() || board == nullptr) {
        return;
    }
    ++m_reading;
    say();
    m_worker.start([this, sources = std::move(sources), face, id = board->id,
                    size = measuredSize(*board), stop = m_stop.get_token()] {
        std::vector<BoardPhoto> photos;
        QStringList refusals;
        for (const Source& source : sources) {
            if (stop.stop_requested()) {
                return;
            }
            QByteArray bytes = source.bytes;
            if (!source.path.isEmpty()) {
                const Result<QByteArray> file = readPhotoFile(source.path);
                if (!file) {
                    refusals << source.name + ": " + QString::fromStdString(file.error().message);
                    continue;
                }
                bytes = file.value();
            } else if (!source.picture.isNull()) {
                QBuffer buffer(&bytes);
                buffer.open(QIODevice::WriteOnly);
                source.picture.save(&buffer, "png");
            }
            Result<BoardPhoto> photo = photoFromFile(bytes, source.name, face, size);
            if (photo) {
                photos.push_back(std::move(photo).value());
            } else {
                refusals << QString::fromStdString(describe(photo.error()));
            }
        }
        // The destructor waits for this thread, so the object is there to be told.
        QMetaObject::invokeMethod(
            this, [this, id, photos = std::move(photos), refusals] { take(id, photos, refusals); },
            Qt::QueuedConnection);
    });
}

void PhotoDesk::take(BoardId id, std::vector<BoardPhoto> photos, QStringList refusals) {
    --m_reading;
    const Document& document = m_session.document();
    const Board* board = findBoard(document, id);
    if (board != nullptr && !photos.empty()) {
        const int count = static_cast<int>(photos.size());
        // A second photograph of a face shows a stretch: it is straightened by the tape, and
        // corners that were only guessed would contradict it.
        for (std::size_t i = 0; i < photos.size(); ++i) {
            const bool another = i > 0 || std::any_of(board->photos.begin(), board->photos.end(),
                                                      [&](const BoardPhoto& old) {
                                                          return old.face == photos[i].face;
                                                      });
            if (another || count > 1) {
                photos[i].controls.corners.clear();
            }
        }
        const PhotoId first{document.nextId};
        const QString step =
            count == 1 ? tr("Add a photograph to board %1").arg(words(board->mark))
                       : tr("Add %1 photographs to board %2").arg(count).arg(words(board->mark));
        const Edit edit = addingPhotos(document, *board, std::move(photos));
        if (const Status fits = allowed(document, edit); !fits) {
            refusals << QString::fromStdString(fits.error().message);
        } else if (m_session.edit(step, edit)) {
            if (m_board() != nullptr && m_board()->id == id) {
                showPhoto(first);
            }
            emit added(first);
        }
    }
    if (!refusals.isEmpty()) {
        QString sentence = refusals.front();
        if (refusals.size() > 1) {
            sentence += ' ' + tr("And %n more cannot be used.", nullptr,
                                 static_cast<int>(refusals.size()) - 1)
                                  .replace("%n", QString::number(refusals.size() - 1));
        }
        emit said(sentence, true);
    }
    say();
}

// ---- the one that is shown ---------------------------------------------------------------------

const BoardPhoto* PhotoDesk::photo() const {
    const Board* board = m_board();
    return board != nullptr && m_shown ? findPhoto(*board, *m_shown) : nullptr;
}

void PhotoDesk::showPhoto(std::optional<PhotoId> id) {
    if (id != m_shown) {
        m_shown = id;
        m_canvas->setPicked(std::nullopt);
        m_canvas->setTool(PhotoCanvas::Tool::Pick);
    }
    refresh();
}

void PhotoDesk::refresh() {
    const Board* board = m_board();
    if (photo() == nullptr) { // gone, or another board: its first one
        m_shown.reset();
        if (board != nullptr && !board->photos.empty()) {
            m_shown = board->photos.front().id;
        }
    }
    m_list->clear();
    if (board != nullptr) {
        int number = 1;
        for (const BoardPhoto& each : board->photos) {
            m_list->addItem(tr("%1: face %2, %3")
                                .arg(number++)
                                .arg(each.face == BoardFace::A ? "A" : "B", words(each.name)));
            if (m_shown == each.id) {
                m_list->setCurrentIndex(m_list->count() - 1);
            }
        }
    }
    const BoardPhoto* shown = photo();
    m_list->setEnabled(shown != nullptr);
    m_face->setEnabled(shown != nullptr);
    m_face->setText(shown != nullptr && shown->face == BoardFace::B ? tr("of face B")
                                                                    : tr("of face A"));
    findChild<QToolButton*>("photoRemove")->setEnabled(shown != nullptr);
    for (QToolButton* tool : m_tools) {
        tool->setEnabled(shown != nullptr);
    }
    m_fit.reset();
    m_trouble.clear();
    if (shown != nullptr) {
        Result<photo::Straightening> fit = photo::straighten(shown->controls, shown->size);
        if (fit) {
            m_fit = std::move(fit).value();
        } else {
            m_trouble = QString::fromStdString(fit.error().message);
        }
        m_canvas->setReadingStep(m_session.lengthStyle().units == UnitSystem::Inches
                                     ? Length::inches(1)
                                     : Length::millimetres(10));
        m_canvas->setMarks(shown->controls, shown->size, m_fit);
    }
    m_markModel->refresh();
    m_factModel->refreshFacts();
    load();
    say();
}

void PhotoDesk::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    load(); // pictures are decoded only while somebody looks
}

void PhotoDesk::load() {
    const BoardPhoto* shown = photo();
    const std::string wanted = shown != nullptr ? shown->file.sha256() : std::string();
    if (shown == nullptr) {
        m_loaded.clear();
        m_canvas->setMarks({}, {}, std::nullopt);
        m_canvas->setPicture({}, tr("No photograph of this board yet. Add one (Ctrl+Shift+I), drop "
                                    "a file here, or paste a picture."));
        return;
    }
    if (wanted == m_loaded || !isVisible()) {
        return;
    }
    m_loaded = wanted;
    m_canvas->setPicture({}, tr("Reading the photograph..."));
    m_worker.start([this, wanted, file = shown->file, name = words(shown->name)] {
        QImage picture;
        QString trouble;
        const auto bytes = file.read();
        if (!bytes) {
            trouble = QString::fromStdString(bytes.error().message);
        } else {
            const Result<QImage> decoded =
                decodePhoto(QByteArray::fromRawData(bytes.value()->data(),
                                                    static_cast<qsizetype>(bytes.value()->size())),
                            name);
            if (decoded) {
                picture = decoded.value();
            } else {
                trouble = QString::fromStdString(describe(decoded.error()));
            }
        }
        QMetaObject::invokeMethod(
            this,
            [this, wanted, picture, trouble] {
                if (wanted == m_loaded) {
                    m_canvas->setPicture(picture, trouble);
                }
            },
            Qt::QueuedConnection);
    });
}

void PhotoDesk::takeMarks(const QString& step, const photo::PhotoControls& controls, bool nudge) {
    const Board* board = m_board();
    const BoardPhoto* shown = photo();
    if (board == nullptr || shown == nullptr) {
        return;
    }
    BoardPhoto changed = *shown;
    changed.controls = controls;
    const Edit edit = replacingPhoto(*board, changed);
    if (const Status fits = allowed(m_session.document(), edit); !fits) {
        emit said(QString::fromStdString(fits.error().message), true);
        refresh();
        return;
    }
    if (nudge && m_canvas->picked()) { // of one mark of one photograph: one step
        const PhotoMark mark = *m_canvas->picked();
        const int key =
            static_cast<int>((changed.id.value * 1'000 + static_cast<std::int64_t>(mark.of) * 300 +
                              static_cast<std::int64_t>(mark.index)) %
                             1'000'000'000) +
            1'000'000'000;
        m_session.edit(step, edit, key);
    } else {
        m_session.edit(step, edit);
    }
    refresh();
}

void PhotoDesk::removeShown() {
    const Board* board = m_board();
    const BoardPhoto* shown = photo();
    if (board != nullptr && shown != nullptr) {
        m_session.edit(tr("Remove a photograph of board %1").arg(words(board->mark)),
                       removingPhoto(*board, shown->id));
    }
}

// ---- words -------------------------------------------------------------------------------------

QString PhotoDesk::agreement() const {
    LengthStyle style = m_session.lengthStyle();
    style.denominator = 64;
    const auto text = [&](Length length) { return readingText(length, style); };
    const BoardPhoto* shown = photo();
    QString sentence;
    const bool onlyCorners = shown->controls.tape.empty() && shown->controls.edges.empty();
    if (onlyCorners) {
        sentence =
            tr("Straightened by its corners. What lies between may be off by about %1; a few "
               "tape readings (T) make it surer.")
                .arg(text(m_fit->worstExpected));
    } else {
        sentence =
            tr("The marks agree within %1, the worst within %2. Places may be off by about %3.")
                .arg(text(m_fit->rms), text(m_fit->worst), text(m_fit->worstExpected));
    }
    return sentence;
}

void PhotoDesk::say() {
    if (m_reading > 0) {
        m_words->setSign(Sign::None);
        m_words->setText(tr("Reading photographs..."));
        return;
    }
    const BoardPhoto* shown = photo();
    if (shown == nullptr) {
        m_words->setSign(Sign::None);
        m_words->setText({});
    } else if (m_fit) {
        constexpr Length muchOff = Length::inches(1, 4); // wider than a kerf and its safe side
        const bool much = m_fit->worstExpected > muchOff;
        m_words->setSign(much ? Sign::Triangle : Sign::Tick);
        m_words->setText(agreement());
    } else {
        m_words->setSign(Sign::Triangle);
        m_words->setText(m_trouble);
    }
}

} // namespace stavewright::ui
