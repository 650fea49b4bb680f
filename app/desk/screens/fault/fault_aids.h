#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/desk/views/body/body_view.h"
#include "app/desk/views/diagram/wiring_panel.h"
#include "app/library/library.h"
#include "sim_core/diagnosis/model.h"
#include "sim_core/journal/session.h"

// Pictures beside the fault-finding screen's words: where a check is done, on the machine's body or on its
// wiring diagram with an instrument that reads the simulated machine in order; and the way from a cause to a
// run with that fault set.
namespace stirbench::desk::screens {

// Titles of the checks that are done at a part of the body.
std::vector<std::string> checks_at(const std::vector<diagnosis::Check>& checks, const std::string& part_id);

class FaultAids {
 public:
  explicit FaultAids(const library::Library& library, const std::string& machine_id);

  // What pictures there are for a check.
  bool has_diagram(const diagnosis::Check& check) const;
  bool has_body(const diagnosis::Check& check) const;

  void show_check(const diagnosis::Check& check);
  void show_wiring();  // the diagram without a check
  bool open() const { return what_ != What::nothing; }
  void close() { what_ = What::nothing; }
  // The picture with its words, over the whole area of the screen.
  void draw(kit::Ui& ui, const kit::Rect& area);

  // Set by the panels when somebody asks for a cause on the simulator; taken by the screen.
  void ask_simulator(const std::string& fault) { asked_fault_ = fault; }
  std::string take_simulator();
  // Empty, or why the simulator does not know this cause.
  std::string why_not_simulator(const std::string& fault) const;

 private:
  enum class What : std::uint8_t { nothing, diagram, body };
  void start_good_machine();
  void draw_good_machine(kit::Ui& ui, const kit::Rect& rect);
  void draw_body(kit::Ui& ui, const kit::Rect& rect);

  const library::Library& library_;
  machine::Machine machine_;
  What what_ = What::nothing;
  diagnosis::Check check_;
  bool with_check_ = false;
  std::vector<int> marked_;
  views::WiringState wiring_;
  views::BodyView body_;
  bool body_tried_ = false;
  bool body_aimed_ = false;
  views::MachineMotion motion_;
  std::unique_ptr<journal::Session> good_;  // the machine in order, to try readings on
  int pose_ = 0;                            // what the good machine is doing
  std::string asked_fault_;
};

}  // namespace stirbench::desk::screens
