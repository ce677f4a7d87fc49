#pragma once
// What draws on a board's faces: a tool gets presses, moves and keys in the board frame and hands a
// changed board to its host, which makes one undo step of it. Tools know no widget, so that each
// works by pointer and by keyboard alike.

#include <QString>
#include <QTransform>

#include <memory>
#include <optional>

#include "core/base/Result.h"
#include "core/lumber/Board.h"
#include "ui/widgets/Theme.h"

class QKeyEvent;
class QPainter;

namespace stavewright::ui {

/// A place on one face, in the board frame.
struct SheetPoint {
    BoardFace face = BoardFace::A;
    Point at;
};

class SheetHost {
  public:
    virtual ~SheetHost() = default;
    [[nodiscard]] virtual const Board& board() const = 0;
    [[nodiscard]] virtual QTransform toPixels(BoardFace face) const = 0;
    /// The kind that is drawn now, chosen by its letter.
    [[nodiscard]] virtual DefectKind kind() const = 0;
    [[nodiscard]] virtual std::optional<DefectId> selected() const = 0;
    virtual void select(std::optional<DefectId> defect) = 0;
    /// The smallest mark there; of a defect that shows on this face.
    [[nodiscard]] virtual std::optional<DefectId> markAt(const SheetPoint& point) const = 0;
    /// The face that keys work on.
    [[nodiscard]] virtual BoardFace face() const = 0;
    /// What a new defect is called and known by.
    [[nodiscard]] virtual DefectId freeId() const = 0;
    [[nodiscard]] virtual std::string freeMark() const = 0;
    /// So far two points may differ and still be one under the hand.
    [[nodiscard]] virtual Length handTolerance() const = 0;
    /// What the tape tells apart: 1/16 in or a millimetre.
    [[nodiscard]] virtual Length tapeStep() const = 0;
    /// One undo step; refused with a sentence when the job would offend.
    virtual void commit(const QString& step, const Board& changed,
                        std::optional<DefectId> select) = 0;
    virtual void refuse(const QString& sentence) = 0;
    virtual void repaint() = 0;
};

class SheetTool {
  public:
    explicit SheetTool(SheetHost& host)
        : m_host(host) {}
    virtual ~SheetTool() = default;

    /// Whether a press there is the tool's; else it moves the drawing.
    [[nodiscard]] virtual bool wants(const SheetPoint& /*point*/) const { return true; }
    virtual void press(const SheetPoint& point) = 0;
    virtual void move(const SheetPoint& point) = 0; ///< while pressed
    virtual void release(const SheetPoint& point) = 0;
    virtual void hover(const SheetPoint& /*point*/) {}
    /// True when the tool took the key.
    virtual bool key(QKeyEvent* /*event*/) { return false; }
    virtual void paint(QPainter& painter, BoardFace face, const Colours& colours) const = 0;
    /// Gives up what is begun; false when nothing was.
    virtual bool cancel() = 0;
    [[nodiscard]] virtual QString hint() const = 0;

  protected:
    [[nodiscard]] SheetHost& host() const { return m_host; }

  private:
    SheetHost& m_host;
};

enum class ToolId { Select, Ellipse, Corners, Freehand, Stroke, Bad, Look, Edges };
inline constexpr std::array<ToolId, 8> allTools = {
    ToolId::Select, ToolId::Ellipse, ToolId::Corners, ToolId::Freehand,
    ToolId::Stroke, ToolId::Bad,     ToolId::Look,    ToolId::Edges};
/// The key that takes the tool in hand while the drawing has the keys.
[[nodiscard]] char keyOf(ToolId tool);
[[nodiscard]] QString nameOf(ToolId tool);
[[nodiscard]] QString tipOf(ToolId tool);

[[nodiscard]] std::unique_ptr<SheetTool> makeTool(ToolId tool, SheetHost& host);

/// Rounded to the tape.
[[nodiscard]] Point onStep(const Point& point, Length step);

} // namespace stavewright::ui
