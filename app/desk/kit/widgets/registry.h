#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/theme/geometry.h"

// Every control that a frame draws registers its name and rectangle. Guided lessons point at them, the
// keyboard reaches them, tests click them.
namespace stirbench::desk::kit {

struct Widget {
  std::string id{};      // stable, dotted: "panel.key.stop"
  std::string kind{};    // "button", "checkbox", "field", "slider", "link", "row", "spot", "text", ...
  std::string label{};   // the words a person sees
  std::string value{};   // what it holds now: "on", "85.0", the text of a field
  std::string reason{};  // why it is disabled, when it is
  Rect rect;             // as drawn
  Rect visible_rect;     // the part that is not clipped; a click goes to its centre
  bool enabled = true;
  bool visible = true;   // false when clipped away by a scroll area
  bool focused = false;  // has the keyboard
  bool focusable = true;
  unsigned int imgui_id = 0;
};

class Registry {
 public:
  // Starts a new frame; what the last one registered stays readable until end_frame().
  void begin_frame();
  void end_frame();

  // Registers for this frame. Registering an id twice in one frame is a mistake of the screen: it is counted
  // in duplicates().
  Widget& add(Widget widget);

  // Of the last whole frame (or, before the first end_frame, of none).
  const Widget* find(std::string_view id) const;
  const std::vector<Widget>& all() const { return last_; }
  const std::vector<std::string>& duplicates() const { return duplicates_; }
  std::string focused_id() const;

  // Draws a ring and an arrow at a widget, from now until stop_pointing(). Empty id = stop. Scrolls to it
  // once.
  void point_at(std::string_view id);
  void stop_pointing() { pointed_.clear(); }
  const std::string& pointed() const { return pointed_; }
  // Asks a widget that is scrolled away to come into view.
  void scroll_to(std::string_view id) { scroll_request_ = std::string(id); }
  // True once after point_at() or scroll_to(): the widget asks whether it should scroll itself into view.
  bool take_scroll_request(std::string_view id);

  // Keyboard: ask that the widget gets the focus when it is drawn next.
  // `ring` false: without showing the focus ring (after a click).
  void request_focus(std::string_view id, bool ring = true) {
    focus_request_ = std::string(id);
    focus_ring_ = ring;
  }
  bool focus_shows_ring() const { return focus_ring_; }
  bool take_focus_request(std::string_view id);
  // Id of the next (+1) or previous (-1) focusable, enabled-or-explained widget in drawing order, cyclic;
  // within the modal if one is open.
  std::string neighbour(std::string_view id, int direction) const;
  // Widgets registered between these belong to a dialog or an open list; Tab stays inside. begin_modal()
  // returns the mark that end_modal() wants. The innermost, latest one counts.
  std::size_t begin_modal() const { return now_.size(); }
  void end_modal(std::size_t first);
  // Whether the last whole frame had a dialog or an open list.
  bool has_modal() const { return modal_end_last_ > modal_first_last_; }

 private:
  std::vector<Widget> now_;
  std::vector<Widget> last_;
  std::vector<std::string> duplicates_;
  std::map<std::string, std::size_t, std::less<>> index_now_;
  std::map<std::string, std::size_t, std::less<>> index_last_;
  std::string pointed_{};
  std::string scroll_request_{};
  std::string focus_request_{};
  bool focus_ring_ = true;
  std::size_t modal_first_now_ = 0;
  std::size_t modal_end_now_ = 0;
  std::size_t modal_first_last_ = 0;
  std::size_t modal_end_last_ = 0;
};

}  // namespace stirbench::desk::kit
