#include "RowJson.h"

#include <iomanip>
#include <sstream>

namespace stavewright::cutting::bench {

namespace {

class Object {
  public:
    Object() { m_text << std::setprecision(12) << '{'; }

    Object& add(const char* name, const std::string& value) {
        key(name) << '"';
        for (const char c : value) {
            if (c == '"' || c == '\\') {
                m_text << '\\';
            }
            m_text << c;
        }
        m_text << '"';
        return *this;
    }
    template <class T>
    Object& add(const char* name, const T& value) {
        key(name) << value;
        return *this;
    }
    template <class T>
    Object& add(const char* name, const std::optional<T>& value) {
        key(name);
        if (value) {
            m_text << std::boolalpha << *value;
        } else {
            m_text << "null";
        }
        return *this;
    }
    std::string close() {
        m_text << '}';
        return m_text.str();
    }

  private:
    std::ostream& key(const char* name) {
        m_text << (m_first ? "" : ", ") << '"' << name << "\": ";
        m_first = false;
        return m_text;
    }

    std::ostringstream m_text;
    bool m_first = true;
};

} // namespace

std::string asJson(const Row& row) {
    Object object;
    object.add("suite", row.suite)
        .add("family", row.family)
        .add("boards", row.boards)
        .add("seed", row.seed)
        .add("instance", row.instance)
        .add("value", row.value)
        .add("bound", row.bound)
        .add("gap", row.gap)
        .add("gap_board_feet", row.gapBoardFeet)
        .add("touched_board_feet", row.touchedBoardFeet)
        .add("placed", row.placed)
        .add("demanded", row.demanded);
    if (row.audited) {
        object.add("audit", std::string(row.faults.empty() ? "pass" : "fail"));
    } else {
        object.add("audit", std::optional<int>());
    }
    return object.add("greedy", row.greedy)
        .add("careful", row.careful)
        .add("saving", row.saving)
        .add("saving_careful", row.savingCareful)
        .add("first_plan_s", row.firstPlan)
        .add("total_s", row.total)
        .add("peak_mb", row.peakMegabytes)
        .add("staves_per_panel", row.stavesPerPanel)
        .add("boards_per_panel", row.boardsPerPanel)
        .add("to_goal_s", row.toGoal)
        .add("published", row.published)
        .add("reached", row.reached)
        .close();
}

} // namespace stavewright::cutting::bench
