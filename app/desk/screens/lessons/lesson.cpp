#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

class LessonPage final : public Screen {
 public:
  LessonPage(work::Desk& desk, std::string id) : desk_(desk), id_(std::move(id)) {}
  const char* name() const override { return "lesson"; }

  TopBar top_bar(kit::Ui&) override {
    const training::Lesson* lesson = find();
    return {lesson == nullptr ? id_ : lesson->title, "", tr("Lessons"), true};
  }

  void draw(kit::Ui& ui) override {
    const training::Lesson* lesson = find();
    if (lesson == nullptr) {
      notice(ui, "lesson.missing", kit::Status::bad, tr("There is no lesson called {id}.", {{"id", id_}}));
      return;
    }
    // Page, cautions and start side by side: the start is in sight without scrolling, and so is the first
    // caution.
    kit::Rect area = ui.area;
    const float third = std::min(ui.em(330.0F), area.w * 0.31F);
    const kit::Rect side = area.take_right(third, ui.px(kit::Measure::gutter));
    const kit::Rect cautions = area.take_right(third, ui.px(kit::Measure::gutter));
    draw_page(ui, *lesson, area);
    draw_cautions(ui, *lesson, cautions);
    draw_start(ui, *lesson, side);
  }

 private:
  const training::Lesson* find() const {
    const auto found = desk_.library.lessons.find(id_);
    return found == desk_.library.lessons.end() ? nullptr : &found->second;
  }

  // "# " headings, "- " items, paragraphs otherwise.
  void draw_page(kit::Ui& ui, const training::Lesson& lesson, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "lesson.page", rect, {.caption = tr("What and why")});
    const float wrap = std::min(panel.inner().w - ui.px(14.0F), ui.em(680.0F));  // room for the scroll bar
    std::size_t begin = 0;
    while (begin < lesson.page.size()) {
      const std::size_t end = std::min(lesson.page.find('\n', begin), lesson.page.size());
      const std::string_view line = std::string_view(lesson.page).substr(begin, end - begin);
      begin = end + 1;
      if (line.empty()) {
        gap(ui, 6.0F);
      } else if (line.substr(0, 2) == "# ") {
        gap(ui, 6.0F);
        text(ui, tr(line.substr(2)), {.type = kit::Type::step, .wrap = wrap});
        gap(ui, 4.0F);
      } else if (line.substr(0, 2) == "- ") {
        item(ui, tr(line.substr(2)), wrap);
      } else {
        text(ui, tr(line), {.wrap = wrap});
      }
    }
  }

  // An item of a list, its lines hanging from the dot.
  void item(kit::Ui& ui, const std::string& words, float wrap) {
    const ImVec2 left = ImGui::GetCursorScreenPos();
    const float indent = ui.em(18.0F);
    kit::current_draw()->AddCircleFilled(
        {left.x + ui.em(6.0F), left.y + ui.theme.line_px(kit::Type::body) * 0.55F}, ui.em(2.6F),
        ui.colour(kit::Token::ink2));
    at(ui, left.x + indent, left.y);
    text(ui, words, {.wrap = wrap - indent});
    at(ui, left.x, ImGui::GetCursorScreenPos().y);
  }

  void draw_cautions(kit::Ui& ui, const training::Lesson& lesson, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "lesson.cautions", rect, {.caption = tr("Keep in mind")});
    for (const std::string& key : lesson.cautions) {
      const auto words = desk_.library.cautions.find(key);
      if (words == desk_.library.cautions.end()) continue;
      caution_box(ui, "lesson.caution." + key, tr(words->second.text),
                  kit::find_sign(words->second.sign).value_or(kit::SignId::w001));
      gap(ui, 8.0F);
    }
  }

  void draw_start(kit::Ui& ui, const training::Lesson& lesson, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "lesson.start_panel", rect, {.caption = tr("How do you want to run it?")});
    radio_list(ui, "lesson.mode",
               {tr("Guided: help with each step"), tr("Practice: help when you ask"), tr("Test: no help")},
               mode_);
    gap(ui, 4.0F);
    text(ui, tr("About {n} minutes. Time can run faster.", {{"n", kit::plain_number(lesson.minutes, 0)}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
    if (desk_.person.id == 0) {
      gap(ui, 4.0F);
      notice(ui, "lesson.nobody", kit::Status::info, tr("Nobody is chosen, so this run will not be kept."));
      if (link(ui, "lesson.person", tr("Choose who you are"))) shell().push("people");
    }
    gap(ui, 10.0F);
    if (button(ui, "lesson.start", tr("Start"),
               {.kind = kit::ButtonKind::primary, .place = {.w = -1.0F, .h = ui.em(44.0F)}})) {
      start(lesson);
    }
    gap(ui, 14.0F);
    caption(ui, tr("You are scored on"));
    for (const training::Criterion& criterion : lesson.criteria) {
      if (criterion.everywhere) continue;
      text(ui, tr(criterion.title) + (criterion.must_pass ? " · " + tr("must pass") : ""),
           {.type = kit::Type::caption, .colour = kit::Token::ink2});
    }
  }

  void start(const training::Lesson& lesson) {
    work::LiveRun::Setup setup;
    setup.machine = desk_.library.machine(lesson.machine);
    setup.lesson = work::lesson_to_run(desk_, lesson.id);
    setup.grasp = work::grasp_in(desk_, lesson);
    setup.mode = mode_ == 0   ? work::RunMode::guided
                 : mode_ == 1 ? work::RunMode::practice
                              : work::RunMode::test;
    setup.program = STIRBENCH_VERSION;
    setup.person = desk_.person.id;
    setup.store = desk_.store.get();
    setup.started_utc = work::utc_now();
    desk_.run = std::make_unique<work::LiveRun>(std::move(setup));
    shell().push("train");
  }

  work::Desk& desk_;
  std::string id_;
  int mode_ = 0;
};

}  // namespace

std::unique_ptr<Screen> make_lesson(work::Desk& desk, const std::string& lesson_id) {
  return std::make_unique<LessonPage>(desk, lesson_id);
}

}  // namespace stirbench::desk::screens
