#include "ui/glueup/TermTable.h"

#include <QHeaderView>

#include <cmath>

#include "core/panels/TermWords.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

enum Column { Term, Now, Before, Weight, Points };
constexpr double mostPoints = 1000;

/// Weights of lengths are typed for an inch where the job is in inches.
double perShownUnit(const glueup::TermValue& value, const JobInfo& info) {
    const bool perInch =
        value.unit == glueup::TermUnit::Millimetres && info.units == UnitSystem::Inches;
    return perInch ? 25.4 : 1;
}

} // namespace

TermTable::TermTable(QWidget* parent)
    : QTableWidget(static_cast<int>(allGlueTerms.size()), 5, parent) {
    setObjectName("glueTerms");
    setAccessibleName(tr("Terms of the arrangement"));
    setHorizontalHeaderLabels({tr("Term"), tr("Now"), tr("Before"), tr("Weight"), tr("Points")});
    horizontalHeaderItem(Points)->setToolTip(tr("What the term adds; fewer are better"));
    verticalHeader()->hide();
    verticalHeader()->setDefaultSectionSize(24);
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(Term, QHeaderView::Stretch);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setTabKeyNavigation(false);
    setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                    QAbstractItemView::AnyKeyPressed);
    connect(this, &QTableWidget::itemChanged, this, &TermTable::typed);
}

QSize TermTable::sizeHint() const {
    return {340, horizontalHeader()->sizeHint().height() + rowCount() * 24 + 4};
}

void TermTable::setScores(const glueup::Score& now, const glueup::Score& before,
                          const JobInfo& info) {
    m_filling = true;
    m_now = now;
    m_info = info;
    for (std::size_t i = 0; i < now.terms.size(); ++i) {
        const glueup::TermValue& value = now.terms[i];
        const bool worse = value.thousandths > before.terms[i].thousandths;
        const auto put = [&](Column column, const QString& text, bool editable = false) {
            // Filled where it stands: a cell that is being typed in gives the focus back.
            QTableWidgetItem* item = this->item(static_cast<int>(i), column);
            if (item == nullptr) {
                item = new QTableWidgetItem;
                setItem(static_cast<int>(i), column, item);
            }
            item->setText(text);
            item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable |
                           (editable ? Qt::ItemIsEditable : Qt::NoItemFlags));
            item->setTextAlignment((column == Term ? Qt::AlignLeft : Qt::AlignRight) |
                                   Qt::AlignVCenter);
            item->setToolTip(column == Weight ? words(panels::weightText(value, info))
                                              : words(panels::meaningOf(value.term)));
            QFont weighty = font();
            weighty.setWeight(worse ? QFont::DemiBold : QFont::Normal);
            item->setFont(weighty);
        };
        const QString name = words(panels::nameOf(value.term));
        put(Term, worse ? tr("▲ %1").arg(name) : name);
        const glueup::TermValue& then = before.terms[i];
        put(Now, words(panels::valueBeside(value, then, info)).section(' ', 0, 0));
        put(Before, words(panels::valueBeside(then, value, info)).section(' ', 0, 0));
        put(Weight,
            QString::number(value.weightHundredths / 100.0 * perShownUnit(value, info), 'g', 4),
            value.weightHundredths > 0 || value.term != GlueTerm::PanelCup);
        put(Points, words(panels::pointsText(value.cost())));
    }
    m_filling = false;
}

void TermTable::typed(QTableWidgetItem* item) {
    if (m_filling || item->column() != Weight) {
        return;
    }
    const auto row = static_cast<std::size_t>(item->row());
    const glueup::TermValue& value = m_now.terms[row];
    bool isNumber = false;
    const double points = item->text().trimmed().replace(',', '.').toDouble(&isNumber);
    if (!isNumber || points < 0 || points > mostPoints) {
        emit refused(
            tr("The weight is \"%1\"; it must be a number from 0 to 1000.").arg(item->text()));
        return;
    }
    emit weightTyped(value.term, static_cast<int>(std::lround(points * 100 / value.times /
                                                              perShownUnit(value, m_info))));
}

} // namespace stavewright::ui
