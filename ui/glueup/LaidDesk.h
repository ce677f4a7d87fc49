#pragma once
// The photograph of a panel's milled staves laid out: taken in, straightened by the four corners of
// the whole, and its joints marked. Lies in place of the panel's view while one works on it; Esc
// leads back.

#include <QThreadPool>
#include <QWidget>

#include <functional>
#include <optional>
#include <stop_token>

#include "core/panels/Panels.h"
#include "core/photo/Straighten.h"

class QLabel;
class QMimeData;
class QStackedWidget;
class QToolButton;

namespace stavewright::ui {

class CanvasPicture;
class DocumentSession;
class FractionLabel;
class JointCanvas;
class LengthEdit;
class PhotoCanvas;

class LaidDesk : public QWidget {
    Q_OBJECT
  public:
    enum class Stage { Corners, Joints };

    /// `panel`: the one that is shown, or nothing.
    LaidDesk(DocumentSession& session, std::function<const panels::Panel*()> panel,
             QWidget* parent = nullptr);
    ~LaidDesk() override; ///< waits for what is being read

    void addPhoto(); ///< asks for a file
    void addFile(const QString& path);
    void refresh(); ///< the document or the panel has changed
    void setFace(BoardFace face);
    void setStage(Stage stage);
    void findJoints();
    [[nodiscard]] bool isReading() const { return m_reading > 0; }
    [[nodiscard]] PhotoCanvas& corners() { return *m_corners; }
    [[nodiscard]] JointCanvas& joints() { return *m_joints; }
    [[nodiscard]] const LaidOut* shown() const;

  signals:
    void said(const QString& sentence, bool wrong);
    void leaveWanted();

  protected:
    void showEvent(QShowEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override; ///< what the canvases leave
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    QWidget* makeBar();
    QWidget* makeFoot();
    void connectCanvases();
    void take(const PanelName& name, const Result<BoardPhoto>& read);
    bool change(const QString& step, LaidOut laid, std::optional<int> nudged = std::nullopt);
    void takeMarks(const QString& step, const photo::PhotoControls& controls, bool nudge);
    void takeSize(Length length, Length width);
    void asItStands();
    void turnRound();
    void removeShown();
    void load();
    void say();
    [[nodiscard]] LengthStyle wholeUnits() const; ///< how roughly a limit is told
    [[nodiscard]] QString label() const;

    DocumentSession& m_session;
    std::function<const panels::Panel*()> m_panel;
    BoardFace m_face = BoardFace::A;
    Stage m_stage = Stage::Corners;
    std::optional<photo::Straightening> m_fit;
    QString m_trouble;
    QStackedWidget* m_canvases;
    PhotoCanvas* m_corners;
    CanvasPicture* m_picture;
    JointCanvas* m_joints;
    QToolButton* m_showFace = nullptr;
    QToolButton* m_back = nullptr;
    QToolButton* m_cornersTool = nullptr;
    QToolButton* m_jointsTool = nullptr;
    std::vector<QToolButton*> m_forPhoto; ///< of no use without one
    LengthEdit* m_length = nullptr;
    LengthEdit* m_width = nullptr;
    FractionLabel* m_words = nullptr;
    int m_reading = 0;
    std::stop_source m_stop;
    QThreadPool m_worker;
};

} // namespace stavewright::ui
