#include "app/desk/views/diagram/symbols.h"

#include <algorithm>
#include <cmath>

namespace stirbench::desk::views {

namespace {

namespace w = electrics;
using library::SymbolForm;

// Pen on a canvas: everything in steps of the grid.
struct Pen {
  const DiagramCanvas& c;

  void line(DiagramPoint a, DiagramPoint b) const { c.draw->AddLine(c.at(a), c.at(b), c.ink, c.line); }
  void dashes(DiagramPoint a, DiagramPoint b) const {
    const ImVec2 from = c.at(a);
    const ImVec2 to = c.at(b);
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    const float dash = 4.0F * c.line;
    for (float s = 0.0F; s < length; s += 2.0F * dash) {
      const float e = std::min(length, s + dash);
      c.draw->AddLine({from.x + (to.x - from.x) * s / length, from.y + (to.y - from.y) * s / length},
                      {from.x + (to.x - from.x) * e / length, from.y + (to.y - from.y) * e / length}, c.ink,
                      c.line * 0.7F);
    }
  }
  void box(DiagramPoint a, DiagramPoint b) const {
    c.draw->AddRectFilled(c.at(a), c.at(b), c.ground);
    c.draw->AddRect(c.at(a), c.at(b), c.ink, 0.0F, 0, c.line);
  }
  void circle(DiagramPoint at, float radius) const {
    c.draw->AddCircleFilled(c.at(at), radius * c.step, c.ground, 0);
    c.draw->AddCircle(c.at(at), radius * c.step, c.ink, 0, c.line);
  }
  void dot(DiagramPoint at) const {
    c.draw->AddCircleFilled(c.at(at), std::max(2.5F, 0.16F * c.step), c.ink, 0);
  }
  void ring(DiagramPoint at) const {
    c.draw->AddCircleFilled(c.at(at), std::max(3.0F, 0.2F * c.step), c.ground, 0);
    c.draw->AddCircle(c.at(at), std::max(3.0F, 0.2F * c.step), c.ink, 0, c.line);
  }
  void half_ring(DiagramPoint at, float radius) const {
    c.draw->PathArcTo(c.at(at), radius * c.step, 3.14159F, 2.0F * 3.14159F, 10);
    c.draw->PathStroke(c.ink, 0, c.line);
  }
};

DiagramPoint point_of(const library::DiagramPin& pin) {
  return {static_cast<float>(pin.x), static_cast<float>(pin.y)};
}

// A pole between its two ends: a blade on a hinge below, open to the left at rest.
void draw_pole(const Pen& pen, w::CircuitPartKind kind, DiagramPoint upper, DiagramPoint lower, bool closed,
               bool opens) {
  const float x = upper.x;
  const float top = upper.y + 0.55F;
  const float hinge = lower.y - 0.45F;
  pen.line(upper, {x, top});
  pen.line({x, hinge}, lower);
  // A break contact's fixed side reaches across to its blade; a make contact's blade stands off at rest.
  if (opens) pen.line({x, top}, {x + 0.5F, top});
  const float tilt = opens ? (closed ? 0.42F : 0.75F) : (closed ? 0.0F : -0.55F);
  pen.line({x, hinge}, {x + tilt, closed || opens ? top - (closed && !opens ? 0.0F : 0.1F) : top + 0.05F});
  if (kind == w::CircuitPartKind::contactor && !opens) pen.half_ring({x, top}, 0.22F);
  if (kind == w::CircuitPartKind::breaker) {
    pen.line({x - 0.2F, top - 0.2F}, {x + 0.2F, top + 0.2F});
    pen.line({x - 0.2F, top + 0.2F}, {x + 0.2F, top - 0.2F});
  }
  if (kind == w::CircuitPartKind::isolator) pen.line({x - 0.3F, top}, {x + 0.3F, top});
}

// Overload's main path: the bimetal's step in a box.
void draw_heater_path(const Pen& pen, DiagramPoint upper, DiagramPoint lower) {
  const float mid = 0.5F * (upper.y + lower.y);
  pen.line(upper, {upper.x, mid - 0.5F});
  pen.box({upper.x - 0.7F, mid - 0.5F}, {upper.x + 0.7F, mid + 0.5F});
  pen.line({upper.x, mid - 0.5F}, {upper.x, mid - 0.25F});
  pen.line({upper.x, mid - 0.25F}, {upper.x + 0.35F, mid - 0.25F});
  pen.line({upper.x + 0.35F, mid - 0.25F}, {upper.x + 0.35F, mid + 0.25F});
  pen.line({upper.x + 0.35F, mid + 0.25F}, {upper.x, mid + 0.25F});
  pen.line({upper.x, mid + 0.25F}, lower);
}

void draw_contacts(const Pen& pen, const w::Network& network, const PlannedSymbol& symbol) {
  const w::CircuitPartKind kind = network.parts[static_cast<std::size_t>(symbol.part)].kind;
  const auto& pins = symbol.symbol->pins;
  for (std::size_t i = 0; i + 1 < pins.size(); i += 2) {
    const DiagramPoint upper = point_of(pins[i]);
    const DiagramPoint lower = point_of(pins[i + 1]);
    const bool main_path = kind == w::CircuitPartKind::overload && pins[i].terminal.size() == 1;
    if (main_path) {
      draw_heater_path(pen, upper, lower);
      continue;
    }
    // Closed while all is right: drawn as a break contact. 97-98 of the overload closes when it has tripped.
    const bool opens = kind == w::CircuitPartKind::guard ||
                       (kind == w::CircuitPartKind::overload && pins[i].terminal == "95");
    draw_pole(pen, kind, upper, lower, pole_closed(pen.c, network, symbol.part, symbol.terminals[i]), opens);
  }
  // What moves the poles together.
  if (pins.size() < 4) return;
  const float y = 0.5F * static_cast<float>(pins.front().y + pins[1].y);
  pen.dashes({static_cast<float>(pins.front().x) - 0.2F, y},
             {static_cast<float>(pins[pins.size() - 2].x) - 0.2F, y});
}

void draw_coil(const Pen& pen, const std::vector<library::DiagramPin>& pins) {
  const DiagramPoint a = point_of(pins.front());
  const DiagramPoint b = point_of(pins.back());
  pen.line(a, {a.x, a.y + 0.5F});
  pen.line({b.x, b.y - 0.5F}, b);
  pen.box({a.x - 1.1F, a.y + 0.5F}, {a.x + 1.1F, b.y - 0.5F});
}

// A resistor lying between its first two pins; the diagonal says that it follows temperature.
void draw_resistor(const Pen& pen, const library::DiagramSymbol& symbol) {
  DiagramPoint a = point_of(symbol.pins[0]);
  DiagramPoint b = point_of(symbol.pins[1]);
  if (a.x > b.x) std::swap(a, b);
  const float inset = std::max(0.4F, 0.5F * (b.x - a.x) - 1.6F);
  pen.line(a, {a.x + inset, a.y});
  pen.line({b.x - inset, b.y}, b);
  pen.box({a.x + inset, a.y - 0.45F}, {b.x - inset, a.y + 0.45F});
  if (symbol.form == SymbolForm::sensor) {
    const float mid = 0.5F * (a.x + b.x);
    pen.line({mid - 1.2F, a.y + 0.9F}, {mid + 1.0F, a.y - 0.9F});
    pen.line({mid - 1.7F, a.y + 0.9F}, {mid - 1.2F, a.y + 0.9F});
    for (std::size_t i = 2; i < symbol.pins.size(); ++i) pen.line(b, point_of(symbol.pins[i]));
    return;
  }
  for (std::size_t i = 2; i < symbol.pins.size(); ++i) {
    const DiagramPoint pe = point_of(symbol.pins[i]);
    pen.line({pe.x, a.y + 0.45F}, pe);
  }
}

void draw_machine_circle(const kit::Ui& ui, const Pen& pen, const library::DiagramSymbol& symbol,
                         const char* letters) {
  const auto& pins = symbol.pins;
  const DiagramPoint first = point_of(pins.front());
  const std::size_t feeds = symbol.form == SymbolForm::motor ? 3 : 2;
  const DiagramPoint last = point_of(pins[feeds - 1]);
  const float radius = symbol.form == SymbolForm::motor ? 1.6F : 0.9F;
  const DiagramPoint middle{0.5F * (first.x + last.x),
                            first.y + (symbol.form == SymbolForm::motor ? 3.0F : 1.6F)};
  for (std::size_t i = 0; i < feeds; ++i) {
    const DiagramPoint pin = point_of(pins[i]);
    const float across = std::clamp((pin.x - middle.x) / radius, -0.75F, 0.75F);
    const DiagramPoint rim{middle.x + across * radius, middle.y - radius * std::sqrt(1.0F - across * across)};
    pen.line(pin, {pin.x, pin.y + 0.5F});
    pen.line({pin.x, pin.y + 0.5F}, rim);
  }
  if (pins.size() > feeds) {
    const DiagramPoint pe = point_of(pins.back());
    const float x = std::clamp(pe.x, middle.x - radius, middle.x + radius);
    pen.line({x, middle.y}, {pe.x, middle.y});
    pen.line({pe.x, middle.y}, pe);
  }
  pen.circle(middle, radius);
  ImFont* font = ui.theme.font(kit::Type::caption_bold);
  const float size = ui.theme.text_px(kit::Type::caption_bold);
  const ImVec2 extent = font->CalcTextSizeA(size, 1.0e6F, 0.0F, letters);
  const ImVec2 at = pen.c.at(middle);
  pen.c.draw->AddText(font, size, {at.x - extent.x * 0.5F, at.y - extent.y * 0.5F}, pen.c.ink, letters);
}

void draw_transformer(const Pen& pen, const std::vector<library::DiagramPin>& pins) {
  const DiagramPoint a = point_of(pins[0]), b = point_of(pins[1]), c = point_of(pins[2]),
                     d = point_of(pins[3]);
  const float x = 0.5F * (a.x + b.x);
  const float high = a.y + 1.35F;
  const float low = c.y - 1.35F;
  for (const auto& [pin, y] : {std::pair{a, high}, {b, high}, {c, low}, {d, low}}) {
    const float side = pin.x < x ? -0.75F : 0.75F;
    pen.line(pin, {pin.x, y});
    pen.line({pin.x, y}, {x + side, y});
  }
  pen.circle({x, high}, 0.95F);
  pen.c.draw->AddCircle(pen.c.at({x, low}), 0.95F * pen.c.step, pen.c.ink, 0, pen.c.line);
}

void draw_box(const Pen& pen, const std::vector<library::DiagramPin>& pins) {
  float left = 1.0e6F, right = -1.0e6F, top = 1.0e6F, bottom = -1.0e6F;
  for (const auto& pin : pins) {
    left = std::min(left, static_cast<float>(pin.x));
    right = std::max(right, static_cast<float>(pin.x));
    top = std::min(top, static_cast<float>(pin.y));
    bottom = std::max(bottom, static_cast<float>(pin.y));
  }
  pen.box({left - 2.0F, top}, {right + 2.0F, bottom});
}

void draw_earth(const Pen& pen, DiagramPoint at) {
  pen.line(at, {at.x, at.y + 0.4F});
  for (int i = 0; i < 3; ++i) {
    const float half = 0.7F - 0.22F * static_cast<float>(i);
    const float y = at.y + 0.4F + 0.22F * static_cast<float>(i);
    pen.line({at.x - half, y}, {at.x + half, y});
  }
}

}  // namespace

bool pole_closed(const DiagramCanvas& canvas, const w::Network& network, int part, int upper_terminal) {
  const w::CircuitPart& p = network.parts[static_cast<std::size_t>(part)];
  const bool second_of_overload =
      p.kind == w::CircuitPartKind::overload &&
      network.terminals[static_cast<std::size_t>(upper_terminal)].name.ends_with(".97");
  if (canvas.gear == nullptr || canvas.now == nullptr) {
    return p.kind == w::CircuitPartKind::guard || p.kind == w::CircuitPartKind::breaker ||
           (p.kind == w::CircuitPartKind::overload && !second_of_overload);
  }
  const w::CircuitInputs& now = *canvas.now;
  switch (p.kind) {
    case w::CircuitPartKind::breaker: return !canvas.gear->is_tripped(part);
    case w::CircuitPartKind::isolator: return now.switches.is(w::Switch::isolator_on);
    case w::CircuitPartKind::contactor: return canvas.gear->is_in(part);
    case w::CircuitPartKind::overload:
      return now.switches.is(w::Switch::overload_tripped) == second_of_overload;
    case w::CircuitPartKind::controller: {
      const std::string& name = network.terminals[static_cast<std::size_t>(upper_terminal)].name;
      const char output = name[name.size() - 2];
      const w::Switch wanted = output == 'H'   ? w::Switch::heat_wanted
                               : output == 'D' ? w::Switch::drive_wanted
                                               : w::Switch::chill_wanted;
      return now.switches.is(wanted) && canvas.gear->is_in(part);
    }
    case w::CircuitPartKind::guard:
      switch (p.role) {
        case w::CircuitRole::lid: return now.switches.is(w::Switch::lid_closed);
        case w::CircuitRole::shaft_cover: return now.switches.is(w::Switch::shaft_cover_closed);
        case w::CircuitRole::emergency_stop: return !now.switches.is(w::Switch::emergency_stop_open);
        case w::CircuitRole::cutout: return !now.switches.is(w::Switch::cutout_tripped);
        case w::CircuitRole::pressure: return !now.switches.is(w::Switch::pressure_tripped);
        default: return true;
      }
    default: return false;
  }
}

void draw_symbol(const kit::Ui& ui, const DiagramCanvas& canvas, const w::Network& network,
                 const PlannedSymbol& symbol) {
  const Pen pen{canvas};
  const auto& pins = symbol.symbol->pins;
  switch (symbol.symbol->form) {
    case SymbolForm::terminals:
      for (const auto& pin : pins) pen.ring(point_of(pin));
      return;
    case SymbolForm::contacts: draw_contacts(pen, network, symbol); break;
    case SymbolForm::coil: draw_coil(pen, pins); break;
    case SymbolForm::element:
    case SymbolForm::sensor: draw_resistor(pen, *symbol.symbol); break;
    case SymbolForm::motor: draw_machine_circle(ui, pen, *symbol.symbol, "M 3~"); break;
    case SymbolForm::fan: draw_machine_circle(ui, pen, *symbol.symbol, "M"); break;
    case SymbolForm::transformer: draw_transformer(pen, pins); break;
    case SymbolForm::box: draw_box(pen, pins); break;
    case SymbolForm::earth: draw_earth(pen, point_of(pins.front())); return;
    case SymbolForm::count: return;
  }
  for (const auto& pin : pins) pen.dot(point_of(pin));
}

}  // namespace stirbench::desk::views
