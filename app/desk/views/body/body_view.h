#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/desk/views/body/camera.h"
#include "app/desk/views/machine_view/machine_view.h"
#include "app/library/library.h"

// The machine in three dimensions inside a screen: orbit, zoom, fit, looks, names on leader lines, picking.
// It takes what draw_machine takes and answers the same, so that a screen can offer either.
//
//   BodyView view;                                        // member of the screen
//   view.open(library, machine);                          // once; false when there is no body for that
//                                                         machine
//   const MachineRequests wants = view.draw(ui, input, rect);
namespace stirbench::desk::views {

class BodyView {
 public:
  BodyView();
  ~BodyView();
  BodyView(const BodyView&) = delete;
  BodyView& operator=(const BodyView&) = delete;

  bool open(const library::Library& library, const machine::Machine& machine);
  bool is_open() const;
  // Why there is no picture ("" when all is well).
  const std::string& problem() const;

  MachineRequests draw(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& rect);

  // The part last clicked, "" none; a screen may choose one too.
  const std::string& chosen() const;
  void choose(const std::string& part_id);
  const library::BodyPart* part(const std::string& part_id) const;
  const std::vector<library::BodyPart>& parts() const;
  void show(body::Look look);
  void show_freezer(bool on);
  // The whole of what is shown, in the next picture.
  void fit();
  // Comes near the part with the next picture, so that it is in the middle.
  void look_at(const std::string& part_id);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace stirbench::desk::views
