#include "ui/glueup/PanelPicture.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/drawing/GrainFigure.h"
#include "core/glueup/LaidPlace.h"
#include "core/panels/Fills.h"
#include "core/panels/PanelChecks.h"
#include "core/units/SaidLength.h"
#include "ui/layout/BoardPicture.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

constexpr Length grainApart = Length::millimetres(9);

/// Board frame to the stave's own frame (x along from its low end, y from its near edge).
QTransform intoStave(const panels::PanelStave& stave) {
    const double run = static_cast<double>(stave.frame.run.inNanometres());
    const double rise = static_cast<double>(stave.frame.rise.inNanometres());
    const double length = std::hypot(run, rise);
    const double cosine = run / length;
    const double sine = rise / length;
    const double x = stave.frame.origin.x.toMillimetres();
    const double y = stave.frame.origin.y.toMillimetres();
    // Row vectors: (x - ox, y - oy) turned back by the frame's angle, less the corner of the net.
    QTransform toSection(cosine, -sine, sine, cosine, -x * cosine - y * sine,
                         x * sine - y * cosine);
    return toSection *
           QTransform::fromTranslate(-stave.net.x0.toMillimetres(), -stave.net.y0.toMillimetres());
}

/// Straight: three corners tell it.
QTransform fromPicture(const glueup::LaidPlace& laid, const QTransform& fromBoard) {
    const Rect& band = laid.band();
    const auto inPanel = [&](Point inPicture) {
        const Point onBoard = laid.toBoard(inPicture);
        return fromBoard.map(QPointF(onBoard.x.toMillimetres(), onBoard.y.toMillimetres()));
    };
    const QPointF corner = inPanel({band.x0, band.y0});
    const QPointF along = (inPanel({band.x1, band.y0}) - corner) / band.length().toMillimetres();
    const QPointF across = (inPanel({band.x0, band.y1}) - corner) / band.width().toMillimetres();
    return QTransform::fromTranslate(-band.x0.toMillimetres(), -band.y0.toMillimetres()) *
           QTransform(along.x(), along.y(), across.x(), across.y(), corner.x(), corner.y());
}

QTransform posed(const panels::PanelStave& stave, Pose pose) {
    const double length = stave.net.length().toMillimetres();
    const double width = stave.net.width().toMillimetres();
    const bool back = glueup::runsBackAcross(pose);
    return {pose.endForEnd ? -1.0 : 1.0, 0, 0, back ? -1.0 : 1.0, pose.endForEnd ? length : 0.0,
            back ? width : 0.0};
}

std::vector<KnotPicture> knotsOn(const Board& board, BoardFace face) {
    std::vector<KnotPicture> knots;
    for (const Defect& defect : board.defects) {
        const auto& here = face == BoardFace::A ? defect.onA : defect.onB;
        const auto& there = face == BoardFace::A ? defect.onB : defect.onA;
        const FaceMark* mark = here ? &*here : defect.through && there ? &*there : nullptr;
        if (mark != nullptr) {
            knots.push_back({inMillimetres(mark->outline),
                             panels::opensUp(defect.kind)
                                 ? words(defect.mark)
                                 : QString(QChar::fromLatin1(letterOf(defect.kind)))});
        }
    }
    return knots;
}

} // namespace

QRectF PanelPicture::wholeWithBeside() const {
    return beside.empty() ? whole : whole.united(beside.front().whole.translated(0, besideAt));
}

PanelPicture withBeside(PanelPicture picture, PanelPicture other, bool atFarEdge) {
    const double gap = 0.08 * (picture.whole.height() + other.whole.height()) / 2;
    const bool isAbove = atFarEdge != picture.back; // the back is seen rolled over
    picture.besideAt = isAbove ? picture.whole.height() + gap : -(other.whole.height() + gap);
    picture.beside = {std::move(other)};
    return picture;
}

PanelPicture pictureOf(const Document& document, const panels::Panel& panel,
                       const glueup::Order& order, bool back) {
    PanelPicture picture;
    picture.back = back;
    const double whole = panel.width.toMillimetres();
    const LengthStyle style{document.info.units, document.info.inchDenominator, true};
    const auto findings = panels::checkPanel(document, panel);
    double near = 0;
    for (std::size_t place = 0; place < order.size(); ++place) {
        const auto index = static_cast<std::size_t>(order[place].stave);
        const panels::PanelStave& stave = panel.staves[index];
        const glueup::Stave& wood = panel.problem.staves[index];
        const Pose pose = glueup::poseOf(order[place].pose);
        StavePicture drawn;
        drawn.label = words(stave.label);
        drawn.board = words(stave.boardMark);
        drawn.width = words(saidLength(stave.net.width(), style));
        drawn.boardId = stave.board;
        drawn.face = pose.faceOver != back ? BoardFace::B : BoardFace::A;
        drawn.turned = pose.endForEnd;
        const double width = stave.net.width().toMillimetres();
        const double y = back ? whole - near - width : near;
        drawn.place = QRectF(0, y, stave.net.length().toMillimetres(), width);
        drawn.fromBoard = intoStave(stave) * posed(stave, pose);
        if (back) {
            drawn.fromBoard *= QTransform(1, 0, 0, -1, 0, width);
        }
        drawn.fromBoard *= QTransform::fromTranslate(0, y);
        if (const auto laid = glueup::laidPlaceOf(document.glueUp.laidOut, stave.board, drawn.face,
                                                  stave.frame, stave.net)) {
            drawn.laid = {laid->picture(), laid->face(), fromPicture(*laid, drawn.fromBoard)};
        }
        if (const Board* board = findBoard(document, stave.board)) {
            for (const auto& line : drawing::grainLines(*board, drawn.face, grainApart)) {
                drawn.grain.push_back(inMillimetres(line));
            }
            drawn.knots = knotsOn(*board, drawn.face);
        }
        drawn.planing = glueup::planingInPanel(wood, pose) * (back ? -1 : 1);
        drawn.heart = glueup::heartInPanel(wood, pose) * (back ? -1 : 1);
        drawn.ringAngle = wood.rings.angleTenths / 10.0;
        const bool isPresent = place < panel.order.size() && panel.order[place] == order[place];
        if (isPresent) {
            const auto& locked = panel.problem.panels.front().locked;
            drawn.locked = place < locked.size() && locked[place].has_value();
            for (const panels::PanelFinding& finding : findings) {
                drawn.flagged =
                    drawn.flagged ||
                    (finding.isRefusal && std::find(finding.places.begin(), finding.places.end(),
                                                    place) != finding.places.end());
            }
        }
        picture.staves.push_back(std::move(drawn));
        near += width;
    }
    const double length = panel.length.toMillimetres();
    picture.whole = QRectF(0, 0, length, near);
    const double finished = std::min(near, panel.finishedWidth.toMillimetres());
    picture.finished = QRectF(0, (near - finished) / 2, length, finished);
    return picture;
}

} // namespace stavewright::ui
