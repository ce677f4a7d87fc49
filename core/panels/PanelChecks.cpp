#include "core/panels/PanelChecks.h"
#include "core/base/ListedText.h"

#include <algorithm>

#include "core/panels/TermWords.h"
#include "core/units/SaidLength.h"

namespace stavewright::panels {

namespace {

using glueup::KnotPlace;
using glueup::Placed;
using glueup::Stave;

const Stave& staveAt(const Panel& panel, std::size_t place) {
    return panel.problem.staves[static_cast<std::size_t>(panel.order[place].stave)];
}

bool isCupKnown(const Stave& stave) {
    return stave.rings.heart != HeartSide::Unknown && stave.rings.radius > Length();
}

/// The knot itself on a glue line. Its halo is the business of the score.
void checkJoints(const Panel& panel, std::vector<PanelFinding>& findings) {
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        const Stave& stave = staveAt(panel, place);
        const Pose pose = glueup::poseOf(panel.order[place].pose);
        const bool nearIsGlued = place > 0;
        const bool farIsGlued = place + 1 < panel.order.size();
        bool onJoint = false;
        for (const auto& knots : {shownKnots(stave, pose), hiddenKnots(stave, pose)}) {
            for (const KnotPlace& knot : knots) {
                onJoint = onJoint || (nearIsGlued && knot.knot.y0 <= Length()) ||
                          (farIsGlued && knot.knot.y1 >= stave.width);
            }
        }
        if (onJoint) {
            findings.push_back(
                {PanelFinding::Kind::JointOnKnot,
                 true,
                 panel.staveAt(place).label +
                     " has a knot on a glue line; glue holds on straight grain only. "
                     "Turn the stave so that the knot stands outside, or take another.",
                 {place}});
        }
        if (stave.forbidden[static_cast<std::size_t>(panel.order[place].pose)]) {
            findings.push_back(
                {PanelFinding::Kind::PoseRefused,
                 true,
                 panel.staveAt(place).label +
                     " lies so that a defect comes where the part does not allow it.",
                 {place}});
        }
    }
}

/// Joints of the piece that hold in this panel: their wood has to be sound however it was planned.
void checkStrengthJoints(const Document& document, const Panel& panel,
                         std::vector<PanelFinding>& findings) {
    for (const Joint& joint : document.joints) {
        for (const JointSide& side : joint.sides) {
            if (side.part != panel.name.part) {
                continue;
            }
            const Stretch along = side.area.along.in(panel.length);
            const Stretch across = side.area.across.in(panel.finishedWidth);
            // The finished panel lies in the middle of what is glued up.
            const Length edge = std::max(Length(), panel.width - panel.finishedWidth) / 2;
            const Rect area{along.from, across.from + edge, along.to, across.to + edge};
            Length near;
            for (std::size_t place = 0; place < panel.order.size(); ++place) {
                const Stave& stave = staveAt(panel, place);
                const Pose pose = glueup::poseOf(panel.order[place].pose);
                bool meets = false;
                const auto look = [&](const std::vector<KnotPlace>& knots) {
                    for (const KnotPlace& knot : knots) {
                        Rect lies = knot.knot;
                        lies.y0 += near;
                        lies.y1 += near;
                        meets = meets || lies.overlaps(area);
                    }
                };
                if (side.area.faces != ZoneFaces::B) {
                    look(shownKnots(stave, pose));
                }
                if (side.area.faces != ZoneFaces::A) {
                    look(hiddenKnots(stave, pose));
                }
                if (meets) {
                    findings.push_back(
                        {PanelFinding::Kind::JointOnKnot,
                         true,
                         "The joint \"" + joint.name + "\" would hold on a knot of " +
                             panel.staveAt(place).label + "; move or turn the stave.",
                         {place}});
                }
                near += stave.width;
            }
        }
    }
}

void checkCup(const Document& document, const Panel& panel, std::vector<PanelFinding>& findings) {
    const glueup::CupForecast cup = cupOf(panel);
    const Length most = document.glueUp.settings.mostCup;
    if (cup.depth <= most) {
        return;
    }
    const std::string remedy =
        panel.chosen.rings == RingWish::Alternate
            ? "Arrange the panel again, take narrower or quartered staves for the widest plain "
              "ones, "
              "or let the wood come nearer to the moisture it will have in use."
            : "Hold it flat with a frame or base that lets it move in width, or alternate the "
              "rings.";
    findings.push_back(
        {PanelFinding::Kind::Cup,
         false,
         "The panel is forecast to go " + std::string(cup.overall > Length() ? "hollow" : "round") +
             " by " + fineText(cup.depth, document.info) + " on its show face, more than the " +
             fineText(most, document.info) + " allowed. " + remedy,
         {}});
}

// Match within two points between parts and use: a wood-processing specialist's column ("Aching
// Glue Joints").
void checkMoisture(const Document& document, const Panel& panel,
                   std::vector<PanelFinding>& findings) {
    constexpr std::int64_t twoPoints = 20;
    std::optional<std::int64_t> least;
    std::optional<std::int64_t> most;
    for (const PanelStave& stave : panel.staves) {
        const Board* board = findBoard(document, stave.board);
        if (board && board->moistureTenths) {
            least = std::min(least.value_or(*board->moistureTenths), *board->moistureTenths);
            most = std::max(most.value_or(*board->moistureTenths), *board->moistureTenths);
        }
    }
    if (least && *most - *least > twoPoints) {
        findings.push_back({PanelFinding::Kind::Moisture,
                            false,
                            "The staves differ in moisture by more than 2 points; let them lie "
                            "together until they agree, or joints will step and open.",
                            {}});
    }
}

} // namespace

