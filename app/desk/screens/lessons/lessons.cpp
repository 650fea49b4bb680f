#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "app/desk/kit/text/find_words.h"
#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// What this person has done with a lesson so far.
struct Standing {
  bool tried = false;
  bool passed = false;
  double best_norm = 0.0;
};

class Lessons final : public Screen {
 public:
  explicit Lessons(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "lessons"; }
  TopBar top_bar(kit::Ui&) override { return {tr("Train"), tr("choose a lesson"), tr("Home"), true}; }

  void entered(kit::Ui&) override {
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

  void draw(kit::Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(860.0F));
    kit::PanelScope panel(ui, "lessons.list",
                          {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h},
                          {.caption = tr("Lessons")});
    text_field(
        ui, "lessons.search", tr("Search the lessons"), query_,
        {.hint = tr("type a word: \"valve\", \"heat\" ..."), .place = {.w = -1.0F}, .label_above = false});
    gap(ui, 14.0F);
    std::string heading;
    bool any = false;
    for (const training::Lesson* lesson : in_order()) {
      if (!fits(*lesson)) continue;
      any = true;
      if (const std::string group = group_of(*lesson); group != heading) {
        gap(ui, heading.empty() ? 0.0F : 12.0F);
        caption(ui, heading_words(group));
        heading = group;
      }
      draw_row(ui, *lesson);
    }
    if (!any)
      text(ui, tr("No lesson with that word."), {.colour = kit::Token::ink2, .id = "lessons.nothing"});
  }

 private:
  void draw_row(kit::Ui& ui, const training::Lesson& lesson) {
    const Standing s = standing_.count(lesson.id) != 0 ? standing_[lesson.id] : Standing{};
    kit::RowStyle row;
    row.title = lesson.title;
    row.detail = lesson.summary;
    row.right = tr("about {n} min", {{"n", kit::plain_number(lesson.minutes, 0)}}) +
                (s.passed  ? " · " + tr("passed")
                 : s.tried ? " · " + tr("best {p} %", {{"p", kit::plain_number(100.0 * s.best_norm, 0)}})
                           : "");
    row.icon = s.passed ? kit::Icon::check : s.tried ? kit::Icon::half_ring : kit::Icon::ring;
    row.icon_colour = s.passed ? kit::Token::ok : s.tried ? kit::Token::due : kit::Token::ink2;
    row.chevron = true;
    if (list_row(ui, "lessons." + lesson.id, row)) shell().push("lesson", {{"lesson", lesson.id}});
  }

  // The words of the search in title or summary, in any order.
  bool fits(const training::Lesson& lesson) const {
    return kit::has_words(lesson.title + " " + lesson.summary, query_);
  }

  // By what its first skill is about; the first batch and the machine itself stand before all.
  std::string group_of(const training::Lesson& lesson) const {
    if (lesson.id == "first-batch" || lesson.skills == std::vector<std::string>{"knowing-the-machine"})
      return "first";
    const auto& all = desk_.library.skills;
    const auto skill = lesson.skills.empty() ? all.end() : all.find(lesson.skills.front());
    return skill == all.end() ? "other" : skill->second.area;
  }
  static constexpr std::array<std::string_view, 7> groups{"first",   "operation", "safety", "cleaning",
                                                          "service", "faults",    "other"};
  static std::string heading_words(const std::string& group) {
    if (group == "first") return tr("Begin here");
    if (group == "operation") return tr("Running batches");
    if (group == "safety") return tr("Keeping safe");
    if (group == "cleaning") return tr("Cleaning");
    if (group == "service") return tr("Service");
    if (group == "faults") return tr("Finding faults");
    return tr("More lessons");
  }

  // Within a group the shortest first: what one can take in next.
  std::vector<const training::Lesson*> in_order() const {
    std::vector<const training::Lesson*> list;
    for (const auto& [id, lesson] : desk_.library.lessons) list.push_back(&lesson);
    const auto place = [&](const training::Lesson* one) {
      return std::find(groups.begin(), groups.end(), group_of(*one)) - groups.begin();
    };
    std::stable_sort(list.begin(), list.end(), [&](const auto* a, const auto* b) {
      return std::pair(place(a), a->minutes) < std::pair(place(b), b->minutes);
    });
    return list;
  }

  std::string query_;
  work::Desk& desk_;
  std::map<std::string, Standing> standing_;
};

}  // namespace

std::unique_ptr<Screen> make_lessons(work::Desk& desk) { return std::make_unique<Lessons>(desk); }

}  // namespace stirbench::desk::screens
