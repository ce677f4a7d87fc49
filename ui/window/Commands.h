#pragma once
// Every command of the window, once: its id, words, keys and icon. Menus, shortcuts and the
// keyboard page read this table; the keys are explicit, because standard keys differ from desktop
// to desktop.

#include <QString>

#include <vector>

namespace stavewright::ui {

enum class CommandId {
    NewJob,
    OpenJob,
    SaveJob,
    SaveJobAs,
    ExportPdf,
    Print,
    CloseWindow,
    Undo,
    Redo,
    ZoomIn,
    ZoomOut,
    FitLength,
    FitAll,
    TurnFace,
    AppearanceSystem,
    AppearanceLight,
    AppearanceDark,
    UnitsInches,
    UnitsMillimetres,
    FullScreen,
    PlaceLumber,
    PlacePiece,
    PlaceLayout,
    PlaceGlueUp,
    PlacePapers,
    PlaceShop,
    PlaceShopRack,
    Plan,
    StopAndKeep,
    DiscardPlanning,
    ComparePlans,
    DemandCosts,
    WhyHere,
    PlanRestKeeping,
    PlanRestAgain,
    ClearPlan,
    CutMade,
    AllCutsMade,
    FreshEnd,
    NextState,
    KnotFound,
    BlankSpoiled,
    BoardRejected,
    WarpAgain,
    JobLog,
    Keyboard,
    About
};

struct Command {
    CommandId id;
    const char* name; ///< stable, also the object name of its action
    QString text;     ///< with its access key
    QString tip;      ///< what it does, one sentence
    std::vector<const char*> keys;
    const char* icon = nullptr;
};

/// In menu order.
[[nodiscard]] std::vector<Command> allCommands();

} // namespace stavewright::ui
