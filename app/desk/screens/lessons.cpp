#include <algorithm>
#include <map>
#include <vector>

#include "app/desk/screens/screens.h"
#include "app/desk/text/text.h"
#include "app/desk/ui/widgets.h"

namespace stirbench::desk {

namespace {

// What this person has done with a lesson so far.
struct Standing {
  bool tried = false;
  bool passed = false;
  double best_norm = 0.0;
};

class Lessons final : public Screen {
 public:
  explicit Lessons(Desk& desk) : desk_(desk) {}
  const char* name() const override { return "lessons"; }
  TopBar top_bar(Ui&) override { return {tr("Train"), tr("choose a lesson"), tr("Home"), true}; }

  void entered(Ui&) override {
    standing_.clear();
    if (!desk_.store || desk_.person.id == 0) return;
    for (const auto& attempt : desk_.store->attempts(desk_.person.id)) {
      if (!attempt.finished) continue;
      Standing& s = standing_[attempt.lesson];
      s.tried = true;
      s.passed = s.passed || attempt.passed;
      s.best_norm = std::max(s.best_norm, attempt.score_norm);
    }
  }

  void draw(Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(860.0F));
    PanelScope panel(ui, "lessons.list", {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h},
                     {.caption = tr("Lessons")});
    for (const training::Lesson* lesson : in_order()) {
      const Standing s = standing_.count(lesson->id) != 0 ? standing_[lesson->id] : Standing{};
      RowStyle row;
      row.title = lesson->title;
      row.detail = lesson->summary;
      row.right = tr("about {n} min", {{"n", plain_number(lesson->minutes, 0)}}) +
                  (s.passed  ? " · " + tr("passed")
                   : s.tried ? " · " + tr("best {p} %", {{"p", plain_number(100.0 * s.best_norm, 0)}})
                             : "");
      row.icon = s.passed ? Icon::check : s.tried ? Icon::half_ring : Icon::ring;
      row.icon_colour = s.passed ? Token::ok : s.tried ? Token::due : Token::ink2;
      row.chevron = true;
      if (list_row(ui, "lessons." + lesson->id, row)) ui.app.push("lesson", {{"lesson", lesson->id}});
    }
  }

 private:
  // First batch first, then the shortest: what one can take in next.
  std::vector<const training::Lesson*> in_order() const {
    std::vector<const training::Lesson*> list;
    for (const auto& [id, lesson] : desk_.library.lessons) list.push_back(&lesson);
    std::stable_sort(list.begin(), list.end(), [](const auto* a, const auto* b) {
      const bool a_first = a->id == "first-batch";
      const bool b_first = b->id == "first-batch";
      if (a_first != b_first) return a_first;
      return a->minutes < b->minutes;
    });
    return list;
  }

  Desk& desk_;
  std::map<std::string, Standing> standing_;
};

}  // namespace

std::unique_ptr<Screen> make_lessons(Desk& desk) { return std::make_unique<Lessons>(desk); }

}  // namespace stirbench::desk
