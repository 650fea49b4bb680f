#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"
#include "app/desk/work/certify/model.h"
#include "app/library/reading/paths.h"
#include "app/reports/papers.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// The board for the shift: who may work alone today, large enough to be read from the door.
class Board final : public Screen {
 public:
  Board(work::Desk& desk, std::string demand) : desk_(desk) { model_.demand_id = std::move(demand); }
  const char* name() const override { return "board"; }

  TopBar top_bar(kit::Ui&) override {
    const training::Demand* demand = model_.demand();
    return {tr("Who may work today"),
            demand == nullptr ? "" : tr(demand->title) + " · " + work::day_words(model_.now_s), tr("Back"),
            true};
  }

  void entered(kit::Ui&) override { model_.refresh(desk_); }

  void draw_tools(kit::Ui& ui) override {
    if (!model_.everybody || model_.demand() == nullptr) return;
    if (button(ui, "board.pdf", tr("Write as PDF"), {.kind = kit::ButtonKind::primary})) write(ui);
  }

  void draw(kit::Ui& ui) override {
    if (!model_.everybody || model_.demand() == nullptr) {
      notice(
          ui, "board.none", kit::Status::info,
          model_.problem.empty() ? tr("A manager, instructor or auditor opens the board.") : model_.problem);
      return;
    }
    kit::Rect area = ui.area;
    const kit::Rect right = area.take_right(area.w * 0.42F, ui.px(kit::Measure::gutter));
    draw_may(ui, area);
    draw_others(ui, right);
  }

 private:
  void draw_may(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "board.may", rect, {.caption = tr("May work alone")});
    int shown = 0;
    for (const records::Standing& row : model_.rows) {
      if (!row.may_work) continue;
      ++shown;
      const bool soon = row.certified_until_s <= model_.now_s + 86400LL * records::due_days;
      const std::string id = "board.may." + std::to_string(row.person.id);
      text(ui, row.person.name, {.type = kit::Type::title, .id = id.c_str()});
      status_mark(ui, soon ? kit::Status::due : kit::Status::good,
                  tr("until {day}", {{"day", work::day_words(row.certified_until_s)}}), "");
      gap(ui, 10.0F);
    }
    if (shown == 0)
      text(ui, tr("Nobody today."),
           {.type = kit::Type::step, .colour = kit::Token::ink2, .id = "board.nobody"});
  }

  void draw_others(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "board.others", rect, {.caption = tr("Only together with one of them")});
    for (const records::Standing& row : model_.rows) {
      if (row.may_work) continue;
      kit::RowStyle style;
      style.title = row.person.name;
      style.detail = row.certificate ? tr("ended {day}", {{"day", work::day_words(row.certified_until_s)}})
                                     : tr("no certificate");
      style.icon = row.certificate ? kit::Icon::cross : kit::Icon::ring;
      style.icon_colour = row.certificate ? kit::Token::bad : kit::Token::ink2;
      list_row(ui, "board.other." + std::to_string(row.person.id), style);
    }
  }

  void write(kit::Ui& ui) {
    try {
      const std::string folder = desk_.data_dir + "/exports";
      const std::string file = folder + "/board-" + model_.demand_id + "-" +
                               records::utc_text(model_.now_s).substr(0, 10) + ".pdf";
      std::string failed = library::make_writable(folder);
      if (failed.empty())
        failed = library::write_atomically(file, reports::shift_board_pdf({{model_.demand(), model_.rows}},
                                                                          desk_.store->site(), model_.now_s));
      if (!failed.empty()) throw records::StoreError(failed);
      desk_.store->note(model_.who, "exported", "board");
      ui.host.toast(kit::Status::good, tr("Written: {file}", {{"file", file}}), 10.0);
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what(), 10.0);
    }
  }

  work::Desk& desk_;
  work::CertifyModel model_;
};

}  // namespace

std::unique_ptr<Screen> make_board(work::Desk& desk, const std::string& demand_id) {
  return std::make_unique<Board>(desk, demand_id);
}

}  // namespace stirbench::desk::screens
