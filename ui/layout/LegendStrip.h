#pragma once
// Under the rack: what its lines and letters mean; only what can be seen in this job. On a narrow
// window it takes more rows, so that nothing is left out.

#include <QWidget>

#include <functional>
#include <set>
#include <vector>

#include "ui/layout/BoardPicture.h"
#include "ui/widgets/Theme.h"

namespace stavewright::ui {

class LegendStrip : public QWidget {
    Q_OBJECT
  public:
    explicit LegendStrip(QWidget* parent = nullptr);

    void setPictures(const std::vector<BoardPicture>& pictures, BoardFace face);
    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    class Flow;
    enum class Swatch {
        Blank,
        Corner,
        Waste,
        Offcut,
        Trim,
        Unseen,
        OtherFace,
        Stroke,
        Locked,
        Grain
    };
    struct Entry {
        Swatch swatch = Swatch::Blank;
        QString text;
        QString brief;                      ///< where the full words of all do not fit one row
        CutState state = CutState::Planned; ///< of strokes
    };
    struct DefectEntry {
        DefectKind kind = DefectKind::Other;
        QString text;
    };
    [[nodiscard]] std::vector<Entry> entries() const;
    /// Hands out the middle left of every entry in turn; returns the rows they take.
    int lay(const std::function<void(QPointF, const Entry&, const QString&)>& put,
            const std::function<void(QPointF, const QString&)>& putDefect) const;
    void fitHeight();
    void paintSwatch(QPainter& painter, const QRectF& box, const Entry& entry,
                     const Colours& c) const;

    int m_high = 0;
    bool m_blanks = false;
    bool m_locks = false;
    bool m_planing = false; ///< of some board it is known how to feed it
    bool m_offcuts = false;
    bool m_trims = false; ///< ends that are too bad to be used
    bool m_unseen = false;
    bool m_otherFace = false;
    std::set<CutState> m_states; ///< that pieces have reached
    BoardFace m_face = BoardFace::A;
    std::vector<DefectEntry> m_defects;
};

} // namespace stavewright::ui
