#include "app/desk/views/diagram/diagram_view.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/spot.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/views/diagram/symbols.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

namespace stirbench::desk::views {

using kit::tr;

namespace {

namespace w = electrics;

constexpr double mains_V = 50.0;
constexpr double some_V = 1.0;
constexpr double some_A = 0.01;

// All that a frame of the sheet needs.
struct Frame {
  kit::Ui& ui;
  const DiagramViewInput& input;
  const SheetPlan& plan;
  DiagramCanvas canvas;
};

ImU32 faded(ImU32 colour, float factor) {
  const auto alpha = static_cast<ImU32>(static_cast<float>(colour >> IM_COL32_A_SHIFT & 0xFFU) * factor);
  return (colour & ~IM_COL32_A_MASK) | (alpha << IM_COL32_A_SHIFT);
}

double volts_of(const LiveCircuit& live, std::size_t terminal) {
  return std::max(std::abs(live.alternating.volt[terminal]), std::abs(live.direct.volt[terminal]));
}

bool taken_off(const machine::FaultWork* work, int wire) {
  return work != nullptr &&
         std::find(work->wires_off.begin(), work->wires_off.end(), wire + 1) != work->wires_off.end();
}

void arrow(const DiagramCanvas& c, DiagramPoint from, DiagramPoint to, ImU32 colour) {
  const ImVec2 a = c.at(from);
  const ImVec2 b = c.at(to);
  const float length = std::hypot(b.x - a.x, b.y - a.y);
  if (length < 2.2F * c.step) return;
  const float ux = (b.x - a.x) / length, uy = (b.y - a.y) / length;
  const ImVec2 m{0.5F * (a.x + b.x), 0.5F * (a.y + b.y)};
  const float s = 0.32F * c.step;
  c.draw->AddTriangleFilled({m.x + ux * s, m.y + uy * s},
                            {m.x - ux * s - uy * s * 0.8F, m.y - uy * s + ux * s * 0.8F},
                            {m.x - ux * s + uy * s * 0.8F, m.y - uy * s - ux * s * 0.8F}, colour);
}

struct WireLook {
  ImU32 colour = 0;
  float width = 1.2F;
  bool flows = false;
  bool backwards = false;
};

WireLook look_of(const Frame& f, int wire) {
  WireLook out{f.canvas.ink, f.canvas.line * 0.8F};
  if (f.input.live == nullptr || !f.input.live->known) return out;
  const LiveCircuit& live = *f.input.live;
  const auto at = static_cast<std::size_t>(wire);
  const double V =
      std::max(volts_of(live, f.input.network.joins[at].from), volts_of(live, f.input.network.joins[at].to));
  const double A = std::abs(live.alternating.wire_A[at]) + std::abs(live.direct.wire_A[at]);
  if (V > some_V) {
    out.colour = f.ui.colour(V > mains_V ? kit::Token::hot : kit::Token::act);
    out.width = f.canvas.line * 1.7F;
  } else {
    out.colour = f.ui.colour(kit::Token::ink2);
  }
  out.flows = A > some_A;
  out.backwards = live.direct.wire_A[at].real() < 0.0;
  return out;
}

void draw_wires(const Frame& f) {
  for (const PlannedWire& wire : f.plan.wires) {
    const WireLook look = look_of(f, wire.wire);
    const bool off = taken_off(f.input.work, wire.wire);
    for (std::size_t i = 0; i + 1 < wire.line.size(); ++i) {
      f.canvas.draw->AddLine(f.canvas.at(wire.line[i]), f.canvas.at(wire.line[i + 1]),
                             off ? faded(look.colour, 0.25F) : look.colour, look.width);
      if (look.flows && !off) {
        if (look.backwards)
          arrow(f.canvas, wire.line[i + 1], wire.line[i], look.colour);
        else
          arrow(f.canvas, wire.line[i], wire.line[i + 1], look.colour);
      }
    }
    const float dot = std::max(2.5F, 0.18F * f.canvas.step);
    if (wire.dot_at_start) f.canvas.draw->AddCircleFilled(f.canvas.at(wire.line.front()), dot, look.colour);
    if (wire.dot_at_end) f.canvas.draw->AddCircleFilled(f.canvas.at(wire.line.back()), dot, look.colour);
    if (!off) continue;
    // Its free end: a short gap with a cross, so that it is not told by shade alone.
    const ImVec2 p = f.canvas.at(wire.line.front());
    const float s = 0.35F * f.canvas.step;
    f.canvas.draw->AddLine({p.x - s, p.y - s}, {p.x + s, p.y + s}, f.ui.colour(kit::Token::bad), 2.0F);
    f.canvas.draw->AddLine({p.x - s, p.y + s}, {p.x + s, p.y - s}, f.ui.colour(kit::Token::bad), 2.0F);
  }
}

void draw_bars(const Frame& f) {
  for (const PlannedTerminal& one : f.plan.terminals) {
    if (!one.bar || one.terminal < 0) continue;
    ImU32 colour = f.canvas.ink;
    if (f.input.live != nullptr && f.input.live->known) {
      const double V = volts_of(*f.input.live, static_cast<std::size_t>(one.terminal));
      colour = f.ui.colour(V > mains_V ? kit::Token::hot : V > some_V ? kit::Token::act : kit::Token::ink2);
    }
    f.canvas.draw->AddLine(f.canvas.at(one.at), f.canvas.at({one.to_x, one.at.y}), colour,
                           f.canvas.line * 1.9F);
    f.canvas.draw->AddCircleFilled(f.canvas.at(one.at), 0.22F * f.canvas.step, colour);
  }
}

void put_text(const Frame& f, ImVec2 at, const std::string& words, kit::Type type, ImU32 colour,
              kit::Align align = kit::Align::left) {
  ImFont* font = f.ui.theme.font(type);
  const float size = f.ui.theme.text_px(type);
  const ImVec2 extent = font->CalcTextSizeA(size, 1.0e6F, 0.0F, words.c_str());
  if (align == kit::Align::right) at.x -= extent.x;
  if (align == kit::Align::centre) at.x -= extent.x * 0.5F;
  f.canvas.draw->AddText(font, size, {at.x, at.y - extent.y * 0.5F}, colour, words.c_str());
}

// The part's letter and number beside its symbol, the marks beside its pins.
void draw_names(const Frame& f) {
  const ImU32 strong = f.canvas.ink;
  for (const PlannedSymbol& symbol : f.plan.symbols) {
    const auto& pins = symbol.symbol->pins;
    const auto form = symbol.symbol->form;
    if (form == library::SymbolForm::earth) continue;
    DiagramPoint at{static_cast<float>(pins.front().x), static_cast<float>(pins.front().y)};
    kit::Align align = kit::Align::right;
    if (form == library::SymbolForm::contacts || form == library::SymbolForm::coil)
      at = {at.x - (form == library::SymbolForm::coil ? 1.35F : 0.95F), at.y + 1.0F};
    else if (form == library::SymbolForm::transformer)
      at = {at.x - 0.6F, at.y + 2.0F};
    else if (form == library::SymbolForm::element || form == library::SymbolForm::sensor) {
      at = {0.5F * static_cast<float>(pins[0].x + pins[1].x), at.y - 1.0F};
      align = kit::Align::centre;
    } else if (form == library::SymbolForm::motor)
      at = {at.x + 1.6F, at.y + 3.2F};
    else if (form == library::SymbolForm::fan)
      at = {at.x - 0.3F, at.y + 1.6F};
    else if (form == library::SymbolForm::box) {
      at = {at.x - 1.6F, 0.5F * static_cast<float>(pins.front().y + pins.back().y)};
      for (const auto& pin : pins) at.y = std::max(at.y, 0.5F * static_cast<float>(pins.front().y + pin.y));
      align = kit::Align::left;
    } else
      at = {at.x - 0.6F, at.y};
    std::string words = symbol.symbol->part;
    if (form == library::SymbolForm::box && pins.size() > 4)
      words += "  " + tr(f.input.network.parts[static_cast<std::size_t>(symbol.part)].title);
    put_text(f, f.canvas.at(at), words, kit::Type::caption_bold, strong, align);
    for (std::size_t i = 0; i < pins.size(); ++i) {
      const bool above = form == library::SymbolForm::contacts || form == library::SymbolForm::coil
                             ? i % 2 == 0
                             : form != library::SymbolForm::terminals;
      const bool inside = form == library::SymbolForm::box;
      const float low = inside ? (pins[i].y < at.y ? 0.65F : -0.65F) : above ? -0.5F : 0.5F;
      ImVec2 mark = f.canvas.at({static_cast<float>(pins[i].x), static_cast<float>(pins[i].y) + low});
      mark.x += 0.3F * f.canvas.step;
      put_text(f, mark, pins[i].terminal, kit::Type::caption, f.canvas.quiet);
    }
  }
  for (const PlannedTerminal& one : f.plan.terminals) {
    if (!one.bar || one.terminal < 0) continue;
    const ImVec2 at = f.canvas.at({one.at.x + 0.3F, one.at.y - 0.5F});
    put_text(f, at, f.input.network.terminals[static_cast<std::size_t>(one.terminal)].name,
             kit::Type::caption_bold, strong);
  }
}

std::string spoken(const w::Network& network, int terminal) {
  const auto& one = network.terminals[static_cast<std::size_t>(terminal)];
  return one.name + " · " + tr(network.parts[one.part].title);
}

void draw_probe(const Frame& f, DiagramPoint at, const char* letter, ImU32 colour, float side) {
  const ImVec2 tip = f.canvas.at(at);
  const float s = f.canvas.step;
  const ImVec2 body{tip.x + side * 1.1F * s, tip.y - 1.1F * s};
  f.canvas.draw->AddLine(tip, body, colour, 3.0F);
  f.canvas.draw->AddCircleFilled(body, 0.55F * s, colour);
  put_text(f, body, letter, kit::Type::caption_bold, f.ui.colour(kit::Token::panel), kit::Align::centre);
}

void draw_probes(const Frame& f) {
  if (f.input.work == nullptr) return;
  bool red = false, black = false;
  for (const PlannedTerminal& one : f.plan.terminals) {
    const DiagramPoint at = one.at;
    if (!red && one.terminal >= 0 && one.terminal == f.input.work->red) {
      draw_probe(f, at, "R", f.ui.colour(kit::Token::bad), 1.0F);
      red = true;
    }
    if (!black && one.terminal >= 0 && one.terminal == f.input.work->black) {
      draw_probe(f, at, "B", f.ui.colour(kit::Token::ink), -1.0F);
      black = true;
    }
  }
}

void press_terminals(const Frame& f, DiagramPress& press) {
  std::vector<int> seen;
  for (const PlannedTerminal& one : f.plan.terminals) {
    if (one.terminal < 0) continue;
    const auto again = std::count(seen.begin(), seen.end(), one.terminal);
    seen.push_back(one.terminal);
    const std::string& name = f.input.network.terminals[static_cast<std::size_t>(one.terminal)].name;
    const ImVec2 at = f.canvas.at(one.at);
    const float half = std::max(12.0F, 0.6F * f.canvas.step);
    const kit::Rect rect{at.x - half, at.y - half, 2.0F * half, 2.0F * half};
    const bool marked =
        std::find(f.input.marked.begin(), f.input.marked.end(), one.terminal) != f.input.marked.end();
    if (marked) f.canvas.draw->AddCircle(at, 0.8F * f.canvas.step, f.ui.colour(kit::Token::act), 0, 3.0F);
    if (!f.input.terminals) continue;
    const std::string id =
        f.input.id + ".terminal." + name + (again > 0 ? "." + std::to_string(again + 1) : "");
    if (spot(f.ui, id, spoken(f.input.network, one.terminal), rect, {.corner = half}).pressed)
      press.terminal = one.terminal;
  }
}

void press_wires(const Frame& f, DiagramPress& press) {
  if (!f.input.wires) return;
  for (const PlannedWire& wire : f.plan.wires) {
    // At the middle of its longest straight piece, where its number stands.
    std::size_t longest = 0;
    float most = -1.0F;
    for (std::size_t i = 0; i + 1 < wire.line.size(); ++i) {
      const float length =
          std::abs(wire.line[i].x - wire.line[i + 1].x) + std::abs(wire.line[i].y - wire.line[i + 1].y);
      if (length <= most) continue;
      most = length;
      longest = i;
    }
    const DiagramPoint a = wire.line[longest], b = wire.line[longest + 1];
    const ImVec2 at = f.canvas.at({0.5F * (a.x + b.x), 0.5F * (a.y + b.y)});
    const auto& one = f.input.network.wires[static_cast<std::size_t>(wire.wire)];
    const std::string number = std::to_string(one.number);
    ImFont* font = f.ui.theme.font(kit::Type::caption);
    const ImVec2 extent =
        font->CalcTextSizeA(f.ui.theme.text_px(kit::Type::caption), 1.0e6F, 0.0F, number.c_str());
    const kit::Rect rect{at.x - extent.x * 0.5F - 4.0F, at.y - 12.0F, extent.x + 8.0F, 24.0F};
    f.canvas.draw->AddRectFilled({rect.x, at.y - 9.0F}, {rect.right(), at.y + 9.0F},
                                 f.ui.colour(kit::Token::panel), 4.0F);
    const bool clamped = f.input.work != nullptr && f.input.work->round == wire.wire;
    f.canvas.draw->AddRect({rect.x, at.y - 9.0F}, {rect.right(), at.y + 9.0F},
                           f.ui.colour(clamped ? kit::Token::act : kit::Token::line), 4.0F, 0,
                           clamped ? 3.0F : 1.0F);
    put_text(f, at, number, kit::Type::caption, f.ui.colour(kit::Token::ink), kit::Align::centre);
    if (spot(f.ui, f.input.id + ".wire." + number,
             tr("Wire {n}: {a} to {b}", {{"n", number}, {"a", one.from}, {"b", one.to}}), rect, {})
            .pressed)
      press.wire = wire.wire;
  }
}

}  // namespace

void follow(LiveCircuit& live, const machine::Machine& machine, const machine::State& state) {
  const plant::CircuitState& c = state.plant.circuit;
  std::vector<std::uint64_t> key{c.seen_bits,
                                 c.gear.pulled_in,
                                 c.gear.tripped,
                                 c.gear.defect_count,
                                 state.plant.fittings.isolator_on ? 1U : 0U,
                                 static_cast<std::uint64_t>(1000.0 * state.plant.environment.supply_norm)};
  for (const std::int32_t off : state.work.wires_off) key.push_back(static_cast<std::uint64_t>(off));
  if (live.known && key == live.key) return;
  live.key = std::move(key);
  live.circuit = machine::circuit_now(machine, state);
  live.alternating =
      w::solve(machine.plant.circuit, live.circuit.now, live.circuit.gear, w::Current::alternating);
  live.direct = w::solve(machine.plant.circuit, live.circuit.now, live.circuit.gear, w::Current::direct);
  live.known = true;
}

DiagramPress draw_diagram(kit::Ui& ui, const DiagramViewInput& input, const kit::Rect& rect) {
  DiagramPress press;
  // The whole sheet when there is room; else never smaller than what can be read, and it scrolls.
  const float fit = std::min(rect.w / static_cast<float>(input.sheet.width + 1.0),
                             rect.h / static_cast<float>(input.sheet.height + 0.5));
  const float step = std::max(ui.em(17.0F), fit) * input.zoom;
  ImGui::SetCursorScreenPos(rect.min());
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(0.0F, 0.0F));
  ImGui::BeginChild((input.id + ".canvas").c_str(), rect.size(), false, ImGuiWindowFlags_HorizontalScrollbar);
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const SheetPlan plan = plan_sheet(input.network, input.sheet);
  DiagramCanvas canvas{kit::current_draw(),
                       {corner.x + 0.5F * step, corner.y},
                       step,
                       std::max(1.4F, 0.09F * step),
                       ui.colour(kit::Token::ink),
                       ui.colour(kit::Token::ink2),
                       ui.colour(kit::Token::panel),
                       nullptr,
                       nullptr};
  if (input.live != nullptr && input.live->known) {
    canvas.gear = &input.live->circuit.gear;
    canvas.now = &input.live->circuit.now;
  }
  const Frame frame{ui, input, plan, canvas};
  draw_wires(frame);
  draw_bars(frame);
  for (const PlannedSymbol& symbol : plan.symbols) draw_symbol(ui, canvas, input.network, symbol);
  draw_names(frame);
  press_terminals(frame, press);
  press_wires(frame, press);
  draw_probes(frame);
  ImGui::SetCursorScreenPos(corner);
  ImGui::Dummy(
      {step * static_cast<float>(input.sheet.width + 0.5), step * static_cast<float>(input.sheet.height)});
  ImGui::EndChild();
  ImGui::PopStyleVar();
  return press;
}

}  // namespace stirbench::desk::views
