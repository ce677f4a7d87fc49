#pragma once
// The photographs of the selected board, one large with its marks, a table of these with how well
// they agree, and how the board was measured. Lies in place of the board's drawing while one works
// on it; Esc leads back.

#include <QStringList>
#include <QThreadPool>
#include <QWidget>

#include <functional>
#include <memory>
#include <optional>
#include <stop_token>

#include "core/lumber/Board.h"
#include "core/photo/Straighten.h"
#include "ui/lumber/PhotoCanvas.h"

class QComboBox;
class QLabel;
class QMimeData;
class QToolButton;

namespace stavewright::ui {

class CanvasPicture;
class DocumentSession;
class EntryModel;
class EntryView;
class FactModel;
class FractionLabel;

class PhotoDesk : public QWidget {
    Q_OBJECT
  public:
    /// `board`: the selected one, or nothing.
    PhotoDesk(DocumentSession& session, std::function<const Board*()> board,
              QWidget* parent = nullptr);
    ~PhotoDesk() override; ///< waits for what is being read

    /// Asks for files.
    void addPhotos(BoardFace face);
    /// Reads them on a worker thread; one undo step for all. What cannot be used is told in one
    /// sentence each.
    void addFiles(const QStringList& paths, BoardFace face);
    void addPicture(const QImage& picture, BoardFace face); ///< from the clipboard
    /// Whether there are picture files, or a picture, in what is dropped or pasted.
    [[nodiscard]] static bool holdsPhotos(const QMimeData& given);
    void addFrom(const QMimeData& given, BoardFace face);

    void showPhoto(std::optional<PhotoId> photo);
    [[nodiscard]] std::optional<PhotoId> shownPhoto() const { return m_shown; }
    void refresh(); ///< the document or the selection has changed
    [[nodiscard]] PhotoCanvas& canvas() { return *m_canvas; }
    [[nodiscard]] EntryView& marks() { return *m_marks; }
    [[nodiscard]] EntryView& facts() { return *m_facts; }
    [[nodiscard]] bool isReading() const { return m_reading > 0; }
    [[nodiscard]] const std::optional<photo::Straightening>& straightening() const { return m_fit; }

  signals:
    void added(stavewright::PhotoId photo); ///< the first of those just added
    void said(const QString& sentence, bool wrong);
    void leaveWanted();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    struct Source {
        QString name;
        QString path;     ///< of a file
        QByteArray bytes; ///< of what has none
        QImage picture;   ///< still to be made a file
    };
    void read(std::vector<Source> sources, BoardFace face);
    void take(BoardId board, std::vector<BoardPhoto> photos, QStringList refusals);
    void makeBar();
    void makeTables();
    [[nodiscard]] const BoardPhoto* photo() const;
    void takeMarks(const QString& step, const photo::PhotoControls& controls, bool nudge);
    void removeShown();
    void fitWithOthers(const Board& board, const BoardPhoto& shown);
    [[nodiscard]] std::optional<photo::Straightening>
    fitOf(const photo::PhotoControls& controls) const; ///< were these its marks
    void showNext(int by);
    void load();
    void say();
    [[nodiscard]] QString agreement() const;

    DocumentSession& m_session;
    std::function<const Board*()> m_board;
    std::optional<PhotoId> m_shown;
    std::optional<photo::Straightening> m_fit;
    QString m_trouble;
    QComboBox* m_list;
    QToolButton* m_face;
    QWidget* m_bar;
    std::vector<QToolButton*> m_tools;
    PhotoCanvas* m_canvas;
    CanvasPicture* m_picture;
    EntryModel* m_markModel = nullptr;
    FactModel* m_factModel = nullptr;
    EntryView* m_marks = nullptr;
    EntryView* m_facts = nullptr;
    FractionLabel* m_words;
    bool m_stale = true;
    int m_reading = 0;
    std::stop_source m_stop;
    QThreadPool m_worker;
};

} // namespace stavewright::ui
