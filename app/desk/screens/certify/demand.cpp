#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"
#include "app/desk/work/certify/model.h"
#include "sim_core/training/assessment.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// What a certificate asks for: skills, tests and error rates, tasks at the real machine, validity. Says what
// the numbers mean.
class DemandPage final : public Screen {
 public:
  DemandPage(work::Desk& desk, std::string id) : desk_(desk), id_(std::move(id)) { load(); }
  const char* name() const override { return "demand"; }
  TopBar top_bar(kit::Ui&) override { return {tr("What it asks for"), demand_.title, tr("Certify"), true}; }

  void draw(kit::Ui& ui) override {
    if (!desk_.store) {
      notice(ui, "demand.problem", kit::Status::bad,
             tr("Attempts are not kept now.") + " " + desk_.store_problem);
      return;
    }
    kit::Rect area = ui.area;
    const kit::Rect right =
        area.take_right(std::min(ui.em(400.0F), area.w * 0.4F), ui.px(kit::Measure::gutter));
    const kit::Rect middle = area.take_right(area.w * 0.5F, ui.px(kit::Measure::gutter));
    draw_skills(ui, area);
    draw_tests(ui, middle);
    draw_tasks(ui, right);
  }

 private:
  void load() {
    if (!desk_.store) return;
    try {
      const auto all = records::demands_in_force(*desk_.store, desk_.library);
      const auto found = all.find(id_);
      if (found != all.end()) demand_ = found->second;
      why_not_ = records::why_not(who_is_here(desk_), records::Right::edit_demands);
    } catch (const records::StoreError& error) {
      why_not_ = error.text;
    }
    for (const std::string& task : demand_.seen_tasks) tasks_ += (tasks_.empty() ? "" : "\n") + task;
    tests_ = demand_.tests_each;
    lessons_ = demand_.lessons_each;
    apart_ = demand_.days_apart;
    days_ = demand_.valid_days;
    most_ = demand_.plan.most;
    alpha_ = 100.0 * demand_.plan.alpha;
    beta_ = 100.0 * demand_.plan.beta;
    p_not_ = 100.0 * demand_.plan.p_not;
    p_yes_ = 100.0 * demand_.plan.p_competent;
  }

