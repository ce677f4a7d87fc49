#include "core/cutting/SectionShape.h"

#include <algorithm>
#include <cmath>

#include "core/cutting/Solve.h"

namespace stavewright::cutting {

namespace {

Frame frameOn(const EdgeChain& nearEdge, Nm x0, Nm x1) {
    const double y0 = nearEdge.at(x0);
    const double y1 = nearEdge.at(x1);
    Frame frame;
    frame.run = Length::nanometres(std::max<Nm>(1, x1 - x0));
    frame.rise = Length::nanometres(std::llround(y1 - y0));
    if (frame.rise == Length()) {
        frame.origin = {Length::nanometres(x0),
                        Length::nanometres(static_cast<Nm>(std::ceil(nearEdge.highest(x0, x1))))};
        return frame;
    }
    const double slope = static_cast<double>(frame.rise.inNanometres()) /
                         static_cast<double>(frame.run.inNanometres());
    double lift = std::max(y0, y1 - static_cast<double>(frame.rise.inNanometres()));
    for (const Point& corner : nearEdge.corners()) {
        const Nm x = corner.x.inNanometres();
        if (x >= x0 && x <= x1) {
            lift = std::max(lift, static_cast<double>(corner.y.inNanometres()) -
                                      slope * static_cast<double>(x - x0));
        }
    }
    frame.origin = {Length::nanometres(x0),
                    Length::nanometres(static_cast<Nm>(std::ceil(lift)) + turnedMargin)};
    return frame;
}

} // namespace

Frame sectionFrame(const Board& board, Nm x0, Nm x1) {
    return frameOn(outlineEdges(board.outline).nearEdge, x0, x1);
}

SectionShape::SectionShape(const BoardModel& model, Nm x0, Nm x1)
    : m_x0(x0)
    , m_x1(x1)
    , m_frame(frameOn(model.nearEdge(), x0, x1)) {
    const double run = static_cast<double>(m_frame.run.inNanometres());
    const double rise = static_cast<double>(m_frame.rise.inNanometres());
    const double length = std::hypot(run, rise);
    m_cos = run / length;
    m_sin = rise / length;

    const auto spotAt = [&](double x, double y) { return toLocal({x, y}); };
    m_far.push_back(spotAt(static_cast<double>(x0), model.farEdge().at(x0)));
    for (const Point& corner : model.farEdge().corners()) {
        const Nm x = corner.x.inNanometres();
        if (x > x0 && x < x1) {
            m_far.push_back(
                spotAt(static_cast<double>(x), static_cast<double>(corner.y.inNanometres())));
        }
    }
    m_far.push_back(spotAt(static_cast<double>(x1), model.farEdge().at(x1)));
    double vHighest = m_far.front().y;
    for (const Spot& spot : m_far) {
        vHighest = std::max(vHighest, spot.y);
    }
    m_vTop = static_cast<Nm>(std::floor(vHighest));
    m_fullWidth = widestBetween(model.edges(), x0, x1);

    if (isParallel()) {
        m_uLow = 0;
        m_uHigh = x1 - x0;
        return;
    }
    const double top = std::max(0.0, vHighest);
    const double tangent = m_sin / m_cos;
    const double low = std::max(0.0, top * tangent);
    const double high = static_cast<double>(x1 - x0) / m_cos + std::min(0.0, top * tangent);
    m_uLow = static_cast<Nm>(std::ceil(low)) + turnedMargin;
    m_uHigh = static_cast<Nm>(std::floor(high)) - turnedMargin;
}

Spot SectionShape::toLocal(const Spot& board) const {
    const double dx = board.x - static_cast<double>(m_frame.origin.x.inNanometres());
    const double dy = board.y - static_cast<double>(m_frame.origin.y.inNanometres());
    if (isParallel()) {
        return {dx, dy};
    }
    return {dx * m_cos + dy * m_sin, dy * m_cos - dx * m_sin};
}

Nm SectionShape::clearTop(Nm u0, Nm u1) const {
    const double from = static_cast<double>(u0);
    const double to = static_cast<double>(u1);
    double lowest = static_cast<double>(m_vTop);
    for (std::size_t i = 0; i + 1 < m_far.size(); ++i) {
        const Spot& a = m_far[i];
        const Spot& b = m_far[i + 1];
        // The first and last part run on past the crosscuts, so that every u has an edge above it.
        const double a0 = i == 0 ? std::min(a.x, from) : a.x;
        const double b0 = i + 2 == m_far.size() ? std::max(b.x, to) : b.x;
        const double left = std::max(a0, from);
        const double right = std::min(b0, to);
        if (left > right) {
            continue;
        }
        const double slope = b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0;
        lowest = std::min({lowest, a.y + slope * (left - a.x), a.y + slope * (right - a.x)});
    }
    const Nm floored = static_cast<Nm>(std::floor(lowest));
    return isParallel() ? floored : floored - turnedMargin;
}

namespace {

/// Lengthens the span until the blank fits between the crosscuts; `shapeOf` gives the section of a
/// span.
template <class ShapeOf>
Nm spanFor(Nm length, Nm most, const ShapeOf& shapeOf) {
    Nm span = length;
    for (int round = 0; round < 4 && span <= most; ++round) {
        const SectionShape shape = shapeOf(span);
        const Nm missing = length - (shape.uHigh() - shape.uLow());
        if (missing <= 0) {
            break;
        }
        span += missing + turnedMargin;
    }
    return span;
}

} // namespace

Nm spanFrom(const BoardModel& model, Nm x0, Nm length, Nm end) {
    return spanFor(length, end - x0, [&](Nm span) { return SectionShape(model, x0, x0 + span); });
}

Nm spanUpTo(const BoardModel& model, Nm x1, Nm length, Nm begin) {
    return spanFor(length, x1 - begin, [&](Nm span) { return SectionShape(model, x1 - span, x1); });
}

} // namespace stavewright::cutting
