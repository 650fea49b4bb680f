#include <algorithm>
#include <optional>
#include <random>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/fault/fault_aids.h"
#include "app/desk/screens/screens.h"
#include "app/desk/screens/train/pointing.h"
#include "app/desk/views/body/body_view.h"
#include "app/desk/views/machine_view/gauges.h"
#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/views/machine_view/view_switch.h"
#include "app/desk/work/parts/part_quiz.h"
#include "app/library/guide/guide.h"
#include "sim_core/bench/step.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/plant.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// The machine with names and purposes beside it.
class Parts final : public Screen {
 public:
  explicit Parts(work::Desk& desk) : desk_(desk), machine_(desk.library.machine(desk.machine_id)) {
    open_body();
    const library::FaultGuides shelf = library::load_guides(desk.content_dir, desk.library);
    const auto guide = shelf.guides.find(desk.machine_id);
    if (guide != shelf.guides.end()) checks_ = guide->second.checks;
    machine::StartSetup start;
    if (machine_.ingredient_index("water") >= 0)
      start.loaded.push_back({"water", 0.8 * machine_.plant.vat.working_L, 40.0});
    state_ = bench::initial_state(machine_, start);
    // For the gauges: the chiller ten minutes after its start on cold product.
    if (!start.loaded.empty()) start.loaded[0].degC = 8.0;
    chilling_ = bench::initial_state(machine_, start);
    for (int i = 0; i < 6000; ++i)
      plant::step(machine_.plant, chilling_.plant, {0.0, true, true}, machine::tick_s);
  }
  const char* name() const override { return "parts"; }
  TopBar top_bar(kit::Ui&) override {
    return {tr("The machine, part by part"), machine_.plant.title, "", true};
  }

  void draw_tools(kit::Ui& ui) override {
    // Which machine is shown; the choice holds for free runs and the recipe bench too.
    bool first = true;
    for (const auto& [id, spec] : desk_.library.machines) {
      if (!first) same_line(ui);
      first = false;
      if (chip(ui, "parts.machine." + id, spec.title, id == desk_.machine_id) && id != desk_.machine_id) {
        desk_.machine_id = id;
        shell().replace("parts");
      }
    }
  }

  void draw(kit::Ui& ui) override {
    if (quiz_ && quiz_->over()) end_quiz(ui);
    kit::Rect area = ui.area;
    const kit::Rect side =
        area.take_right(std::min(ui.em(400.0F), area.w * 0.44F), ui.px(kit::Measure::gutter));
    views::MachineMotion motion;
    motion.advance(machine_, state_, 0.0, false, true);
    views::MachineViewInput input{machine_, state_, motion, false, true, "", "parts.machine"};
    input.asks_for_parts = quiz_.has_value();
    if (quiz_ && !view_.chosen().empty()) input.part_choices = {pointing_choice(view_.chosen())};
    if (solid_ && view_.is_open())
      answer(view_.draw(ui, input, area).part_work);
    else
      views::draw_machine(ui, input, area);
    if (view_.is_open()) views::view_switch(ui, "parts.view", solid_, area);
    if (quiz_)
      draw_quiz(ui, side);
    else
      draw_list(ui, side);
  }

 private:
  void draw_list(kit::Ui& ui, const kit::Rect& side) {
    kit::PanelScope panel(ui, "parts.list", side, {.caption = tr("What is what")});
    if (view_.is_open() &&
        button(ui, "parts.ask", tr("Ask me"), {.hint = tr("Find the parts by what they are for")})) {
      quiz_.emplace(view_.parts(), std::random_device{}());
      view_.choose("");
      pointed_ = {};
      solid_ = true;
      return;
    }
    for (const library::BodyPart& part : view_.parts()) {
      const bool chosen = view_.chosen() == part.id;
      if (list_row(ui, "parts.part." + part.id,
                   {.title = tr(part.title), .detail = tr(part.purpose), .selected = chosen}))
        choose(part.id);
      if (chosen) draw_uses(ui, part);
    }
    gap(ui, 12.0F);
    caption(ui, tr("Gauges"));
    text(ui,
         tr("On the chiller's circuit, ten minutes after its start on cold product in this room. Work on the "
            "circuit is for "
            "licensed people; R-290 burns."),
         {.colour = kit::Token::ink2});
    gap(ui, 4.0F);
    views::draw_gauges(ui, chilling_);
  }

