#include "app/desk/screens/own_screen.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/own/log_chart.h"
#include "app/desk/screens/own/log_form.h"
#include "app/desk/screens/takes_files.h"
#include "app/library/machine/own_machine.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

class Own final : public Screen, public TakesFiles {
 public:
  Own(work::Desk& desk, const std::string& log) : desk_(desk), form_(desk, "own") { form_.path = log; }
  const char* name() const override { return "own"; }

  TopBar top_bar(kit::Ui&) override {
    return {tr("Own machine"), tr("what a log of your batch tells about it"), "", true};
  }

  void take_file(const std::string& path) override { form_.path = path; }

  void draw(kit::Ui& ui) override {
    if (fit_.poll()) part_ = 1;
    kit::Rect area = ui.area;
    const bool narrow = area.w < ui.em(320.0F + 520.0F);
    if (narrow) {
      const kit::Rect choice = area.take_top(ui.theme.control_height(), ui.px(10.0F));
      at(ui, choice.x, choice.y);
      radio_row(ui, "own.part", {tr("The log"), tr("What it tells")}, part_);
    }
    const kit::Rect form = narrow ? area : area.take_left(ui.em(320.0F), ui.px(kit::Measure::gutter));
    if (!narrow || part_ == 0) draw_form(ui, form);
    if (!narrow || part_ == 1) draw_answer(ui, area);
  }

  bool may_leave(kit::Ui&) override {
    fit_.cancel();
    return true;
  }

 private:
  // Why the machine could not be kept under its name, said before the work is done.
  std::string why_not_kept() const {
    const std::string id = work::id_of_title(title_);
    if (id.size() < 2) return tr("Give it a name of at least two letters.");
    return library::why_not_kept(desk_.library, id, work::own_machine_file(desk_.data_dir, id));
  }

