#include "ui/piece/ZoneCells.h"

#include <QCoreApplication>

#include <algorithm>

#include "core/milling/PartZones.h"
#include "ui/entry/Cells.h"
#include "ui/entry/Reading.h"
#include "ui/piece/PartSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/LengthWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("ZoneCells", text); }

QStringList faceWords() { return {tr("A"), tr("B"), tr("both")}; }
QStringList roleWords() {
    return {tr("show face"), tr("hidden face"), tr("joinery end"), tr("glued edge"),
            tr("profiled edge")};
}

EntryCell anchoredCell(const LengthStyle& style, const ZoneArea& area,
                       Anchored AnchoredStretch::*end, AnchoredStretch ZoneArea::*stretch,
                       const SetArea& set) {
    EntryCell cell;
    cell.kind = EntryCell::Kind::Number;
    const Anchored& shown = (area.*stretch).*end;
    cell.text = anchoredText(shown, style);
    cell.tip = tr("A length from the left end, or from the other end: end, end - 3 1/2");
    if (!exactTip(shown.offset, style).isEmpty()) {
        cell.opensWith = anchoredText(shown, finest(style));
        cell.tip += "\n" + exactTip(shown.offset, style);
    }
    cell.propose = [=](const QString& typed) -> Result<Edit> {
        const Result<Anchored> read = readAnchored(typed, style);
        if (!read) {
            return read.error();
        }
        ZoneArea changed = area;
        (changed.*stretch).*end = read.value();
        return set(changed);
    };
    return cell;
}

/// The part with its zones written out under ids of their own, and one of them changed.
Edit withZoneChanged(const Document& document, const Part& part, std::size_t at,
                     const std::function<void(Zone&)>& change) {
    Part changed = part;
    changed.zones = zonesOrDefaults(document.shop, part);
    std::int64_t next = document.nextId;
    for (Zone& zone : changed.zones) {
        if (!zone.id.isSet()) {
            zone.id = ZoneId{next++};
        }
    }
    change(changed.zones[at]);
    return replacing(std::move(changed));
}

} // namespace

QString anchoredText(const Anchored& anchored, const LengthStyle& style) {
    if (anchored.from == Anchored::From::Low) {
        return tapeText(anchored.offset, style);
    }
    if (anchored.offset == Length()) {
        return tr("end");
    }
    return anchored.offset < Length() ? tr("end - %1").arg(tapeText(-anchored.offset, style))
                                      : tr("end + %1").arg(tapeText(anchored.offset, style));
}

Result<Anchored> readAnchored(const QString& typed, const LengthStyle& style) {
    QString text = typed.trimmed();
    const QString end = tr("end");
    Anchored anchored;
    if (text.startsWith(end, Qt::CaseInsensitive)) {
        anchored.from = Anchored::From::High;
        text = text.mid(end.size()).trimmed();
        if (text.isEmpty()) {
            return anchored;
        }
    }
    const bool minus = anchored.from == Anchored::From::High && text.startsWith('-');
    if (minus || (anchored.from == Anchored::From::High && text.startsWith('+'))) {
        text = text.mid(1).trimmed();
    }
    const Result<Length> length = readLength(text, style);
    if (!length) {
        return length.error();
    }
    anchored.offset = minus ? -length.value() : length.value();
    return anchored;
}

std::vector<EntryTitle> areaTitles() {
    return {{tr("Face"), tr("A, B or both")},
            {tr("From"), tr("Along the grain, from the left end or from the end")},
            {tr("To"), tr("Along the grain, from the left end or from the end")},
            {tr("Edge from"), tr("Across, from the near edge or from the end (far edge)")},
            {tr("Edge to"), tr("Across, from the near edge or from the end (far edge)")}};
}

EntryCell areaCell(const LengthStyle& style, const ZoneArea& area, int column, const SetArea& set) {
    switch (column) {
    case 1:
        return anchoredCell(style, area, &AnchoredStretch::from, &ZoneArea::along, set);
    case 2:
        return anchoredCell(style, area, &AnchoredStretch::to, &ZoneArea::along, set);
    case 3:
        return anchoredCell(style, area, &AnchoredStretch::from, &ZoneArea::across, set);
    case 4:
        return anchoredCell(style, area, &AnchoredStretch::to, &ZoneArea::across, set);
    default:
        break;
    }
    return choiceCell(static_cast<int>(area.faces), faceWords(), [area, set](int faces) {
        ZoneArea changed = area;
        changed.faces = static_cast<ZoneFaces>(faces);
        return Result<Edit>(set(changed));
    });
}

QStringList ruleSetNames(const Shop& shop) {
    QStringList names;
    for (const RuleSet& rules : shop.ruleSets) {
        names << words(rules.name);
    }
    return names;
}

EntryCell ruleSetCell(const Shop& shop, RuleSetId now, const std::function<Edit(RuleSetId)>& take) {
    const auto found = std::find_if(shop.ruleSets.begin(), shop.ruleSets.end(),
                                    [now](const RuleSet& rules) { return rules.id == now; });
    const int at =
        found == shop.ruleSets.end() ? -1 : static_cast<int>(found - shop.ruleSets.begin());
    return choiceCell(at, ruleSetNames(shop), [&shop, take](int typed) {
        return Result<Edit>(take(shop.ruleSets[static_cast<std::size_t>(typed)].id));
    });
}

std::vector<EntryTitle> zoneTitles() {
    std::vector<EntryTitle> titles = {
        {tr("Zone"), {}},
        {tr("Rules"), tr("The rule set that holds here, of the place Shop")},
        {tr("Role"), tr("What the zone is for")}};
    for (const EntryTitle& title : areaTitles()) {
        titles.push_back(title);
    }
    return titles;
}

EntryCell zoneCell(const DocumentSession& session, const Part& part, std::size_t at, int column) {
    const Document& document = session.document();
    const std::vector<Zone> zones = zonesOrDefaults(document.shop, part);
    if (at >= zones.size()) {
        return {};
    }
    const Zone& zone = zones[at];
    const auto change = [&document, part, at](const std::function<void(Zone&)>& set) {
        return withZoneChanged(document, part, at, set);
    };
    EntryCell cell;
    switch (column) {
    case 0:
        cell = textCell(zone.name, [change](std::string typed) {
            return Result<Edit>(change([&](Zone& z) { z.name = typed; }));
        });
        break;
    case 1:
        cell = ruleSetCell(document.shop, zone.rules, [change](RuleSetId id) {
            return change([id](Zone& z) { z.rules = id; });
        });
        break;
    case 2:
        cell = choiceCell(static_cast<int>(zone.role), roleWords(), [change](int typed) {
            return Result<Edit>(
                change([typed](Zone& z) { z.role = static_cast<ZoneRole>(typed); }));
        });
        break;
    default:
        cell = areaCell(session.lengthStyle(), zone.area, column - 3, [change](const ZoneArea& a) {
            return change([&](Zone& z) { z.area = a; });
        });
        break;
    }
    cell.step = tr("Part %1: zone %2").arg(words(part.mark), words(zone.name));
    return cell;
}

} // namespace stavewright::ui
