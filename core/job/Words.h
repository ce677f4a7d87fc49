#pragma once
// The words that stand in a job file for the values of enumerations, lower case and in the trade's
// language. Reader, writer and the test of the schema use these tables.
//
//   wordOf(DefectKind::SoundKnot) -> "sound knot";  valueOf<CutState>("milled") -> CutState::Milled

#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "core/document/Document.h"

namespace stavewright::job {

template <class Enum>
struct Words; // what a wrong word is called in a message, and all pairs of word and value

template <>
struct Words<RingWish> {
    static constexpr std::string_view what = "a wish for the rings";
    static constexpr std::pair<std::string_view, RingWish> all[] = {
        {"alternate", RingWish::Alternate},
        {"heart up", RingWish::HeartUp},
        {"best face up", RingWish::BestFaceUp}};
};
template <>
struct Words<GlueTerm> {
    static constexpr std::string_view what = "a term of the glue-up";
    static constexpr std::pair<std::string_view, GlueTerm> all[] = {
        {"planing direction", GlueTerm::Planing},
        {"rings", GlueTerm::Rings},
        {"knots on show", GlueTerm::ShowFace},
        {"step at joints", GlueTerm::JointStep},
        {"panel cup", GlueTerm::PanelCup},
        {"colour", GlueTerm::Colour},
        {"other board", GlueTerm::OtherBoard},
        {"figure", GlueTerm::Figure},
        {"knots at joints", GlueTerm::KnotAtJoint},
        {"knots crowded", GlueTerm::KnotsCrowded},
        {"figure at outer edges", GlueTerm::OuterFigure},
        {"seam on the centre line", GlueTerm::CentreSeam},
        {"narrow staves outside", GlueTerm::NarrowOutside}};
};
template <>
struct Words<UnitSystem> {
    static constexpr std::string_view what = "a system of units";
    static constexpr std::pair<std::string_view, UnitSystem> all[] = {
        {"inches", UnitSystem::Inches}, {"millimetres", UnitSystem::Millimetres}};
};
template <>
struct Words<DefectKind> {
    static constexpr std::string_view what = "a kind of defect";
    static constexpr std::pair<std::string_view, DefectKind> all[] = {
        {"sound knot", DefectKind::SoundKnot},
        {"loose knot", DefectKind::LooseKnot},
        {"knot hole", DefectKind::KnotHole},
        {"check", DefectKind::Check},
        {"split", DefectKind::Split},
        {"shake", DefectKind::Shake},
        {"wane", DefectKind::Wane},
        {"pith", DefectKind::Pith},
        {"bark pocket", DefectKind::BarkPocket},
        {"sapwood", DefectKind::Sapwood},
        {"stain", DefectKind::Stain},
        {"worm holes", DefectKind::WormHoles},
        {"other", DefectKind::Other}};
};
template <>
struct Words<BoardFace> {
    static constexpr std::string_view what = "a face of a board";
    static constexpr std::pair<std::string_view, BoardFace> all[] = {{"A", BoardFace::A},
                                                                     {"B", BoardFace::B}};
};
template <>
struct Words<photo::Corner> {
    static constexpr std::string_view what = "a corner of a board";
    static constexpr std::pair<std::string_view, photo::Corner> all[] = {
        {"datum near", photo::Corner::DatumNear},
        {"datum far", photo::Corner::DatumFar},
        {"end near", photo::Corner::EndNear},
        {"end far", photo::Corner::EndFar}};
};
template <>
struct Words<photo::LongEdge> {
    static constexpr std::string_view what = "a long edge of a board";
    static constexpr std::pair<std::string_view, photo::LongEdge> all[] = {
        {"near", photo::LongEdge::Near}, {"far", photo::LongEdge::Far}};
};
template <>
struct Words<Warp::Where> {
    static constexpr std::string_view what = "a place of warp";
    static constexpr std::pair<std::string_view, Warp::Where> all[] = {
        {"even", Warp::Where::Even},
        {"mostly at the datum end", Warp::Where::MostlyAtDatumEnd},
        {"mostly at the far end", Warp::Where::MostlyAtFarEnd}};
};
template <>
struct Words<HeartSide> {
    static constexpr std::string_view what = "a heart side";
    static constexpr std::pair<std::string_view, HeartSide> all[] = {
        {"unknown", HeartSide::Unknown}, {"A", HeartSide::FaceA}, {"B", HeartSide::FaceB}};
};
template <>
struct Words<PlaningDirection> {
    static constexpr std::string_view what = "a planing direction";
    static constexpr std::pair<std::string_view, PlaningDirection> all[] = {
        {"unknown", PlaningDirection::Unknown},
        {"towards the far end", PlaningDirection::TowardsFarEnd},
        {"towards the datum end", PlaningDirection::TowardsDatumEnd}};
};
template <>
struct Words<Sawn> {
    static constexpr std::string_view what = "a way of sawing";
    static constexpr std::pair<std::string_view, Sawn> all[] = {
        {"plain", Sawn::Plain}, {"rift", Sawn::Rift}, {"quartered", Sawn::Quartered}};
};
template <>
struct Words<Dimension> {
    static constexpr std::string_view what = "a dimension";
    static constexpr std::pair<std::string_view, Dimension> all[] = {
        {"length", Dimension::Length},
        {"width", Dimension::Width},
        {"thickness", Dimension::Thickness}};
};
template <>
struct Words<Anchored::From> {
    static constexpr std::string_view what = "an end to measure from";
    static constexpr std::pair<std::string_view, Anchored::From> all[] = {
        {"low", Anchored::From::Low}, {"high", Anchored::From::High}};
};
template <>
struct Words<ZoneFaces> {
    static constexpr std::string_view what = "a choice of faces";
    static constexpr std::pair<std::string_view, ZoneFaces> all[] = {
        {"A", ZoneFaces::A}, {"B", ZoneFaces::B}, {"both", ZoneFaces::Both}};
};
template <>
struct Words<ZoneRole> {
    static constexpr std::string_view what = "a role of a zone";
    static constexpr std::pair<std::string_view, ZoneRole> all[] = {
        {"show face", ZoneRole::ShowFace},
        {"hidden face", ZoneRole::HiddenFace},
        {"joinery end", ZoneRole::JoineryEnd},
        {"glued edge", ZoneRole::GluedEdge},
        {"profiled edge", ZoneRole::ProfiledEdge}};
};
template <>
struct Words<Verdict> {
    static constexpr std::string_view what = "a verdict on a defect";
    static constexpr std::pair<std::string_view, Verdict> all[] = {
        {"allowed", Verdict::Allowed},
        {"allowed if filled", Verdict::AllowedIfFilled},
        {"forbidden", Verdict::Forbidden}};
};
template <>
struct Words<JointKind> {
    static constexpr std::string_view what = "a kind of joint";
    static constexpr std::pair<std::string_view, JointKind> all[] = {
        {"pocket screw", JointKind::PocketScrew},
        {"mortise and tenon", JointKind::MortiseAndTenon},
        {"dowel", JointKind::Dowel},
        {"lap joint", JointKind::LapJoint},
        {"slot fastener", JointKind::SlotFastener},
        {"bore", JointKind::Bore}};
};
template <>
struct Words<MatchGroup::Want> {
    static constexpr std::string_view what = "a wish for a group";
    static constexpr std::pair<std::string_view, MatchGroup::Want> all[] = {
        {"one board", MatchGroup::Want::OneBoard}, {"neighbours", MatchGroup::Want::Neighbours}};
};
template <>
struct Words<BoardRule::Kind> {
    static constexpr std::string_view what = "what a board is kept for";
    static constexpr std::pair<std::string_view, BoardRule::Kind> all[] = {
        {"kept for", BoardRule::Kind::KeptFor}, {"kept off", BoardRule::Kind::KeptOff}};
};
template <>
struct Words<FlattenMethod> {
    static constexpr std::string_view what = "a way to flatten panels";
    static constexpr std::pair<std::string_view, FlattenMethod> all[] = {
        {"scraper and sander", FlattenMethod::ScraperAndSander},
        {"planer", FlattenMethod::Planer},
        {"sled", FlattenMethod::Sled}};
};
template <>
struct Words<Stage> {
    static constexpr std::string_view what = "a milling stage";
    static constexpr std::pair<std::string_view, Stage> all[] = {
        {"sand", Stage::Sand},
        {"trim to length", Stage::TrimToLength},
        {"rip to width", Stage::RipToWidth},
        {"plane", Stage::Plane},
        {"joint face and edge", Stage::JointFaceAndEdge},
        {"rough crosscut", Stage::RoughCrosscut},
        {"trim panel square", Stage::TrimPanelSquare},
        {"flatten panel", Stage::FlattenPanel},
        {"glue edges", Stage::GlueEdges},
        {"joint stave edges", Stage::JointStaveEdges},
        {"plane sawn faces", Stage::PlaneSawnFaces},
        {"second rip", Stage::SecondRip},
        {"second plane", Stage::SecondPlane},
        {"second joint", Stage::SecondJoint},
        {"glue faces", Stage::GlueFaces},
        {"plane glue faces", Stage::PlaneGlueFaces},
        {"part multiple", Stage::PartMultiple}};
};
template <>
struct Words<CutState> {
    static constexpr std::string_view what = "a state of work";
    static constexpr std::pair<std::string_view, CutState> all[] = {
        {"planned", CutState::Planned}, {"cut", CutState::Cut},
        {"milled", CutState::Milled},   {"ripped", CutState::Ripped},
        {"glued", CutState::Glued},     {"second milled", CutState::SecondMilled},
        {"final", CutState::Final}};
};
template <>
struct Words<FirstFacing> {
    static constexpr std::string_view what = "a way to face a section first";
    static constexpr std::pair<std::string_view, FirstFacing> all[] = {
        {"whole", FirstFacing::Whole}, {"rough-ripped first", FirstFacing::RoughRippedFirst}};
};
template <>
struct Words<Origin::Source> {
    static constexpr std::string_view what = "an origin of a plan";
    static constexpr std::pair<std::string_view, Origin::Source> all[] = {
        {"solver", Origin::Source::Solver}, {"hand", Origin::Source::Hand}};
};

template <class Enum>
[[nodiscard]] constexpr std::string_view wordOf(Enum value) {
    for (const auto& [word, meant] : Words<Enum>::all) {
        if (meant == value) {
            return word;
        }
    }
    return {};
}

template <class Enum>
[[nodiscard]] constexpr std::optional<Enum> valueOf(std::string_view word) {
    for (const auto& [candidate, meant] : Words<Enum>::all) {
        if (candidate == word) {
            return meant;
        }
    }
    return std::nullopt;
}

} // namespace stavewright::job