  void draw_form(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "own.form", rect, {.caption = tr("A log of one batch")});
    form_.draw(ui, desk_, true);
    gap(ui, 8.0F);
    text_field(ui, "own.title", tr("Name of the machine on this site"), title_, {.place = {.w = -1.0F}});
    const std::string refused = why_not_kept();
    if (!refused.empty()) notice(ui, "own.refused", kit::Status::due, refused);
    gap(ui, 8.0F);
    checkbox(ui, "own.causes", tr("Say what would explain the log even when it fits"), causes_);
    gap(ui, 10.0F);
    if (fit_.busy()) {
      if (busy(ui, "own.busy", tr("The machine is run again and again beside the log."), fit_.progress()))
        fit_.cancel();
      return;
    }
    const std::string reason = form_.path.empty() ? tr("First a log: drop its file on the window.") : refused;
    if (button(ui, "own.start", tr("Compare"),
               {.kind = kit::ButtonKind::primary, .enabled = reason.empty(), .reason = reason})) {
      work::LogQuestion question = form_.question();
      question.causes = causes_;
      kept_ = false;
      if (!fit_.start(desk_.library, question)) part_ = 1;
    }
  }

  void draw_answer(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "own.answer", rect, {.caption = tr("What it tells")});
    draw_log_problems(ui, "own.problem", fit_.problems());
    const work::LogAnswer* answer = fit_.answer();
    if (answer == nullptr) {
      text(ui,
           tr("A log is a CSV file with the time and the product's temperature of one batch, heated, left "
              "to stand and chilled; power, room and fill where they are known. From it come the power of "
              "the elements, the losses, the chiller and the probe's lag of your own machine."),
           {.colour = kit::Token::ink2, .id = "own.what"});
      return;
    }
    draw_verdict(ui, *answer);
    gap(ui, 8.0F);
    const ImVec2 corner = ImGui::GetCursorScreenPos();
    const kit::Rect chart{corner.x, corner.y, width_left(ui), ui.em(260.0F)};
    draw_log_chart(ui, answer->fit, chart);
    at(ui, corner.x, chart.bottom() + ui.px(12.0F));
    draw_table(ui, *answer);
    draw_causes(ui, *answer);
  }

  void draw_verdict(kit::Ui& ui, const work::LogAnswer& answer) {
    if (answer.fits()) {
      notice(ui, "own.fits", kit::Status::good, tr("The log is one of this machine."));
      gap(ui, 6.0F);
      const std::string refused = kept_ ? tr("It is kept already.") : why_not_kept();
      if (button(ui, "own.keep", tr("Keep as a machine of this site"),
                 {.kind = kit::ButtonKind::primary, .enabled = refused.empty(), .reason = refused}))
        keep(ui, answer);
    } else {
      std::string why =
          tr("This is not a log of this machine in order, or not of one batch; nothing is kept.");
      for (const identification::Objection& one : answer.fit.objections) why += "\n– " + tr(one.words);
      notice(ui, "own.wrong", kit::Status::bad, why);
    }
    for (std::size_t i = 0; i < answer.notices.size(); ++i)
      text(ui, answer.notices[i], {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }

  // Numbers in a table, sentences below it: there they have the room that they need.
  void draw_table(kit::Ui& ui, const work::LogAnswer& answer) {
    const std::vector<work::FoundRow> rows = work::rows_of(answer);
    kit::TableScope table(ui, "own.table",
                          {{tr("Quantity"), 2.4F},
                           {tr("before"), 0.8F, kit::Align::right},
                           {tr("found"), 0.8F, kit::Align::right},
                           {tr("between (95 %)"), 1.5F, kit::Align::right},
                           {tr("told"), 0.9F}},
                          false);
    table.header();
    for (std::size_t i = 0; i < rows.size(); ++i)
      table.row("own.row." + std::to_string(i),
                {{rows[i].title},
                 {rows[i].before},
                 {rows[i].found},
                 {rows[i].interval},
                 {rows[i].told, rows[i].good ? kit::Icon::none : kit::Icon::warning}});
    gap(ui, 8.0F);
    for (const work::FoundRow& row : rows)
      if (!row.why.empty())
        text(ui, row.title + ": " + row.why + ".", {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }

  void draw_causes(kit::Ui& ui, const work::LogAnswer& answer) {
    if (answer.explanations.ranked.empty()) return;
    gap(ui, 12.0F);
    caption(ui, tr("What would explain the log, the likeliest first"));
    constexpr std::size_t most = 6;
    const auto& ranked = answer.explanations.ranked;
    for (std::size_t i = 0; i < std::min(most, ranked.size()); ++i)
      list_row(ui, "own.cause." + std::to_string(i),
               {.title = tr(ranked[i].title),
                .detail = tr("off by {k} on average",
                             {{"k", ui.shown(kit::Quantity::temperature_difference, ranked[i].rms_K, 1)}}),
                .right = kit::plain_number(100.0 * ranked[i].weight, 0) + " %"});
    text(ui,
         tr("From this log alone, not from how often each comes. Find a fault takes a log too and says "
            "what to check next."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }

  void keep(kit::Ui& ui, const work::LogAnswer& answer) {
    const std::string problem = work::keep_own_machine(desk_.library, desk_.data_dir, title_, answer);
    if (problem.empty()) desk_.reload();
    const std::string trouble = problem.empty() ? desk_.content_problem : problem;
    if (trouble.empty()) {
      kept_ = true;
      desk_.machine_id = work::id_of_title(title_);
    }
    ui.host.toast(
        trouble.empty() ? kit::Status::good : kit::Status::bad,
        trouble.empty() ? tr("Kept. Free run and recipe bench now use {name}.", {{"name", title_}}) : trouble,
        8.0);
  }

  work::Desk& desk_;
  LogForm form_;
  work::OwnFit fit_{[this] { shell().wake(); }};
  std::string title_ = "Our machine";
  bool causes_ = false;
  bool kept_ = false;
  int part_ = 0;
};

}  // namespace

std::unique_ptr<Screen> make_own(work::Desk& desk, const std::string& log) {
  return std::make_unique<Own>(desk, log);
}

}  // namespace stirbench::desk::screens
