#pragma once
// One line under the rack that says what its lines and letters mean; only what can be seen in this
// job.

#include <QWidget>

#include <vector>

#include "ui/layout/BoardPicture.h"

namespace stavewright::ui {

class LegendStrip : public QWidget {
    Q_OBJECT
  public:
    explicit LegendStrip(QWidget* parent = nullptr);

    void setPictures(const std::vector<BoardPicture>& pictures, BoardFace face);
    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    struct DefectEntry {
        DefectKind kind = DefectKind::Other;
        QString text;
    };
    bool m_blanks = false;
    bool m_offcuts = false;
    bool m_trims = false; ///< ends that are too bad to be used
    bool m_unseen = false;
    bool m_otherFace = false;
    BoardFace m_face = BoardFace::A;
    std::vector<DefectEntry> m_defects;
};

} // namespace stavewright::ui
