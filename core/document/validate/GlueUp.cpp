// Settings and arrangements of the glue-up. Arrangements may name parts and staves that are gone:
// what the maker chose is kept, and counts again when they come back.

#include <algorithm>
#include <set>

#include "core/document/Limits.h"
#include "core/document/validate/Findings.h"

namespace stavewright::validation {

namespace {

constexpr int mostWeight = 100'000; ///< a thousand points

void checkSettings(const GlueSettings& settings, Findings& findings) {
    const std::string place = "/glueUp/settings";
    for (const GlueTerm term : allGlueTerms) {
        findings.number(place + "/weights", "A weight of the glue-up", settings.weights.of(term), 0,
                        mostWeight);
    }
    findings.number(place + "/moistureTenths", "The moisture content at the glue-up, in tenths,",
                    settings.moistureTenths, 0, 300);
    findings.number(place + "/moistureInUseTenths", "The moisture content in use, in tenths,",
                    settings.moistureInUseTenths, 0, 300);
    const auto length = [&](const char* key, const char* what, Length value) {
        findings.length(place + key, what, value, Range::zeroUpTo(limits::widestPart));
    };
    length("/ringRadius", "The radius of the rings", settings.ringRadius);
    length("/mostCup", "The most cup of a panel", settings.mostCup);
    length("/knotClear", "The way of knots from a glue line", settings.knotClear);
    length("/knotsApart", "The way between knots", settings.knotsApart);
    length("/narrow", "The width of a narrow stave", settings.narrow);
    length("/caul", "The width of the caul", settings.caul);
    length("/clampsApart", "The most between two clamps", settings.clampsApart);
    findings.number(place + "/leastPsi", "The least pressure on a glue line, in psi,",
                    settings.leastPsi, 10, 1000);
}

void checkName(const PanelName& name, const std::string& place, Findings& findings) {
    findings.number(place + "/instance", "The number of the panel", name.instance, 1,
                    limits::partCount);
    findings.number(place + "/ply", "The ply of the panel", name.ply, 0, limits::plies);
}

void checkPanel(const PanelArrangement& panel, const std::string& place, Findings& findings) {
    checkName(panel.panel, place + "/panel", findings);
    if (panel.matches) {
        checkName(*panel.matches, place + "/matches", findings);
        if (*panel.matches == panel.panel) {
            findings.refuse(place + "/matches",
                            "A panel cannot match itself; it must be another panel.");
        }
    }
    std::set<int> seen;
    for (std::size_t i = 0; i < panel.staves.size() && findings.ok(); ++i) {
        const GluedStave& stave = panel.staves[i];
        const std::string here = at(place + "/staves", i);
        findings.number(here + "/stave", "The number of the stave", stave.stave, 1,
                        limits::partCount);
        findings.length(here + "/width", "The width of the stave", stave.width,
                        Range::zeroUpTo(limits::widestPart));
        if (!seen.insert(stave.stave).second) {
            findings.refuse(here + "/stave", "Stave " + std::to_string(stave.stave) +
                                                 " stands twice in its panel; each stave must "
                                                 "stand once.");
        }
    }
}

void checkLaidOut(const LaidOut& laid, const std::string& here, Findings& findings) {
    checkName(laid.panel, here + "/panel", findings);
    const std::string whose = "photograph of staves laid out";
    checkPhoto(laid.photo, here + "/photo", whose, limits::widestPart, findings);
    findings.count(here + "/staves", "staves in a " + whose, laid.staves.size(), limits::staves);
    if (laid.staves.empty() || laid.joints.size() + 1 != laid.staves.size()) {
        findings.refuse(here + "/joints", "There are " + std::to_string(laid.joints.size()) +
                                              " joints between " +
                                              std::to_string(laid.staves.size()) +
                                              " staves laid out; there must be one fewer joints "
                                              "than staves, and at least one stave.");
    }
    Length before;
    const Length width = laid.photo.size.widthAtDatum;
    for (std::size_t i = 0; i < laid.joints.size() && findings.ok(); ++i) {
        findings.length(at(here + "/joints", i), "A joint in a " + whose, laid.joints[i],
                        {before, width, false, false});
        before = laid.joints[i];
    }
    if (!laid.lies.empty() && laid.lies.size() != laid.joints.size()) {
        findings.refuse(here + "/lies", "There are " + std::to_string(laid.lies.size()) +
                                            " lies of " + std::to_string(laid.joints.size()) +
                                            " joints; there must be none, or one for each joint.");
    }
    for (std::size_t i = 0; i < laid.lies.size() && findings.ok(); ++i) {
        findings.length(at(here + "/lies", i) + "/lean", "How far a joint leans in a " + whose,
                        abs(laid.lies[i].lean), Range::zeroUpTo(mostJointLean));
        findings.length(at(here + "/lies", i) + "/gap", "A gap in a " + whose, laid.lies[i].gap,
                        Range::zeroUpTo(mostJointGap));
    }
    for (std::size_t i = 0; i < laid.staves.size() && findings.ok(); ++i) {
        const Length near = i == 0 ? Length() : laid.joints[i - 1] + laid.lieOf(i - 1).gap / 2;
        const Length far = i == laid.joints.size() ? width : laid.joints[i] - laid.lieOf(i).gap / 2;
        if (far <= near) {
            findings.refuse(at(here + "/lies", std::min(i, laid.joints.size())),
                            "The gaps leave nothing of stave " + std::to_string(i + 1) + " in a " +
                                whose + "; each stave must be wider than the gaps beside it.");
        }
    }
    for (std::size_t i = 0; i < laid.staves.size() && findings.ok(); ++i) {
        const Rect& net = laid.staves[i].net;
        const std::string place = at(here + "/staves", i) + "/net";
        findings.length(place, "The length of a stave laid out", net.length(),
                        Range::aboveZeroUpTo(limits::longestBoard));
        findings.length(place, "The width of a stave laid out", net.width(),
                        Range::aboveZeroUpTo(limits::widestBoard));
        const Frame& frame = laid.staves[i].frame;
        if (frame.run <= Length()) {
            findings.refuse(at(here + "/staves", i) + "/frame",
                            "The frame of a stave laid out runs " +
                                std::to_string(frame.run.inNanometres()) +
                                " along its board; it must run above 0.");
        }
    }
}

} // namespace

void checkGlueUp(const Document& document, Findings& findings) {
    checkSettings(document.glueUp.settings, findings);
    std::set<PanelName> seen;
    for (std::size_t i = 0; i < document.glueUp.panels.size() && findings.ok(); ++i) {
        const std::string place = at("/glueUp/panels", i);
        checkPanel(document.glueUp.panels[i], place, findings);
        if (!seen.insert(document.glueUp.panels[i].panel).second) {
            findings.refuse(place, "The panel is arranged twice; it must stand once.");
        }
    }
    findings.count("/glueUp/laidOut", "photographs of staves laid out",
                   document.glueUp.laidOut.size(), limits::photosOfOneJob);
    std::set<std::pair<PanelName, BoardFace>> photographed;
    for (std::size_t i = 0; i < document.glueUp.laidOut.size() && findings.ok(); ++i) {
        const LaidOut& laid = document.glueUp.laidOut[i];
        const std::string place = at("/glueUp/laidOut", i);
        checkLaidOut(laid, place, findings);
        if (!photographed.emplace(laid.panel, laid.photo.face).second) {
            findings.refuse(place, "There are two photographs of one face of a panel laid out; "
                                   "there may be one.");
        }
    }
}

} // namespace stavewright::validation
