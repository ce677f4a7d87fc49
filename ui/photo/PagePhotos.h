#pragma once
// The photographs that pages show: each stretch cut out of the straightened picture of its board,
// no finer than it prints. Takes as long as straightening takes; made for worker threads.
//
//   const PagePhotos photos = PagePhotos::of(document.boards, pages, {}, stop);
//   writePdf(pages, path, title, photos.onPage());

#include <QImage>

#include <map>
#include <stop_token>
#include <string>
#include <vector>

#include "core/lumber/Board.h"
#include "core/papers/PageModel.h"
#include "ui/paint/PagePainter.h"

namespace stavewright::ui {

class PagePhotos {
  public:
    /// What `known` has is not made again. After a stop those that were made.
    [[nodiscard]] static PagePhotos of(const std::vector<Board>& boards,
                                       const std::vector<papers::Page>& pages,
                                       const PagePhotos& known, const std::stop_token& stop);

    /// Whether of() would have nothing to make.
    [[nodiscard]] bool hasAllOf(const std::vector<Board>& boards,
                                const std::vector<papers::Page>& pages) const;
    /// For painting; holds a copy of what was made.
    [[nodiscard]] PhotoOnPage onPage() const;

  private:
    struct Made {
        std::string shows; ///< everything the picture depends on
        QImage image;      ///< null: none can be made
    };
    std::map<std::string, Made> m_made; ///< by which stretch of which face
};

} // namespace stavewright::ui
