#pragma once
// Marks that the program would make from the photographs of the selected board: found on a worker
// thread when they are asked for, drawn dashed, and taken or dismissed one by one or all that are
// sure enough. Nothing is marked that was not taken. What is taken is an ordinary defect; undone it
// is a suggestion again.

#include <QThreadPool>
#include <QWidget>

#include <functional>
#include <map>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/document/Edit.h"
#include "ui/photo/FaceWork.h"

class QLabel;
class QSpinBox;
class QToolButton;

namespace stavewright::ui {

class BoardSheet;
class DocumentSession;

class SuggestionBar : public QWidget {
    Q_OBJECT
  public:
    SuggestionBar(DocumentSession& session, BoardSheet& sheet, std::function<const Board*()> board,
                  QWidget* parent = nullptr);
    ~SuggestionBar() override; ///< waits for the search

    /// Looks at both faces of the selected board.
    void search();
    [[nodiscard]] bool isSearching() const { return m_searching > 0; }
    void refresh(); ///< the document or the selection has changed
    /// What is shown now, in the order of the drawing.
    [[nodiscard]] const std::vector<FoundMark>& shown() const { return m_shown; }
    [[nodiscard]] bool offersOutline() const { return m_outline.has_value(); }

    void takeOne(int index);
    void dismissOne(int index);
    void takeSure(); ///< all at and above the percentage in the bar
    void dismissAll();
    void takeOutline();

  signals:
    void said(const QString& sentence, bool wrong);

  private:
    struct Kept {
        std::string key; ///< what was looked at
        std::vector<FoundMark> marks;
        std::vector<FoundMark> dismissed;
        std::optional<Polygon> outline;
    };
    void keep(BoardId board, const std::string& key, const std::vector<FoundOnFace>& faces);
    bool mark(const std::vector<FoundMark>& marks, const QString& step);
    void say();

    DocumentSession& m_session;
    BoardSheet& m_sheet;
    std::function<const Board*()> m_board;
    std::map<BoardId, Kept> m_kept;
    std::vector<FoundMark> m_shown;
    std::optional<Polygon> m_outline;
    QLabel* m_words;
    QToolButton* m_search;
    QToolButton* m_take;
    QToolButton* m_dismiss;
    QToolButton* m_takeSure;
    QSpinBox* m_percent;
    QToolButton* m_dismissAll;
    QToolButton* m_takeOutline;
    int m_searching = 0;
    std::stop_source m_stop;
    QThreadPool m_worker;
};

} // namespace stavewright::ui