Length staveCup(const Panel& panel, std::size_t place) {
    const Stave& stave = staveAt(panel, place);
    const Length cup = glueup::forecastCup(stave.width, stave.rings, stave.movement);
    return glueup::poseOf(panel.order[place].pose).faceOver ? -cup : cup;
}

glueup::CupForecast cupOf(const Panel& panel) {
    std::vector<glueup::CupPart> parts;
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        parts.push_back({staveAt(panel, place).width, staveCup(panel, place)});
    }
    return glueup::panelCup(parts);
}

std::string cupUnknownOf(const Panel& panel) {
    std::vector<std::string> labels;
    for (std::size_t place = 0; place < panel.order.size(); ++place) {
        if (!isCupKnown(staveAt(panel, place))) {
            labels.push_back(panel.staveAt(place).label);
        }
    }
    if (labels.empty()) {
        return {};
    }
    if (labels.size() == panel.order.size()) {
        return "Whether it stays flat is not forecast: the heart side of its boards is not noted.";
    }
    return "The cup is forecast without " + listed(labels) + ": the heart side is not noted.";
}

std::string cupText(const Panel& panel, const JobInfo& info) {
    const bool anyKnown =
        std::any_of(panel.problem.staves.begin(), panel.problem.staves.end(), isCupKnown);
    if (!anyKnown) {
        return {};
    }
    const glueup::CupForecast cup = cupOf(panel);
    const std::string depth = fineText(cup.depth, info);
    if (depth == fineText(Length(), info)) {
        return "stays flat";
    }
    return std::string("goes ") + (cup.overall > Length() ? "hollow" : "round") + " by " + depth +
           " on its show face";
}

Length widthChangeOf(const Panel& panel) {
    Length change;
    for (const Stave& stave : panel.problem.staves) {
        change += glueup::widthChange(stave.width, stave.rings, stave.movement);
    }
    return change;
}

std::vector<PanelFinding> checkPanel(const Document& document, const Panel& panel) {
    std::vector<PanelFinding> findings;
    checkJoints(panel, findings);
    checkStrengthJoints(document, panel, findings);
    if (panel.width < panel.wanted) {
        const LengthStyle style{document.info.units, document.info.inchDenominator, true};
        findings.push_back({PanelFinding::Kind::TooNarrow,
                            true,
                            "The staves make " + saidLength(panel.width, style) +
                                "; the panel wants " + saidLength(panel.wanted, style) + ".",
                            {}});
    }
    checkCup(document, panel, findings);
    checkMoisture(document, panel, findings);
    return findings;
}

} // namespace stavewright::panels
