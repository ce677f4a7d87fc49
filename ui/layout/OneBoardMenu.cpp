#include "ui/layout/OneBoardMenu.h"

#include <QCoreApplication>
#include <QMenu>

#include <algorithm>

#include "core/base/ListedText.h"
#include "core/hand/OneBoard.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

QString tr(const char* text) { return QCoreApplication::translate("OneBoardMenu", text); }

QString marksOf(const Document& document, const std::vector<PartId>& parts) {
    std::vector<std::string> marks;
    for (const PartId id : parts) {
        if (const Part* part = findPart(document, id)) {
            marks.push_back(part->mark);
        }
    }
    return words(listed(marks));
}

void want(DocumentSession& session, PartId part, PartId other,
          const std::function<void(const QString&)>& say) {
    const Edit edit = hand::wantTogether(session.document(), part, other);
    const std::vector<PartId> both = part == other ? std::vector{part} : std::vector{part, other};
    if (session.edit(tr("Want %1 from one board").arg(marksOf(session.document(), both)), edit)) {
        say(tr("All of %1 are wanted from one board; the next plan heeds it where it can. Ctrl+Z "
               "takes it back.")
                .arg(marksOf(session.document(), hand::wantedWith(session.document(), part))));
    }
}

void let(DocumentSession& session, PartId part, const std::function<void(const QString&)>& say) {
    const QString mark = marksOf(session.document(), {part});
    if (session.edit(tr("Let %1 come from any board").arg(mark),
                     hand::letApart(session.document(), part))) {
        say(tr("%1 may come from any board. Ctrl+Z takes it back.").arg(mark));
    }
}

} // namespace

void addOneBoardMenu(QMenu& menu, DocumentSession& session, PartId part,
                     const std::function<void(const QString&)>& say) {
    const Document& document = session.document();
    const Part* own = findPart(document, part);
    if (own == nullptr) {
        return;
    }
    QMenu* choices = menu.addMenu(tr("These come from one board"));
    choices->setObjectName("oneBoardMenu");
    const std::vector<PartId> wanted = hand::wantedWith(document, part);
    const auto add = [&](const Part& other, const QString& text) {
        QAction* action = choices->addAction(text);
        action->setCheckable(true);
        action->setChecked(std::find(wanted.begin(), wanted.end(), other.id) != wanted.end());
        QObject::connect(action, &QAction::triggered, &session,
                         [&session, part, other = other.id, say](bool on) {
                             if (on) {
                                 want(session, part, other, say);
                             } else {
                                 let(session, other, say);
                             }
                         });
    };
    add(*own, tr("All of %1, %2").arg(words(own->mark), words(own->name)));
    choices->addSeparator();
    for (const Part& other : document.parts) {
        if (other.id != part && other.species == own->species) { // no board is of two woods
            add(other, tr("With %1, %2").arg(words(other.mark), words(other.name)));
        }
    }
}

} // namespace stavewright::ui
