#include "core/panels/LaidEdits.h"
#include "core/base/ListedText.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/glueup/LaidPlace.h"
#include "core/panels/TermWords.h"

namespace stavewright::panels {

namespace {

constexpr Length leastBand = Length::millimetres(5);

Length inProportion(Length length, Length from, Length to) {
    const double share =
        static_cast<double>(length.inNanometres()) / static_cast<double>(from.inNanometres());
    return Length::nanometres(std::llround(share * static_cast<double>(to.inNanometres())));
}

} // namespace

photo::BoardSize laidSize(const Panel& panel) {
    return {panel.roughLength, panel.width, panel.width};
}

LaidOut laidAsItStands(const Panel& panel, BoardPhoto photo) {
    LaidOut laid;
    laid.panel = panel.name;
    laid.photo = std::move(photo);
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        const PanelStave& stave = panel.staveAt(place);
        laid.staves.push_back(
            {stave.board, stave.frame, stave.net, glueup::poseOf(panel.order[place].pose)});
    }
    laid.joints = predictedJoints(laid);
    return laid;
}

std::vector<Length> predictedJoints(const LaidOut& laid) {
    Length whole;
    for (const LaidStave& stave : laid.staves) {
        whole += stave.net.width();
    }
    std::vector<Length> joints;
    Length near;
    for (std::size_t place = 0; place + 1 < laid.staves.size(); ++place) {
        near += laid.staves[place].net.width();
        joints.push_back(inProportion(near, whole, laid.photo.size.widthAtDatum));
    }
    return joints;
}

LaidOut measuredAs(LaidOut laid, Length length, Length width) {
    for (Length& joint : laid.joints) {
        joint = inProportion(joint, laid.photo.size.widthAtDatum, width);
    }
    laid.photo.size = {length, width, width};
    return laid;
}

LaidOut withJoint(LaidOut laid, std::size_t joint, Length at, const JointLie& lie) {
    laid.joints[joint] = at;
    laid.lies.resize(laid.joints.size());
    laid.lies[joint] = lie;
    if (std::all_of(laid.lies.begin(), laid.lies.end(),
                    [](const JointLie& each) { return each == JointLie{}; })) {
        laid.lies.clear();
    }
    return laid;
}

LaidOut seenFromOtherSide(LaidOut laid, photo::PhotoControls turned) {
    laid.photo.controls = std::move(turned);
    if (laid.joints != predictedJoints(laid) || !laid.lies.empty()) {
        for (Length& joint : laid.joints) {
            joint = laid.photo.size.widthAtDatum - joint;
        }
        // A line leans the same way when the picture is turned round by half.
        std::reverse(laid.joints.begin(), laid.joints.end());
        laid.lies.resize(laid.lies.empty() ? 0 : laid.joints.size());
        std::reverse(laid.lies.begin(), laid.lies.end());
    }
    return laid;
}

Stretch roomOfJoint(const LaidOut& laid, std::size_t joint) {
    const Length near = joint == 0 ? Length() : laid.joints[joint - 1];
    const Length far =
        joint + 1 == laid.joints.size() ? laid.photo.size.widthAtDatum : laid.joints[joint + 1];
    const Length least = std::min(near + leastBand, laid.joints[joint]);
    return {least, std::max(far - leastBand, least)};
}

const LaidOut* findLaidOut(const GlueUp& glueUp, const PanelName& name, BoardFace face) {
    const auto found =
        std::find_if(glueUp.laidOut.begin(), glueUp.laidOut.end(), [&](const LaidOut& laid) {
            return laid.panel == name && laid.photo.face == face;
        });
    return found == glueUp.laidOut.end() ? nullptr : &*found;
}

Edit withLaidOut(const Document& document, LaidOut laid) {
    GlueUp glueUp = document.glueUp;
    if (!laid.photo.id.isSet()) {
        laid.photo.id = PhotoId{document.nextId};
    }
    const auto found =
        std::find_if(glueUp.laidOut.begin(), glueUp.laidOut.end(), [&](const LaidOut& each) {
            return each.panel == laid.panel && each.photo.face == laid.photo.face;
        });
    if (found != glueUp.laidOut.end()) {
        *found = std::move(laid);
    } else {
        glueUp.laidOut.push_back(std::move(laid));
    }
    return Edit{ReplaceGlueUp{std::move(glueUp)}};
}

Edit withoutLaidOut(const Document& document, const PanelName& name, BoardFace face) {
    GlueUp glueUp = document.glueUp;
    std::erase_if(glueUp.laidOut, [&](const LaidOut& laid) {
        return laid.panel == name && laid.photo.face == face;
    });
    return Edit{ReplaceGlueUp{std::move(glueUp)}};
}

std::vector<std::string> notShown(const Document& document, const Panel& panel) {
    std::vector<std::string> sentences;
    for (const LaidOut& laid : document.glueUp.laidOut) {
        if (laid.panel != panel.name) {
            continue;
        }
        std::vector<std::string> missing;
        for (std::size_t place = 0; place < panel.order.size(); ++place) {
            const PanelStave& stave = panel.staveAt(place);
            const bool isShown =
                std::any_of(laid.staves.begin(), laid.staves.end(), [&](const LaidStave& each) {
                    return glueup::isSameWood(each, stave.board, stave.frame, stave.net);
                });
            const bool isElsewhere = glueup::laidPlaceOf(document.glueUp.laidOut, stave.board,
                                                         BoardFace::A, stave.frame, stave.net) ||
                                     glueup::laidPlaceOf(document.glueUp.laidOut, stave.board,
                                                         BoardFace::B, stave.frame, stave.net);
            if (!isShown && !isElsewhere) {
                missing.push_back(stave.label);
            }
        }
        if (!missing.empty()) {
            const std::string whose = laid.photo.face == BoardFace::A ? "show face" : "back";
            sentences.push_back("The photograph of the staves laid out (" + whose +
                                ") does not show the wood of " + listed(missing) +
                                " that the plan has now; " +
                                (missing.size() == 1 ? "it is shown as its board is."
                                                     : "they are shown as their boards are."));
        }
    }
    return sentences;
}

} // namespace stavewright::panels