  void draw_skills(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "demand.skills", rect, {.caption = tr("Skills, each tested")});
    const bool locked = !why_not_.empty();
    for (const auto& [id, skill] : desk_.library.skills) {
      auto& list = demand_.skills;
      bool on = std::find(list.begin(), list.end(), id) != list.end();
      const std::string untrained = skill.not_yet_trained ? tr("No lesson trains it yet.") : "";
      if (checkbox(
              ui, "demand.skill." + id, tr(skill.title) + (skill.safety ? " · " + tr("safety") : ""), on,
              {.enabled = !locked && (untrained.empty() || on), .reason = locked ? why_not_ : untrained})) {
        if (on)
          list.push_back(id);
        else
          std::erase(list, id);
      }
    }
  }

  void draw_tests(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "demand.tests", rect, {.caption = tr("Tests")});
    const bool on = why_not_.empty();
    const auto field = [&](const char* id, const std::string& label, double& value, double min, double max,
                           double step, int decimals, const char* unit) {
      // The label wraps: at double text size it is longer than the panel is wide.
      text(ui, label, {.type = kit::Type::caption, .colour = kit::Token::ink2});
      number_field(ui, id, label, value,
                   {.unit = unit,
                    .min = min,
                    .max = max,
                    .step = step,
                    .decimals = decimals,
                    .enabled = on,
                    .reason = why_not_,
                    .label_above = false});
    };
    field("demand.tests_each", tr("Tests passed for each skill, at least"), tests_, 1, 50, 1, 0, "");
    field("demand.lessons_each", tr("In different lessons, at least (or all there are)"), lessons_, 1, 20, 1,
          0, "");
    field("demand.days_apart", tr("Time between two of those passes, at least"), apart_, 0, 90, 1, 0,
          tr("days").c_str());
    field("demand.p_competent", tr("Competent: passes a test with"), p_yes_, 2, 99, 1, 0, "%");
    field("demand.p_not", tr("Not competent: passes only with"), p_not_, 1, 98, 1, 0, "%");
    field("demand.alpha", tr("Certified although not competent, at most about"), alpha_, 0.1, 49, 0.5, 1,
          "%");
    field("demand.beta", tr("Turned away although competent, at most about"), beta_, 0.1, 49, 0.5, 1, "%");
    field("demand.most", tr("Tests in a series; undecided then means not yet"), most_, 1, 200, 1, 0, "");
    field("demand.days", tr("The evidence carries"), days_, 1, 1826, 5, 0, tr("days").c_str());
    checkbox(ui, "demand.must", tr("One missed must-pass item means not yet"), demand_.must_pass_all,
             {.enabled = on, .reason = why_not_});
    gap(ui, 8.0F);
    draw_meaning(ui);
  }

  // The numbers in words: what they cost and what they cannot say.
  void draw_meaning(kit::Ui& ui) {
    take_numbers();
    if (!(demand_.plan.p_competent > demand_.plan.p_not)) {
      status_mark(ui, kit::Status::bad, tr("A competent person must pass more often than one who is not."),
                  "demand.meaning");
      return;
    }
    const training::SequentialBounds b = training::bounds(demand_.plan);
    text(ui,
         tr("At least {n} passed tests in a row for each skill; a competent person needs about {m}. {f} "
            "fails in a row mean not yet.",
            {{"n", std::to_string(std::max(b.fewest_to_competent, demand_.tests_each))},
             {"m", kit::plain_number(
                       std::max(b.mean_tests_competent, static_cast<double>(demand_.tests_each)), 0)},
             {"f", std::to_string(b.fewest_to_not_yet)}}),
         {.id = "demand.meaning"});
    text(ui,
         tr("For comparison: {n} runs without a single failure would show 95 % success with 95 % confidence. "
            "A few tests cannot say that; "
            "seeing the person at the real machine is what adds to them.",
            {{"n", std::to_string(training::runs_without_failure(0.95, 0.95))}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
    text(ui,
         tr("Keep must-pass items few: with five of them, each done right 98 times in 100, a competent "
            "person fails one test in ten."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }

  void draw_tasks(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "demand.tasks", rect,
                          {.caption = tr("Seen at the real machine, each signed by a named person")});
    const bool on = why_not_.empty();
    text_field(ui, "demand.title", tr("What the certificate says"), demand_.title,
               {.enabled = on, .reason = why_not_});
    text_field(
        ui, "demand.seen", tr("One task a line"), tasks_,
        {.enabled = on, .reason = why_not_, .multiline = true, .place = {.w = -1.0F, .h = ui.em(190.0F)}});
    gap(ui, 8.0F);
    if (!problem_.empty()) notice(ui, "demand.problem", kit::Status::bad, problem_);
    if (button(ui, "demand.save", tr("Keep"),
               {.kind = kit::ButtonKind::primary, .enabled = on, .reason = why_not_}))
      save(ui);
    gap(ui, 8.0F);
    text(ui, tr("Certificates that were issued keep the demand they were issued under."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }

  void take_numbers() {
    demand_.tests_each = static_cast<int>(tests_);
    demand_.lessons_each = static_cast<int>(lessons_);
    demand_.days_apart = static_cast<int>(apart_);
    demand_.valid_days = static_cast<int>(days_);
    demand_.plan = {p_not_ / 100.0, p_yes_ / 100.0, alpha_ / 100.0, beta_ / 100.0, static_cast<int>(most_)};
  }

  void save(kit::Ui& ui) {
    take_numbers();
    demand_.seen_tasks.clear();
    std::string line;
    for (const char c : tasks_ + "\n") {
      if (c != '\n') {
        line += c;
      } else {
        if (line.find_first_not_of(' ') != std::string::npos) demand_.seen_tasks.push_back(line);
        line.clear();
      }
    }
    try {
      records::keep_demand(*desk_.store, who_is_here(desk_), desk_.library, demand_);
      problem_.clear();
      ui.host.toast(kit::Status::good, tr("Kept."));
      shell().back();
    } catch (const records::StoreError& error) {
      problem_ = error.text;
    }
  }

  work::Desk& desk_;
  std::string id_;
  training::Demand demand_;
  std::string why_not_;
  std::string problem_;
  std::string tasks_;
  double tests_ = 3, days_ = 365, most_ = 20, alpha_ = 2.5, beta_ = 2.5, p_not_ = 40, p_yes_ = 85;
  double lessons_ = 3.0;
  double apart_ = 2.0;  // days
};

}  // namespace

std::unique_ptr<Screen> make_demand(work::Desk& desk, const std::string& demand_id) {
  return std::make_unique<DemandPage>(desk, demand_id);
}

}  // namespace stirbench::desk::screens
