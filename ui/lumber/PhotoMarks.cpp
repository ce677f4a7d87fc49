#include "ui/lumber/PhotoMarks.h"

#include <QCoreApplication>

namespace stavewright::ui {

using photo::Corner;
using photo::LongEdge;
using photo::PhotoControls;
using photo::PhotoPoint;
using Of = photo::MarkResidual::Of;

namespace {

QString tr(const char* text) { return QCoreApplication::translate("PhotoMarks", text); }

QString cornerName(Corner corner) {
    switch (corner) {
    case Corner::DatumNear:
        return tr("1 datum, near");
    case Corner::EndNear:
        return tr("2 far end, near");
    case Corner::EndFar:
        return tr("3 far end, far");
    case Corner::DatumFar:
        return tr("4 datum, far");
    }
    return {};
}

/// As one walks round the board from the datum.
QString cornerNumber(Corner corner) {
    switch (corner) {
    case Corner::DatumNear:
        return "1";
    case Corner::EndNear:
        return "2";
    case Corner::EndFar:
        return "3";
    case Corner::DatumFar:
        return "4";
    }
    return {};
}

template <class Controls> // const or not
auto& pointOf(Controls& controls, PhotoMark mark) {
    switch (mark.of) {
    case Of::Corner:
        return controls.corners[mark.index].at;
    case Of::Tape:
        return controls.tape[mark.index].at;
    case Of::Edge:
        return controls.edges[mark.index].at;
    case Of::Spot:
        break;
    }
    return controls.spots[mark.index].at;
}

} // namespace

std::vector<PhotoMark> marksOf(const PhotoControls& controls) {
    std::vector<PhotoMark> marks;
    const auto add = [&marks](Of of, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) {
            marks.push_back({of, i});
        }
    };
    add(Of::Corner, controls.corners.size());
    add(Of::Tape, controls.tape.size());
    add(Of::Edge, controls.edges.size());
    add(Of::Spot, controls.spots.size());
    return marks;
}

PhotoPoint placeOf(const PhotoControls& controls, PhotoMark mark) {
    return pointOf(controls, mark);
}

void setPlaceOf(PhotoControls& controls, PhotoMark mark, PhotoPoint at) {
    pointOf(controls, mark) = at;
}

void remove(PhotoControls& controls, PhotoMark mark) {
    const auto at = static_cast<std::ptrdiff_t>(mark.index);
    switch (mark.of) {
    case Of::Corner:
        controls.corners.erase(controls.corners.begin() + at);
        break;
    case Of::Tape:
        controls.tape.erase(controls.tape.begin() + at);
        break;
    case Of::Edge:
        controls.edges.erase(controls.edges.begin() + at);
        break;
    case Of::Spot:
        controls.spots.erase(controls.spots.begin() + at);
        break;
    }
}

QString nameOf(const PhotoControls& controls, PhotoMark mark) {
    switch (mark.of) {
    case Of::Corner:
        return cornerName(controls.corners[mark.index].corner);
    case Of::Tape:
        return tr("Tape");
    case Of::Edge:
        return controls.edges[mark.index].edge == LongEdge::Near ? tr("Near edge") : tr("Far edge");
    case Of::Spot:
        break;
    }
    return tr("Spot %1").arg(controls.spots[mark.index].number);
}

QString letterOf(const PhotoControls& controls, PhotoMark mark) {
    switch (mark.of) {
    case Of::Corner:
        return cornerNumber(controls.corners[mark.index].corner);
    case Of::Tape:
        return "T";
    case Of::Edge:
        return controls.edges[mark.index].edge == LongEdge::Near ? "N" : "F";
    case Of::Spot:
        break;
    }
    return QString("S%1").arg(controls.spots[mark.index].number);
}

} // namespace stavewright::ui
