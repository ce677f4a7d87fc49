#include "ui/window/KeyboardPage.h"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QKeySequence>
#include <QTableWidget>
#include <QVBoxLayout>

namespace stavewright::ui {

namespace {

struct Row {
    QString what;
    QString keys;
};

std::vector<Row> rows() {
    std::vector<Row> result;
    for (const Command& command : allCommands()) {
        QStringList keys;
        for (const char* key : command.keys) {
            keys << QKeySequence(key).toString(QKeySequence::NativeText);
        }
        if (!keys.isEmpty()) {
            result.push_back({command.tip, keys.join(KeyboardPage::tr(" or "))});
        }
    }
    result.push_back({KeyboardPage::tr("In the layout: next and previous blank"),
                      KeyboardPage::tr("Tab, Shift+Tab, Right, Left")});
    result.push_back({KeyboardPage::tr("In the layout: blank on the next or previous board"),
                      KeyboardPage::tr("Down, Up")});
    result.push_back({KeyboardPage::tr("In the layout: select nothing"), KeyboardPage::tr("Esc")});
    result.push_back({KeyboardPage::tr("In the layout: pick the selected blank up, turn it end for "
                                       "end, face over, lock it, lay it in the tray"),
                      KeyboardPage::tr("M, E, F, K, Delete")});
    result.push_back(
        {KeyboardPage::tr("In the layout: type where the blank's datum-side end stands; swap "
                          "it with another"),
         KeyboardPage::tr("P; X, then X on the other")});
    result.push_back(
        {KeyboardPage::tr("In the layout: take the next cut of the blank or board in the "
                          "hand, the one before it"),
         KeyboardPage::tr("C, Shift+C")});
    result.push_back({KeyboardPage::tr("In the layout: what can be done with the blank or board"),
                      KeyboardPage::tr("right button or Menu")});
    result.push_back(
        {KeyboardPage::tr("In the hand: move by a mark of the tape, by ten, to another "
                          "board"),
         KeyboardPage::tr("Arrows, Shift+arrows, Page Down and Page Up")});
    result.push_back({KeyboardPage::tr("In the hand: nearest legal place, lay down, put back"),
                      KeyboardPage::tr("N, Enter, Esc")});
    result.push_back({KeyboardPage::tr("In the hand: let no mark draw the blank"),
                      KeyboardPage::tr("Ctrl held")});
    result.push_back({KeyboardPage::tr("In the layout: zoom, pan"),
                      KeyboardPage::tr("Wheel, Space or middle button and drag")});
    result.push_back(
        {KeyboardPage::tr("Lumber: type or paste a tally; more rows like this one; put "
                          "it into the job"),
         KeyboardPage::tr("Ctrl+R; Ctrl+D; Ctrl+Return")});
    result.push_back(
        {KeyboardPage::tr("On the board: begin a mark by its letter, through the board"),
         KeyboardPage::tr("S L O C T K W P B A N Y X, with Shift")});
    result.push_back(
        {KeyboardPage::tr("On the board: pick, ellipse, corners, freehand, stroke, bad, "
                          "seen, edges"),
         KeyboardPage::tr("V E G H Q R U D, then arrows and Space")});
    result.push_back({KeyboardPage::tr("On the board: other face, pair, say a stretch, large"),
                      KeyboardPage::tr("F, J, /, Z")});
    result.push_back({KeyboardPage::tr("On the board: next mark, move it, stretch it"),
                      KeyboardPage::tr("Tab, arrows, Ctrl+arrows; Shift for an inch")});
    result.push_back({KeyboardPage::tr("On the board: its photographs; add photographs"),
                      KeyboardPage::tr("I; Ctrl+Shift+I")});
    result.push_back({KeyboardPage::tr("On the board: suggested marks, next one; take, dismiss it"),
                      KeyboardPage::tr("M; Enter, Del")});
    result.push_back(
        {KeyboardPage::tr("In a photograph: corners; tape, near edge, far edge at the pointer"),
         KeyboardPage::tr("1 2 3 4; T N F")});
    result.push_back({KeyboardPage::tr("In a photograph: next mark, nudge it, its reading, leave"),
                      KeyboardPage::tr("Tab, arrows (Shift, Ctrl), Enter, Esc")});
    result.push_back({KeyboardPage::tr("On the board: next and previous board"),
                      KeyboardPage::tr("Page Down, Page Up")});
    result.push_back(
        {KeyboardPage::tr("Glue-up: pick a stave or ply, move it, turn it end for end, roll it "
                          "over"),
         KeyboardPage::tr("Up, Down; Ctrl+Up, Ctrl+Down; E; F")});
    result.push_back(
        {KeyboardPage::tr("Glue-up: lock the stave, exchange it with the panel that matches (a ply "
                          "with another block), arrange or pair plies"),
         KeyboardPage::tr("L; X; A")});
    result.push_back({KeyboardPage::tr("Glue-up: what can be done with the stave or ply; swap two "
                                       "staves"),
                      KeyboardPage::tr("Right button or Menu; drag one onto the other")});
    result.push_back({KeyboardPage::tr("Glue-up: before, before and now by turns, back, photograph "
                                       "of the staves laid out"),
                      KeyboardPage::tr("B; Shift+B; V; P")});
    result.push_back(
        {KeyboardPage::tr("Glue-up: next and previous panel, next pane, the stave on its board"),
         KeyboardPage::tr("Page Down, Page Up; F6; Enter")});
    result.push_back({KeyboardPage::tr("Glue-up, weights: choose one, type it"),
                      KeyboardPage::tr("Arrows; digits, then Enter")});
    result.push_back({KeyboardPage::tr("Staves laid out: corners, joints, other face, taken from "
                                       "the other side, remove"),
                      KeyboardPage::tr("C; J; V; R; Shift+Del")});
    result.push_back({KeyboardPage::tr("Staves laid out: next joint, move it, lean it, part it, "
                                       "find all, by the widths"),
                      KeyboardPage::tr("Tab; Up, Down; Left, Right; +, −; F; W")});
    result.push_back(
        {KeyboardPage::tr(
             "Shop rack: search; take into the job, or put on the shop rack; throw out"),
         KeyboardPage::tr("Ctrl+F; Enter; Del")});
    result.push_back({KeyboardPage::tr("In a length: step, ten steps, take back"),
                      KeyboardPage::tr("Up, Shift+Up, Esc")});
    return result;
}

} // namespace

KeyboardPage::KeyboardPage(QWidget* parent)
    : QDialog(parent) {
    setWindowTitle(tr("Keyboard"));
    const std::vector<Row> all = rows();
    auto* table = new QTableWidget(static_cast<int>(all.size()), 2, this);
    table->setHorizontalHeaderLabels({tr("What it does"), tr("Keys")});
    table->verticalHeader()->hide();
    // Rows as high as their words need: nothing of what a key does may be cut off.
    table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setShowGrid(false);
    table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    for (int row = 0; row < static_cast<int>(all.size()); ++row) {
        table->setItem(row, 0, new QTableWidgetItem(all[static_cast<std::size_t>(row)].what));
        table->setItem(row, 1, new QTableWidgetItem(all[static_cast<std::size_t>(row)].keys));
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(table);
    layout->addWidget(buttons);
    resize(860, 600);
}

} // namespace stavewright::ui
