#pragma once
// What the rack shows of one board, as plain values: prepared once for each state of the document,
// painted many times. Coordinates are millimetres in the board frame (x from the datum end, y from
// the near edge).

#include <QLineF>
#include <QPolygonF>
#include <QString>

#include <vector>

#include "core/audit/Audit.h"
#include "core/document/Document.h"

namespace stavewright::ui {

struct BlankPicture {
    BlankId id;
    PartId part;
    QPolygonF outline;
    QString mark;  ///< "R2"; of a multiple its first part's
    QString names; ///< the same, of a multiple all its parts: "C1 to C8"
    QString size;  ///< "3 1/4 x 31", width first as it is ripped
    Pose pose;
    int planing = 0; ///< with face A up: 1 towards the far end, -1 towards the datum; 0: unknown
    int tint = 0;    ///< of its piece group
    bool locked = false;
    bool wrong = false; ///< the audit has a failure that names it
    CutState state = CutState::Planned;
    friend bool operator==(const BlankPicture&, const BlankPicture&) = default;
};

struct OffcutPicture {
    QPolygonF outline;
    QString size;
    friend bool operator==(const OffcutPicture&, const OffcutPicture&) = default;
};

enum class CutKind { Crosscut, Rip, Trim };
struct CutPicture {
    QLineF line;
    CutKind kind = CutKind::Crosscut;
    friend bool operator==(const CutPicture&, const CutPicture&) = default;
};

/// A running tape reading from the datum end.
struct ReadingPicture {
    double x = 0;
    QString text;
    friend bool operator==(const ReadingPicture&, const ReadingPicture&) = default;
};

struct DefectPicture {
    DefectId id;
    DefectKind kind = DefectKind::Other;
    QString mark;
    Polygon onA; ///< empty where it does not show
    Polygon onB;
    friend bool operator==(const DefectPicture&, const DefectPicture&) = default;
};

struct BoardPicture {
    Board board;      ///< for grain and outline
    QString title;    ///< "Board 7"
    QString facts;    ///< "8/4 white oak, 8 1/2 x 120, 14.2 bd ft"
    QString yield;    ///< "yield 61.3 %"; empty when it is not touched
    QString share;    ///< "61.3 %", the same in short
    QString contents; ///< marks of its blanks: "R1 R2 T1-3"
    QString rules;    ///< "set aside", "only T, not L"; empty where nothing is asked of it
    bool touched = false;
    bool wrong = false; ///< the audit has a failure on this board
    QPolygonF outline;
    double length = 0;
    double lowest = 0;  ///< least y of the outline
    double highest = 0; ///< greatest y
    std::vector<QPolygonF> trims;
    std::vector<BlankPicture> blanks; ///< by section, strip and place: the order of the keyboard
    std::vector<OffcutPicture> offcuts;
    std::vector<CutPicture> cuts;
    std::vector<QPolygonF> kerfs;         ///< what the saws turn into dust, beside each cut
    std::vector<ReadingPicture> readings; ///< ascending
    std::vector<DefectPicture> defects;
    friend bool operator==(const BoardPicture&, const BoardPicture&) = default;
};

/// Pictures of all boards in rack order. `plan` may be the document's own, a preview, or null.
[[nodiscard]] std::vector<BoardPicture> picturesOf(const Document& document, const Plan* plan,
                                                   const AuditReport& report,
                                                   const LengthStyle& style);

[[nodiscard]] QPolygonF inMillimetres(const Polygon& polygon);

} // namespace stavewright::ui
