#pragma once

#include <string>

#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/certify/model.h"
#include "app/records/roster.h"

// What the certify screen asks before something is signed: seen at the machine, certify, revoke; and the
// roster's preview. Whoever has a PIN shows it again for each signature.
namespace stirbench::desk::screens {

class CertifyDialogs {
 public:
  explicit CertifyDialogs(work::Desk& desk) : desk_(desk) {}
  void open_sign(const std::string& task);
  void open_issue();
  void open_revoke();
  void open_roster();
  // Draws the open one. True when something was kept and the model is to be read anew.
  bool draw(kit::Ui& ui, const work::CertifyModel& model);

 private:
  enum class Kind : unsigned char { none, sign, issue, revoke, roster };

  void open(Kind kind);
  bool draw_sign(kit::Ui& ui, const work::CertifyModel& model);
  bool draw_issue(kit::Ui& ui, const work::CertifyModel& model);
  bool draw_revoke(kit::Ui& ui, const work::CertifyModel& model);
  bool draw_roster(kit::Ui& ui, const work::CertifyModel& model);
  void pin_field(kit::Ui& ui);
  // The rights of who signs, by the PIN when there is one. Throws StoreError.
  records::Access signer();
  // Runs `work`; a StoreError becomes the dialog's words. True when it went well, and the dialog closes.
  template <class Work>
  bool kept(Work&& work);

  work::Desk& desk_;
  Kind kind_ = Kind::none;
  std::string task_;
  std::string machine_;
  std::string note_;
  std::string reason_;
  std::string pin_;
  std::string problem_;
  std::string file_;
  int done_well_ = 0;
  records::RosterPlan plan_;
  bool planned_ = false;
};

}  // namespace stirbench::desk::screens
