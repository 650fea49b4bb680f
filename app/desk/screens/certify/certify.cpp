#include <algorithm>
#include <filesystem>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/certify/dialogs.h"
#include "app/desk/screens/certify/views.h"
#include "app/desk/screens/screens.h"
#include "app/desk/work/certify/model.h"
#include "app/library/reading/paths.h"
#include "app/reports/export.h"
#include "app/reports/papers.h"
#include "app/reports/xapi.h"

namespace stirbench::desk::screens {

using kit::tr;
using kit::trn;

namespace {

// Who may work today, who is due, who is stuck; from a cell to its evidence, and from there to the replay.
class Certify final : public Screen {
 public:
  explicit Certify(work::Desk& desk) : desk_(desk), dialogs_(desk) {}
  const char* name() const override { return "certify"; }

  TopBar top_bar(kit::Ui&) override {
    std::string subtitle = desk_.store ? site_ : "";
    if (model_.everybody)
      subtitle += (subtitle.empty() ? "" : " · ") +
                  trn("{n} person", "{n} people", static_cast<long long>(model_.rows.size()));
    return {tr("Certify"), subtitle, "", true};
  }

  void entered(kit::Ui&) override {
    model_.refresh(desk_);
    if (desk_.store) site_ = desk_.store->site();
  }

  void draw_tools(kit::Ui& ui) override {
    if (model_.demand() == nullptr) return;
    std::vector<std::string> titles;
    std::vector<std::string> ids;
    for (const auto& [id, demand] : model_.demands) {
      titles.push_back(tr(demand.title));
      ids.push_back(id);
    }
    const int chosen = menu_button(ui, "certify.demand", tr("Certificate"), titles);
    if (chosen >= 0) {
      model_.demand_id = ids[static_cast<std::size_t>(chosen)];
      model_.refresh(desk_);
    }
    same_line(ui);
    if (button(ui, "certify.edit", tr("What it asks for")))
      shell().push("demand", {{"demand", model_.demand_id}});
    if (!model_.everybody) return;
    same_line(ui);
    if (button(ui, "certify.import", tr("Import roster"))) dialogs_.open_roster();
    same_line(ui);
    const int format =
        menu_button(ui, "certify.export", tr("Export"),
                    {tr("Table as CSV"), tr("Table as PDF"), tr("Attempts as CSV"), tr("Certificates as CSV"),
                     tr("xAPI statements"), tr("Board for the shift")});
    if (format == board_item)
      shell().push("board", {{"demand", model_.demand_id}});
    else if (format >= 0)
      write_export(ui, format);
  }

  void draw(kit::Ui& ui) override {
    if (!desk_.store) {
      notice(ui, "certify.problem", kit::Status::bad,
             tr("Attempts are not kept now.") + " " + desk_.store_problem);
      return;
    }
    if (!model_.problem.empty()) {
      notice(ui, "certify.problem", kit::Status::bad, model_.problem);
      gap(ui, 8.0F);
    }
    if (model_.rows.empty()) {
      draw_empty(ui);
    } else {
      kit::Rect area = ui.area;
      const float used = model_.problem.empty() ? 0.0F : ImGui::GetCursorScreenPos().y - area.y;
      area.take_top(used);
      const kit::Rect side =
          area.take_right(std::min(ui.em(340.0F), area.w * 0.4F), ui.px(kit::Measure::gutter));
      if (const auto pressed = draw_standings(ui, model_, desk_.library, area))
        model_.select(desk_, pressed->person, pressed->skill);
      carry_out(ui, draw_side(ui, model_, desk_, side));
    }
    if (dialogs_.draw(ui, model_)) model_.refresh(desk_);
  }

 private:
  static constexpr int board_item = 5;

  void draw_empty(kit::Ui& ui) {
    if (model_.who.person == 0 && !model_.everybody) {
      notice(ui, "certify.nobody", kit::Status::info,
             tr("Choose who you are first. You see your own row; managers, instructors and auditors see "
                "everybody."));
      if (link(ui, "certify.person", tr("Choose who you are"))) shell().push("people");
      return;
    }
    notice(ui, "certify.none", kit::Status::info, tr("Nobody is on the list yet."));
    if (button(ui, "certify.first", tr("Add people"))) shell().push("people");
  }

