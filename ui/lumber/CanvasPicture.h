#pragma once
// The picture of a canvas: a photograph of the job, decoded on the worker of whoever shows it.

#include <QObject>

#include <string>

class QThreadPool;

namespace stavewright {
struct BoardPhoto;
}

namespace stavewright::ui {

class PhotoCanvas;

class CanvasPicture : public QObject {
    Q_OBJECT
  public:
    /// The worker is to have finished before this ends.
    CanvasPicture(PhotoCanvas& canvas, QThreadPool& worker, QObject* parent);

    /// Decodes unless it shows that one already, or waits for it.
    void show(const BoardPhoto& photo);
    void clear(const QString& sentence); ///< stand in its place

  private:
    PhotoCanvas& m_canvas;
    QThreadPool& m_worker;
    std::string m_wanted; ///< sha256 of what the canvas shows or waits for
};

} // namespace stavewright::ui
