// The tables under a photograph, and the sentence that says how well its marks agree.

#include <algorithm>

#include "ui/entry/Cells.h"
#include "ui/entry/EntryModel.h"
#include "ui/entry/EntryView.h"
#include "ui/lumber/PhotoDesk.h"
#include "ui/lumber/PhotoSteps.h"
#include "ui/session/DocumentSession.h"
#include "ui/widgets/FractionLabel.h"
#include "ui/widgets/LengthWords.h"

namespace stavewright::ui {

using Of = photo::MarkResidual::Of;

void PhotoDesk::makeTables() {
    m_markModel = new EntryModel(
        m_session,
        {{tr("Mark"),
          tr("Corners 1 to 4: datum end or far end, near edge or far edge; readings of the tape, "
             "places on the edges, spots")},
         {tr("Reads"), tr("What the tape says there, from the datum end; of a spot its number, the "
                          "same in each photograph that shows it")},
         {tr("Off along"), tr("How far the mark lies from where all marks together put it")},
         {tr("Off across"), tr("How far the mark lies from where all marks together put it")}},
        [this] { return photo() != nullptr ? marksOf(photo()->controls).size() : 0; },
        [this](int row, int column) {
            const BoardPhoto shown = *photo();
            const PhotoMark mark = marksOf(shown.controls)[static_cast<std::size_t>(row)];
            const LengthStyle style = m_session.lengthStyle();
            EntryCell cell;
            if (column == 0) {
                cell.text = nameOf(shown.controls, mark);
            } else if (column == 1 && mark.of == Of::Tape) {
                const Board board = *m_board();
                cell = lengthCell(shown.controls.tape[mark.index].reading, style,
                                  [board, shown, mark](Length typed) -> Result<Edit> {
                                      BoardPhoto changed = shown;
                                      changed.controls.tape[mark.index].reading = typed;
                                      return replacingPhoto(board, changed);
                                  });
                cell.step = tr("Tape reading in a photograph");
            } else if (column == 1 && mark.of == Of::Spot) {
                cell = countCell(shown.controls.spots[mark.index].number, 1, photo::highestSpot,
                                 [board = *m_board(), shown, mark](int typed) -> Result<Edit> {
                                     BoardPhoto changed = shown;
                                     changed.controls.spots[mark.index].number = typed;
                                     return replacingPhoto(board, changed);
                                 });
                cell.step = tr("Number of a spot in a photograph");
            } else if (column > 1 && m_fit &&
                       static_cast<std::size_t>(row) < m_fit->residuals.size()) {
                const photo::MarkResidual& off = m_fit->residuals[static_cast<std::size_t>(row)];
                const bool says = column == 2 ? mark.of != Of::Edge : mark.of != Of::Tape;
                if (says && off.overruled && column == 2) {
                    cell.text = tr("tape decides");
                } else if (off.alone) {
                    cell.text = column == 2 ? tr("only here") : QString();
                    cell.tip = tr("Mark the same spot in a photograph that overlaps this one");
                } else if (says) {
                    cell.text = readingText(column == 2 ? off.along : off.across,
                                            {style.units, 64, style.withUnit});
                    cell.kind = EntryCell::Kind::Number;
                }
            }
            return cell;
        },
        this);
    m_marks = new EntryView("photoMarks", tr("Marks in the photograph"), m_markModel, this);
    m_factModel = new FactModel(
        m_session,
        [this] {
            std::vector<Fact> facts;
            const BoardPhoto* shown = photo();
            const Board* now = m_board();
            if (shown == nullptr || now == nullptr) {
                return facts;
            }
            FactList list(tr("Photograph"));
            const auto add = [&](const QString& name, const QString& tip,
                                 Length photo::BoardSize::*figure) {
                list.add(name, tip,
                         lengthCell(shown->size.*figure, m_session.lengthStyle(),
                                    [board = *now, changed = *shown,
                                     figure](Length typed) -> Result<Edit> {
                                        BoardPhoto measured = changed;
                                        measured.size.*figure = typed;
                                        return replacingPhoto(board, measured);
                                    }));
            };
            add(tr("Length"), tr("Between the marked ends, as measured with the tape"),
                &photo::BoardSize::length);
            add(tr("Width, datum"), tr("Between the marked corners of the datum end"),
                &photo::BoardSize::widthAtDatum);
            add(tr("Width, far"), tr("Between the marked corners of the far end"),
                &photo::BoardSize::widthAtFar);
            return list.take();
        },
        this);
    m_facts = new EntryView("photoFacts", tr("The board as it was measured"), m_factModel, this);
    m_facts->showAsFacts();
}

QString PhotoDesk::agreement() const {
    LengthStyle style = m_session.lengthStyle();
    style.denominator = 64;
    const auto text = [&](Length length) { return readingText(length, style); };
    const BoardPhoto* shown = photo();
    QString sentence;
    const bool onlyCorners = shown->controls.tape.empty() && shown->controls.edges.empty();
    if (onlyCorners) {
        sentence =
            tr("Straightened by its corners. What lies between may be off by about %1; a few "
               "tape readings (T) make it surer.")
                .arg(text(m_fit->worstExpected));
    } else {
        sentence =
            tr("The marks agree within %1, the worst within %2. Places may be off by about %3.")
                .arg(text(m_fit->rms), text(m_fit->worst), text(m_fit->worstExpected));
    }
    return sentence;
}

void PhotoDesk::say() {
    if (m_reading > 0) {
        m_words->setSign(Sign::None);
        m_words->setText(tr("Reading photographs..."));
        return;
    }
    const BoardPhoto* shown = photo();
    if (shown == nullptr) {
        m_words->setSign(Sign::None);
        m_words->setText({});
    } else if (m_fit) {
        constexpr Length muchOff = Length::inches(1, 4); // wider than a kerf and its safe side
        const bool much = m_fit->worstExpected > muchOff;
        m_words->setSign(much ? Sign::Triangle : Sign::Tick);
        m_words->setText(agreement());
    } else {
        m_words->setSign(Sign::Triangle);
        m_words->setText(m_trouble);
    }
}

} // namespace stavewright::ui
