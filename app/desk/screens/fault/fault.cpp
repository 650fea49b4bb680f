#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/fault/fault_log.h"
#include "app/desk/screens/fault/fault_panels.h"
#include "app/desk/screens/fault/fault_tree.h"
#include "app/desk/screens/screens.h"
#include "app/desk/screens/takes_files.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

std::unique_ptr<work::FaultSearch> open_search(const work::Desk& desk) {
  const library::FaultGuides shelf = library::load_guides(desk.content_dir, desk.library);
  const auto guide = shelf.guides.find(desk.machine_id);
  if (guide == shelf.guides.end()) return nullptr;
  const auto evidence = shelf.evidence.find(desk.machine_id);
  return std::make_unique<work::FaultSearch>(
      library::guide_model(guide->second, evidence == shelf.evidence.end() ? nullptr : &evidence->second));
}

// From what one sees to the part that failed.
class FindFault final : public Screen, public TakesFiles {
 public:
  explicit FindFault(work::Desk& desk)
      : desk_(desk), search_(open_search(desk)), aids_(desk.library, desk.machine_id) {}
  const char* name() const override { return "fault"; }

  TopBar top_bar(kit::Ui&) override {
    return {tr("Find a fault"),
            desk_.library.machines.at(desk_.machine_id).title + " · " + tr("at the machine"), tr("Home"),
            true};
  }

  void take_file(const std::string& path) override { log_.take_file(path); }

  void draw_tools(kit::Ui& ui) override {
    if (!search_) return;
    std::vector<std::string> titles;
    for (std::size_t i = 0; i < diagnosis::who_count; ++i)
      titles.push_back(tr(std::string(diagnosis::who_title(static_cast<diagnosis::Who>(i)))));
    const auto me = static_cast<std::size_t>(search_->who());
    const int picked = menu_button(ui, "fault.who", titles[me], titles);
    if (picked >= 0) search_->set_who(static_cast<diagnosis::Who>(picked));
    same_line(ui);
    const bool any = search_->started();
    const std::string nothing = tr("Nothing was found yet.");
    if (button(ui, "fault.undo", tr("Undo last"), {.enabled = any, .reason = nothing})) search_->undo();
    same_line(ui);
    // Beside the way home there is no room for all of them when the text is large or the window small.
    if (ImGui::GetIO().DisplaySize.x < ui.em(1100.0F)) return draw_pages_menu(ui, any);
    if (button(ui, "fault.wiring", tr("Wiring diagram"))) aids_.show_wiring();
    same_line(ui);
    if (button(ui, "fault.tree.show", tree_words(), {.enabled = any, .reason = nothing}))
      as_tree_ = !as_tree_;
    same_line(ui);
    if (button(ui, "fault.hand_off", tr("Hand-off page"), {.enabled = any, .reason = nothing}))
      handing_off_ = true;
  }

  void draw(kit::Ui& ui) override {
    if (!search_) {
      kit::PanelScope panel(ui, "fault.none", ui.area);
      text(ui, tr("There is no fault guide for this machine."), {.type = kit::Type::step});
      return;
    }
    kit::Rect area = ui.area;
    if (aids_.open()) return aids_.draw(ui, area);
    if (as_tree_ && search_->started()) {
      tree_.draw(ui, *search_, area);
      if (handing_off_) draw_hand_off(ui);
      return;
    }
    const bool narrow = area.w < ui.em(300.0F + 300.0F + 420.0F);
    if (narrow) {
      const kit::Rect choice = area.take_top(ui.theme.control_height(), ui.px(10.0F));
      at(ui, choice.x, choice.y);
      radio_row(ui, "fault.part", {tr("What you see"), tr("Next check"), tr("Probable causes")}, part_);
      if (part_ == 0) draw_fault_way(ui, *search_, query_, log_.open, area);
      if (part_ == 1) draw_fault_check(ui, *search_, desk_.library, aids_, area);
      if (part_ == 2) draw_fault_causes(ui, *search_, area, how_sure_);
    } else {
      const kit::Rect way = area.take_left(ui.em(300.0F), ui.px(kit::Measure::gutter));
      const kit::Rect causes =
          area.take_right(std::min(ui.em(360.0F), area.w * 0.4F), ui.px(kit::Measure::gutter));
      // Each panel may change the search; the next one then draws what follows from it.
      draw_fault_way(ui, *search_, query_, log_.open, way);
      draw_fault_check(ui, *search_, desk_.library, aids_, area);
      draw_fault_causes(ui, *search_, causes, how_sure_);
    }
    if (handing_off_) draw_hand_off(ui);
    if (how_sure_) draw_how_sure(ui);
    if (log_.open) log_.draw(ui, desk_, *search_);
    if (const std::string fault = aids_.take_simulator(); !fault.empty()) run_with(ui, fault);
  }

