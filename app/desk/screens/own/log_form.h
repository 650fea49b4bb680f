#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/desk.h"
#include "app/desk/work/own/own_fit.h"

namespace stirbench::desk::screens {

// A log and what somebody says about its batch, as fields.
class LogForm {
 public:
  LogForm(const work::Desk& desk, std::string id);

  std::string path;
  // With `machines` the machine is asked for too; else it is the desk's.
  void draw(kit::Ui& ui, const work::Desk& desk, bool machines);
  work::LogQuestion question() const;
  const std::string& machine() const { return machine_; }

 private:
  std::string id_;
  std::string machine_;
  std::vector<std::string> products_;
  int product_ = 0;
  int weighed_ = 0;  // 0: weighed, 1: only estimated
  double mass_kg_ = 40.0;
  bool room_known_ = false;
  double room_degC_ = 22.0;
};

// Why the log could not be read, each with its line and way out.
void draw_log_problems(kit::Ui& ui, const std::string& id, const std::vector<std::string>& problems);

}  // namespace stirbench::desk::screens
