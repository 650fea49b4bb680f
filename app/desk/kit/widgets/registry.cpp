#include "app/desk/kit/widgets/registry.h"

#include <utility>

namespace stirbench::desk::kit {

void Registry::begin_frame() {
  now_.clear();
  index_now_.clear();
  duplicates_.clear();
  modal_first_now_ = 0;
  modal_end_now_ = 0;
}

void Registry::end_frame() {
  std::swap(now_, last_);
  std::swap(index_now_, index_last_);
  modal_first_last_ = modal_first_now_;
  modal_end_last_ = modal_end_now_;
}

Widget& Registry::add(Widget widget) {
  if (!index_now_.emplace(widget.id, now_.size()).second) duplicates_.push_back(widget.id);
  now_.push_back(std::move(widget));
  return now_.back();
}

const Widget* Registry::find(std::string_view id) const {
  const auto found = index_last_.find(id);
  return found == index_last_.end() ? nullptr : &last_[found->second];
}

std::string Registry::focused_id() const {
  for (const Widget& widget : last_) {
    if (widget.focused) return widget.id;
  }
  return {};
}

void Registry::point_at(std::string_view id) {
  if (pointed_ == id) return;
  pointed_ = std::string(id);
  scroll_request_ = pointed_;
}

bool Registry::take_scroll_request(std::string_view id) {
  if (scroll_request_.empty() || scroll_request_ != id) return false;
  scroll_request_.clear();
  return true;
}

bool Registry::take_focus_request(std::string_view id) {
  if (focus_request_.empty() || focus_request_ != id) return false;
  focus_request_.clear();
  return true;
}

void Registry::end_modal(std::size_t first) {
  // One that encloses the range already noted is the outer of two: the inner keeps the keyboard.
  const bool encloses = modal_end_now_ > modal_first_now_ && first <= modal_first_now_;
  if (encloses) return;
  modal_first_now_ = first;
  modal_end_now_ = now_.size();
}

std::string Registry::neighbour(std::string_view id, int direction) const {
  const bool modal = has_modal();
  const std::size_t first = modal ? modal_first_last_ : 0;
  const std::size_t end = modal ? modal_end_last_ : last_.size();
  std::vector<std::size_t> stops;
  std::size_t here = 0;
  bool found = false;
  for (std::size_t i = first; i < end && i < last_.size(); ++i) {
    if (!last_[i].focusable) continue;
    if (last_[i].id == id) {
      here = stops.size();
      found = true;
    }
    stops.push_back(i);
  }
  if (stops.empty()) return {};
  if (!found) return last_[direction > 0 ? stops.front() : stops.back()].id;
  const std::size_t count = stops.size();
  return last_[stops[(here + (direction > 0 ? 1 : count - 1)) % count]].id;
}

}  // namespace stirbench::desk::kit
