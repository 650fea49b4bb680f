#pragma once

#include <string>
#include <string_view>

#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

struct PanelStyle {
  std::string caption{};  // small secondary words on top
  Token ground = Token::panel;
  Token border = Token::line;
  float padding = Measure::panel_padding;
  bool scroll = true;  // scrolls when the content is higher; false = clips
};

// A rounded panel at `rect`. While it lives, the cursor runs inside it. A bar shows when there is more below.
class PanelScope {
 public:
  PanelScope(Ui& ui, std::string_view id, const Rect& rect, const PanelStyle& style = {});
  ~PanelScope();
  PanelScope(const PanelScope&) = delete;
  PanelScope& operator=(const PanelScope&) = delete;
  const Rect& rect() const { return rect_; }
  const Rect& inner() const { return inner_; }  // without padding and caption

 private:
  Ui& ui_;
  Rect rect_;
  Rect inner_;
  Token ground_;
};

// A panel that is one large button (home's doors). Draw into inner() while it lives; nothing inside is
// pressable.
class CardScope {
 public:
  CardScope(Ui& ui, std::string_view id, const Rect& rect, std::string_view label, bool enabled = true,
            std::string_view reason = {});
  ~CardScope();
  CardScope(const CardScope&) = delete;
  CardScope& operator=(const CardScope&) = delete;
  bool pressed() const { return pressed_; }
  bool hovered() const { return hovered_; }
  const Rect& inner() const { return inner_; }

 private:
  Rect rect_;
  Rect inner_;
  bool pressed_ = false;
  bool hovered_ = false;
};

// A region without ground that scrolls. height <= 0: what is left.
class ScrollScope {
 public:
  ScrollScope(Ui& ui, std::string_view id, const Rect& rect);
  ~ScrollScope();
  ScrollScope(const ScrollScope&) = delete;
  ScrollScope& operator=(const ScrollScope&) = delete;

 private:
  Ui& ui_;
};

}  // namespace stirbench::desk::kit