  // Where one meets the part: lessons, which open, and the fault guide's checks.
  void draw_uses(kit::Ui& ui, const library::BodyPart& part) {
    for (const library::BodyUse& use : part.uses) {
      const auto lesson = desk_.library.lessons.find(use.lesson);
      if (lesson == desk_.library.lessons.end()) continue;
      if (list_row(ui, "parts.use." + use.lesson,
                   {.title = tr(use.what),
                    .detail = tr("Lesson: {lesson}", {{"lesson", tr(lesson->second.title)}}),
                    .icon = kit::Icon::play,
                    .chevron = true}))
        shell().push("lesson", {{"lesson", use.lesson}});
    }
    std::string checks;
    for (const std::string& title : checks_at(checks_, part.id))
      checks += (checks.empty() ? "" : "; ") + tr(title);
    if (!checks.empty())
      text(ui, tr("Checks of the fault guide here: {checks}.", {{"checks", checks}}),
           {.type = kit::Type::caption, .colour = kit::Token::ink2});
    gap(ui, 6.0F);
  }

  // The question stays while the list of parts below it is scrolled.
  void draw_quiz(kit::Ui& ui, kit::Rect side) {
    const kit::Rect top = side.take_top(std::min(ui.em(250.0F), side.h * 0.5F), ui.px(14.0F));
    draw_question(ui, top);
    if (!quiz_ || quiz_->over()) return;
    std::vector<hands::Action> out;
    {
      kit::PanelScope panel(ui, "parts.quiz.list", side);
      draw_point_group(ui, query_, in_list_, view_.parts(), out);
    }
    show_listed(view_, in_list_, listed_);
    answer(out);
  }

  void draw_question(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(
        ui, "parts.quiz", rect,
        {.caption = tr("Which part is it?"), .ground = kit::Token::act2, .border = kit::Token::act});
    text(ui, tr(quiz_->asked().purpose), {.type = kit::Type::step, .id = "parts.quiz.words"});
    text(ui,
         tr("{n} of {all}; {right} found at once, {wrong} wrong pointings.",
            {{"n", std::to_string(quiz_->done() + 1)},
             {"all", std::to_string(quiz_->count())},
             {"right", std::to_string(quiz_->right())},
             {"wrong", std::to_string(quiz_->wrong())}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "parts.quiz.count"});
    const bool show = button(ui, "parts.quiz.show", tr("Show me"));
    same_line(ui);
    if (button(ui, "parts.quiz.end", tr("Enough")))
      quiz_.reset();
    else if (show)
      show_answer();
    draw_pointed(ui, pointed_);
  }

  void answer(const std::vector<hands::Action>& actions) {
    for (const hands::Action& action : actions) {
      if (!quiz_ || quiz_->over()) return;
      const bool right = quiz_->answer(first_text(action));
      pointed_ = pointed_at(view_.parts(), first_text(action), right);
      if (right) view_.choose("");
    }
  }

  // Says and shows it; the next one is asked for.
  void show_answer() {
    const library::BodyPart part = quiz_->asked();
    view_.choose(part.id);
    view_.look_at(part.id);
    pointed_ = pointed_at(view_.parts(), part.id, true);
    quiz_->skip();
  }

  void end_quiz(kit::Ui& ui) {
    ui.host.toast(kit::Status::good,
                  tr("All {all} asked: {right} found at once.",
                     {{"all", std::to_string(quiz_->count())}, {"right", std::to_string(quiz_->right())}}),
                  12.0);
    quiz_.reset();
  }

  void open_body() {
    if (!view_.open(desk_.library, machine_)) return;
    view_.show_freezer(true);
  }

  // Again on the chosen one: the whole machine.
  void choose(const std::string& id) {
    solid_ = true;
    if (view_.chosen() == id) {
      view_.choose("");
      view_.fit();
      return;
    }
    view_.choose(id);
    view_.look_at(id);
  }

  work::Desk& desk_;
  machine::Machine machine_;
  views::BodyView view_;
  bool solid_ = true;
  std::optional<work::PartQuiz> quiz_;  // asking
  Pointed pointed_;
  std::string query_;                     // in its list of parts
  std::string in_list_;                   // chosen there
  std::string listed_;                    // a frame ago
  std::vector<diagnosis::Check> checks_;  // of the machine's fault guide
  machine::State state_;
  machine::State chilling_;
};

}  // namespace

std::unique_ptr<Screen> make_parts(work::Desk& desk) { return std::make_unique<Parts>(desk); }

}  // namespace stirbench::desk::screens