 private:
  std::string tree_words() const { return as_tree_ ? tr("Back to the checks") : tr("Show the tree"); }

  void draw_pages_menu(kit::Ui& ui, bool any) {
    std::vector<std::string> pages = {tr("Wiring diagram")};
    if (any) pages.insert(pages.end(), {tree_words(), tr("Hand-off page")});
    switch (menu_button(ui, "fault.pages", tr("Pages"), pages)) {
      case 0: return aids_.show_wiring();
      case 1: as_tree_ = !as_tree_; return;
      case 2: handing_off_ = true; return;
      default: return;
    }
  }

  // A free run with the cause in the machine; the person knows it, so the diagram may show what it does.
  void run_with(kit::Ui& ui, const std::string& fault) {
    work::LiveRun::Setup setup;
    setup.machine = desk_.library.machine(desk_.machine_id);
    setup.mode = work::RunMode::free;
    setup.program = STIRBENCH_VERSION;
    setup.faults_known = true;
    const int index = setup.machine.fault_index(fault);
    const faults::Fault& one = setup.machine.faults[static_cast<std::size_t>(index)];
    setup.free_start.faults = {{fault, 0.5 * (one.severity_low + one.severity_high)}};
    if (setup.machine.ingredient_index("whole_milk") >= 0)
      setup.free_start.loaded = {{"whole_milk", 0.6 * setup.machine.plant.vat.working_L, 8.0}};
    desk_.run = std::make_unique<work::LiveRun>(std::move(setup));
    ui.host.toast(
        kit::Status::info,
        tr("In this machine: {fault}. {shows}", {{"fault", tr(one.title)}, {"shows", tr(one.shows)}}), 12.0);
    shell().push("train");
  }

  void draw_hand_off(kit::Ui& ui) {
    kit::DialogScope dialog(ui, "fault.hand", tr("Hand-off page"), 640.0F);
    const std::string page = search_->hand_off();
    text(ui, page, {.id = "fault.hand.text"});
    gap(ui, 8.0F);
    if (button(ui, "fault.hand.copy", tr("Copy"), {.kind = kit::ButtonKind::primary})) {
      ImGui::SetClipboardText(page.c_str());
      ui.host.toast(kit::Status::good, tr("Copied."));
    }
    same_line(ui);
    if (button(ui, "fault.hand.close", tr("Close")) || dialog.dismissed()) handing_off_ = false;
  }

  void draw_how_sure(kit::Ui& ui) {
    kit::DialogScope dialog(ui, "fault.sure", tr("How sure is this?"), 560.0F);
    text(ui, tr("Each cause was put into the simulated machine many times: mild and severe, in warm and cool "
                "rooms, with the spread of supply, load "
                "and instruments. How often each answer came is what the percentages are made of, together "
                "with how often a cause happens."));
    gap(ui, 6.0F);
    text(ui, tr("A real machine may have a cause that is not in this guide, or several at once. Answers are "
                "taken as independent once cause and "
                "severity are known; that is not quite so. Read the percentages as a ranking first."));
    gap(ui, 6.0F);
    text(ui,
         tr("From here {n} min are expected; no plan with these checks can be under {least} min.",
            {{"n", kit::plain_number(search_->next().expected_min, 0)},
             {"least", kit::plain_number(search_->next().at_least_min, 0)}}),
         {.id = "fault.sure.bound"});
    if (search_->guide().stale)
      notice(ui, "fault.stale", kit::Status::due,
             tr("Content has changed since the machines were simulated."));
    gap(ui, 8.0F);
    if (button(ui, "fault.sure.close", tr("Close"), {.kind = kit::ButtonKind::primary}) || dialog.dismissed())
      how_sure_ = false;
  }

  work::Desk& desk_;
  std::unique_ptr<work::FaultSearch> search_;
  FaultAids aids_;
  FaultTree tree_;
  FaultLog log_{desk_, [this] { shell().wake(); }};
  bool as_tree_ = false;
  std::string query_;
  int part_ = 0;
  bool handing_off_ = false;
  bool how_sure_ = false;
};

}  // namespace

std::unique_ptr<Screen> make_fault(work::Desk& desk) { return std::make_unique<FindFault>(desk); }

}  // namespace stirbench::desk::screens