  void carry_out(kit::Ui& ui, const SideRequests& wants) {
    if (wants.replay) {
      try {
        const records::Attempt& a = *wants.replay;
        desk_.debrief = work::DebriefRequest{desk_.store->journal_text(a), model_.row()->person.name, a.uid,
                                             a.person, a.started_utc};
        shell().push("debrief");
      } catch (const std::exception& error) {
        ui.host.toast(kit::Status::bad, error.what());
      }
    }
    if (!wants.sealed.empty()) start_sealed(wants.sealed);
    if (!wants.sign.empty()) dialogs_.open_sign(wants.sign);
    if (wants.issue) dialogs_.open_issue();
    if (wants.revoke) dialogs_.open_revoke();
    if (wants.save) save_certificate(ui);
  }

  // The computer is handed over: from here on the person of the row sits here, without the rights of who
  // started it.
  void start_sealed(const std::string& lesson_id) {
    const records::Standing* row = model_.row();
    const auto lesson = desk_.library.lessons.find(lesson_id);
    if (row == nullptr || lesson == desk_.library.lessons.end()) return;
    if (desk_.person.id != row->person.id) {
      desk_.person = row->person;
      desk_.access = {};
    }
    work::LiveRun::Setup setup;
    setup.machine = desk_.library.machine(lesson->second.machine);
    setup.lesson = work::lesson_to_run(desk_, lesson_id);
    setup.mode = work::RunMode::test;
    setup.program = STIRBENCH_VERSION;
    setup.person = row->person.id;
    setup.store = desk_.store.get();
    setup.started_utc = work::utc_now();
    desk_.run = std::make_unique<work::LiveRun>(std::move(setup));
    shell().replace("train");
  }

  std::string export_folder() const { return desk_.data_dir + "/exports"; }

  void write(kit::Ui& ui, const std::string& name, const std::string& text) {
    std::string failed = library::make_writable(export_folder());
    if (failed.empty()) failed = library::write_atomically(export_folder() + "/" + name, text);
    if (failed.empty())
      ui.host.toast(kit::Status::good, tr("Written: {file}", {{"file", export_folder() + "/" + name}}), 10.0);
    else
      ui.host.toast(kit::Status::bad, failed, 10.0);
  }

  void write_export(kit::Ui& ui, int format) {
    const std::string stem = model_.demand_id + "-" + records::utc_text(model_.now_s).substr(0, 10);
    try {
      switch (format) {
        case 0:
          write(ui, stem + ".csv", reports::standings_csv(model_.rows, desk_.library, *model_.demand()));
          break;
        case 1:
          write(ui, stem + ".pdf",
                reports::standings_pdf(model_.rows, desk_.library, *model_.demand(), site_, model_.now_s));
          break;
        case 2:
          write(ui, "attempts-" + stem + ".csv", reports::attempts_csv(*desk_.store, desk_.library));
          break;
        case 3: write(ui, "certificates-" + stem + ".csv", reports::certificates_csv(*desk_.store)); break;
        default:
          write(ui, "statements-" + stem + ".json",
                reports::all_statements(*desk_.store, desk_.library, reports::default_home).dump(1));
          break;
      }
      desk_.store->note(model_.who, "exported", std::to_string(format));
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what(), 10.0);
    }
  }

  void save_certificate(kit::Ui& ui) {
    const records::Standing* row = model_.row();
    if (row == nullptr || !row->certificate) return;
    try {
      const records::CertificateCheck check = records::check_certificate(row->certificate->file);
      if (!check.fault.empty()) throw records::StoreError(check.place + ": " + check.fault, true);
      const std::string line = records::short_certificate(check.text, row->certificate->file,
                                                          records::site_key(desk_.data_dir, false).seed);
      write(ui, row->certificate->uid + ".certificate", row->certificate->file);
      write(ui, row->certificate->uid + ".pdf", reports::certificate_pdf(check.text, line, check.key_print));
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what(), 10.0);
    }
  }

  work::Desk& desk_;
  work::CertifyModel model_;
  CertifyDialogs dialogs_;
  std::string site_;
};

}  // namespace

std::unique_ptr<Screen> make_certify(work::Desk& desk) { return std::make_unique<Certify>(desk); }

}  // namespace stirbench::desk::screens
