#include "app/desk/screens/certify/dialogs.h"

#include "app/desk/kit/text/text.h"
#include "app/library/reading/paths.h"

namespace stirbench::desk::screens {

using kit::tr;
using kit::trn;

void CertifyDialogs::open(Kind kind) {
  kind_ = kind;
  pin_.clear();
  problem_.clear();
  note_.clear();
  reason_.clear();
  done_well_ = 0;
  planned_ = false;
}

void CertifyDialogs::open_sign(const std::string& task) {
  open(Kind::sign);
  task_ = task;
}
void CertifyDialogs::open_issue() { open(Kind::issue); }
void CertifyDialogs::open_revoke() { open(Kind::revoke); }
void CertifyDialogs::open_roster() { open(Kind::roster); }

records::Access CertifyDialogs::signer() {
  if (desk_.person.has_pin) return desk_.store->sign_in(desk_.person.id, pin_);
  return who_is_here(desk_);
}

void CertifyDialogs::pin_field(kit::Ui& ui) {
  if (desk_.person.has_pin)
    text_field(ui, "certify.pin", tr("Your PIN, {name}", {{"name", desk_.person.name}}), pin_,
               {.error = problem_, .password = true});
  else if (!problem_.empty())
    notice(ui, "certify.dialog.problem", kit::Status::bad, problem_);
  gap(ui, 6.0F);
}

template <class Work>
bool CertifyDialogs::kept(Work&& work) {
  try {
    work();
    kind_ = Kind::none;
    return true;
  } catch (const records::StoreError& error) {
    problem_ = error.text;
    pin_.clear();
    return false;
  }
}

bool CertifyDialogs::draw_sign(kit::Ui& ui, const work::CertifyModel& model) {
  kit::DialogScope dialog(ui, "certify.dialog", tr("Seen at the real machine"));
  const records::Standing* row = model.row();
  if (row == nullptr || dialog.dismissed()) {
    kind_ = Kind::none;
    return false;
  }
  text(ui, row->person.name + ": " + task_);
  text(ui,
       tr("You sign that you stood beside the real machine and saw this. It goes into the records under your "
          "name."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
  radio_row(ui, "certify.done", {tr("Done well"), tr("Not yet")}, done_well_);
  text_field(ui, "certify.machine", tr("Which machine"), machine_, {.hint = tr("as people here call it")});
  text_field(ui, "certify.note", tr("Note"), note_);
  pin_field(ui);
  const bool empty = machine_.find_first_not_of(' ') == std::string::npos;
  if (!button(
          ui, "certify.dialog.go", tr("Sign"),
          {.kind = kit::ButtonKind::primary, .enabled = !empty, .reason = tr("Say which machine it was.")}))
    return false;
  return kept([&] {
    records::Observation seen;
    seen.person = model.person;
    seen.demand = model.demand_id;
    seen.task = task_;
    seen.machine = machine_;
    seen.note = note_;
    seen.passed = done_well_ == 0;
    desk_.store->add_observation(signer(), seen);
    ui.host.toast(kit::Status::good, tr("Signed and kept."));
  });
}

bool CertifyDialogs::draw_issue(kit::Ui& ui, const work::CertifyModel& model) {
  const records::Standing* row = model.row();
  kit::DialogScope dialog(ui, "certify.dialog",
                          row != nullptr && row->certificate ? tr("Renew the certificate") : tr("Certify"));
  if (row == nullptr || dialog.dismissed()) {
    kind_ = Kind::none;
    return false;
  }
  text(ui, row->person.name + ": " + tr(model.demand()->title));
  text(ui, tr("valid until {day}", {{"day", work::day_words(row->demand.until_s)}}),
       {.colour = kit::Token::ink2});
  text(ui, tr(records::certificate_limits), {.type = kit::Type::caption, .colour = kit::Token::ink2});
  pin_field(ui);
  if (!button(ui, "certify.dialog.go", tr("Sign the certificate"), {.kind = kit::ButtonKind::primary}))
    return false;
  return kept([&] {
    const std::string before = row->certificate ? row->certificate->uid : "";
    records::issue_certificate(*desk_.store, signer(), desk_.library, *model.demand(), model.person,
                               STIRBENCH_VERSION, before);
    ui.host.toast(kit::Status::good,
                  tr("Certified until {day}.", {{"day", work::day_words(row->demand.until_s)}}));
  });
}

bool CertifyDialogs::draw_revoke(kit::Ui& ui, const work::CertifyModel& model) {
  kit::DialogScope dialog(ui, "certify.dialog", tr("Revoke the certificate"));
  const records::Standing* row = model.row();
  if (row == nullptr || !row->certificate || dialog.dismissed()) {
    kind_ = Kind::none;
    return false;
  }
  text(ui, tr("{name} may then no longer work alone. The file that was handed out still verifies by itself: "
              "tell whoever relies on it.",
              {{"name", row->person.name}}));
  text_field(ui, "certify.reason", tr("Why"), reason_);
  pin_field(ui);
  const bool empty = reason_.find_first_not_of(' ') == std::string::npos;
  if (!button(ui, "certify.dialog.go", tr("Revoke"),
              {.kind = kit::ButtonKind::primary, .enabled = !empty, .reason = tr("Say why.")}))
    return false;
  return kept([&] {
    desk_.store->set_certificate_state(signer(), row->certificate->uid, records::CertificateState::revoked,
                                       reason_);
    ui.host.toast(kit::Status::due, tr("Revoked."));
  });
}

bool CertifyDialogs::draw_roster(kit::Ui& ui, const work::CertifyModel& model) {
  kit::DialogScope dialog(ui, "certify.dialog", tr("Import roster"), 560.0F);
  if (dialog.dismissed()) {
    kind_ = Kind::none;
    return false;
  }
  text(ui, tr("A CSV file with a column \"name\" and, if you like, \"number\"."),
       {.colour = kit::Token::ink2});
  if (text_field(ui, "certify.file", tr("File"), file_, {.error = problem_})) planned_ = false;
  if (button(ui, "certify.look", tr("Look at it"),
             {.enabled = !file_.empty(), .reason = tr("Type the file's name.")})) {
    problem_.clear();
    try {
      plan_ = records::plan_roster(*desk_.store, library::read_file(file_));
      problem_ = plan_.problem;
      planned_ = plan_.problem.empty();
    } catch (const std::exception& error) {
      problem_ = error.what();
    }
  }
  if (!planned_) return false;
  constexpr std::size_t most = 8;
  for (std::size_t i = 0; i < plan_.lines.size() && i < most; ++i) {
    const records::RosterLine& line = plan_.lines[i];
    const bool wrong = line.step == records::RosterStep::wrong;
    status_mark(
        ui,
        wrong                                   ? kit::Status::bad
        : line.step == records::RosterStep::add ? kit::Status::good
                                                : kit::Status::info,
        line.name + (wrong ? ": " + tr("line {n}", {{"n", std::to_string(line.line)}}) + ", " + line.why
                     : line.step == records::RosterStep::known ? ": " + tr("is here already")
                                                               : ""));
  }
  if (plan_.lines.size() > most)
    text(ui, tr("and {n} more", {{"n", std::to_string(plan_.lines.size() - most)}}),
         {.type = kit::Type::caption});
  const std::string add = trn("Add {n} person", "Add {n} people", plan_.to_add());
  const std::string reason = !plan_.good()         ? tr("Something in it is wrong; nothing is added.")
                             : plan_.to_add() == 0 ? tr("Everybody is here already.")
                                                   : "";
  if (!button(ui, "certify.dialog.go", add,
              {.kind = kit::ButtonKind::primary, .enabled = reason.empty(), .reason = reason}))
    return false;
  return kept([&] { records::take_roster(*desk_.store, model.who, plan_); });
}

bool CertifyDialogs::draw(kit::Ui& ui, const work::CertifyModel& model) {
  switch (kind_) {
    case Kind::sign: return draw_sign(ui, model);
    case Kind::issue: return draw_issue(ui, model);
    case Kind::revoke: return draw_revoke(ui, model);
    case Kind::roster: return draw_roster(ui, model);
    case Kind::none: return false;
  }
  return false;
}

}  // namespace stirbench::desk::screens
