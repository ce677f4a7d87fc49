#include "core/milling/ChainWalk.h"

#include <utility>

namespace stavewright {

namespace {

std::string textOf(const StageAllowance& allowance) {
    std::string text = workOf(allowance.stage);
    return allowance.why.empty() ? text : text + ": " + allowance.why;
}

std::size_t indexOf(Dimension dimension) { return static_cast<std::size_t>(dimension); }

} // namespace

const char* workOf(Stage stage) {
    switch (stage) {
    case Stage::Sand:
        return "sand";
    case Stage::TrimToLength:
        return "trim to length";
    case Stage::RipToWidth:
        return "rip to width";
    case Stage::Plane:
        return "plane";
    case Stage::JointFaceAndEdge:
        return "joint face and edge";
    case Stage::RoughCrosscut:
        return "rough crosscut";
    case Stage::TrimPanelSquare:
        return "trim the panel square";
    case Stage::FlattenPanel:
        return "flatten the panel";
    case Stage::GlueEdges:
        return "glue the edges";
    case Stage::JointStaveEdges:
        return "joint both edges of the stave";
    case Stage::PlaneSawnFaces:
        return "plane the sawn faces";
    case Stage::SecondRip:
        return "second rip";
    case Stage::SecondPlane:
        return "second planing";
    case Stage::SecondJoint:
        return "second jointing";
    case Stage::GlueFaces:
        return "glue the faces";
    case Stage::PlaneGlueFaces:
        return "plane the glue faces";
    case Stage::PartMultiple:
        return "part the multiple";
    }
    return "mill";
}

ChainWalk::ChainWalk(Length length, Length width, Length thickness) {
    add(Dimension::Length, length, "finished length");
    add(Dimension::Width, width, "finished width");
    add(Dimension::Thickness, thickness, "finished thickness");
}

void ChainWalk::through(const MillingChain& chain) {
    for (const StageAllowance& allowance : chain) {
        if (allowance.stage == Stage::PartMultiple) {
            continue;
        }
        const auto take = [&](Dimension dimension, Length amount) {
            if (amount != Length()) {
                add(dimension, amount, textOf(allowance));
            }
        };
        take(Dimension::Length, allowance.along);
        take(Dimension::Width, allowance.across);
        take(Dimension::Thickness, allowance.thick);
    }
}

void ChainWalk::resize(Dimension dimension, Length size, std::string text) {
    add(dimension, size - m_size[indexOf(dimension)], std::move(text));
}

void ChainWalk::add(Dimension dimension, Length amount, std::string text) {
    Length& size = m_size[indexOf(dimension)];
    size += amount;
    m_sums.push_back({dimension, amount, size, std::move(text)});
}

Length acrossOf(const MillingChain& chain) {
    Length sum;
    for (const StageAllowance& allowance : chain) {
        if (allowance.stage != Stage::PartMultiple) {
            sum += allowance.across;
        }
    }
    return sum;
}

Length gapInMultiple(const MillingChain& chain) {
    Length sum;
    for (const StageAllowance& allowance : chain) {
        if (allowance.stage == Stage::PartMultiple) {
            sum += allowance.along;
        }
    }
    return sum;
}

} // namespace stavewright
