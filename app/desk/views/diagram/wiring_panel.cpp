#include "app/desk/views/diagram/wiring_panel.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/machine/lockout.h"

namespace stirbench::desk::views {

using kit::tr;

namespace {

using machine::Instrument;

std::string tool_title(Instrument tool) {
  switch (tool) {
    case Instrument::none: return tr("Bare hands");
    case Instrument::multimeter: return tr("Multimeter");
    case Instrument::clamp_meter: return tr("Clamp meter");
    case Instrument::insulation_tester: return tr("Insulation tester");
    case Instrument::gauge_set: return tr("Gauge set");
    case Instrument::contact_thermometer: return tr("Contact thermometer");
    case Instrument::count: break;
  }
  return {};
}

std::string function_title(std::size_t function) {
  switch (static_cast<electrics::MeterFunction>(function)) {
    case electrics::MeterFunction::alternating_V: return "V~";
    case electrics::MeterFunction::direct_V: return "V=";
    case electrics::MeterFunction::Ohm: return "Ω";
    case electrics::MeterFunction::continuity: return tr("Continuity");
    case electrics::MeterFunction::count: break;
  }
  return {};
}

std::string point_title(std::string_view word) {
  std::string out(word);
  std::replace(out.begin(), out.end(), '_', ' ');
  return tr(out);
}

// One frame of the panel.
struct Bench {
  kit::Ui& ui;
  WiringState& view;
  const WiringInput& input;
  std::vector<hands::Action> out{};

  const machine::FaultWork& work() const { return input.state.work; }
  std::string id(const std::string& rest) const { return input.id + "." + rest; }

  bool offer(const std::string& rest, const std::string& label, const hands::Action& one,
             bool selected = false) {
    const std::string reason = selected ? std::string() : tr(hands::why_not(input.machine, input.state, one));
    const bool pressed = chip(ui, id(rest), label, selected, {.enabled = reason.empty(), .reason = reason});
    if (pressed && !selected) out.push_back(one);
    return pressed;
  }
};

void draw_head(Bench& b, kit::Rect rect) {
  at(b.ui, rect.x, rect.y);
  for (std::size_t i = 0; i < b.input.sheets.size(); ++i) {
    if (i > 0) same_line(b.ui);
    const int index = static_cast<int>(i);
    if (chip(b.ui, b.id("sheet." + b.input.sheets[i].id), tr(b.input.sheets[i].title), b.view.sheet == index))
      b.view.sheet = index;
  }
  same_line(b.ui);
  if (icon_button(b.ui, b.id("smaller"), kit::Icon::minus, tr("Smaller"),
                  {.enabled = b.view.zoom > 0.75F, .reason = tr("It is at its smallest.")}))
    b.view.zoom = std::max(0.7F, b.view.zoom / 1.25F);
  same_line(b.ui);
  if (icon_button(b.ui, b.id("larger"), kit::Icon::plus, tr("Larger"),
                  {.enabled = b.view.zoom < 2.4F, .reason = tr("It is at its largest.")}))
    b.view.zoom = std::min(2.5F, b.view.zoom * 1.25F);
  b.view.back_asked = false;
  if (b.input.back_id.empty()) return;
  same_line(b.ui);
  if (button(b.ui, b.input.back_id, tr("Machine"))) b.view.back_asked = true;
}

void draw_tools(Bench& b) {
  for (std::size_t i = 0; i < machine::instrument_words().size(); ++i) {
    if (i > 0) same_line(b.ui);
    const auto tool = static_cast<Instrument>(i);
    b.offer("tool." + std::string(machine::instrument_word(tool)), tool_title(tool),
            hands::take_tool(std::string(machine::instrument_word(tool))), b.work().tool == tool);
  }
}

void draw_probe_choice(Bench& b) {
  if (chip(b.ui, b.id("red"), tr("Red probe next"), b.view.red_next)) b.view.red_next = true;
  same_line(b.ui);
  if (chip(b.ui, b.id("black"), tr("Black probe next"), !b.view.red_next)) b.view.red_next = false;
  same_line(b.ui);
  b.offer("probes_off", tr("Probes off"), hands::probes_off());
}

void draw_multimeter(Bench& b) {
  for (std::size_t i = 0; i < machine::meter_functions().size(); ++i) {
    const std::string word(machine::meter_functions()[i]);
    if (i > 0) same_line(b.ui);
    b.offer("function." + word, function_title(i), hands::set_meter(word),
            static_cast<std::size_t>(b.work().function) == i);
  }
  draw_probe_choice(b);
  if (!b.work().fuse_blown) return;
  same_line(b.ui);
  b.offer("new_fuse", tr("New fuse"), hands::new_fuse());
}

void draw_thermometer(Bench& b) {
  std::vector<std::string> titles;
  for (std::size_t i = 0; i < static_cast<std::size_t>(plant::ContactPoint::count); ++i)
    titles.push_back(point_title(plant::contact_point_word(static_cast<plant::ContactPoint>(i))));
  const int picked = menu_button(b.ui, b.id("point"), tr("Press it on ..."), titles);
  if (picked >= 0)
    b.out.push_back(hands::press_thermometer(
        std::string(plant::contact_point_word(static_cast<plant::ContactPoint>(picked)))));
  same_line(b.ui);
  b.offer("probes_off", tr("Take it off"), hands::probes_off());
}

void draw_hands(Bench& b) {
  checkbox(b.ui, b.id("wires_off"), tr("Take wires off and put them on, by their numbers"), b.view.wires_off);
  const bool open = b.input.state.lockout.panel_off;
  text(b.ui,
       open ? tr("The panel is off. Bare hands touch terminals only when they are proved dead.")
            : tr("The panel is on: only the site's own terminals can be reached."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = b.id("panel_words").c_str()});
}

void draw_context(Bench& b) {
  switch (b.work().tool) {
    case Instrument::multimeter: draw_multimeter(b); break;
    case Instrument::insulation_tester:
      draw_probe_choice(b);
      text(b.ui, tr("500 V test voltage. Only on a dead circuit, and never on the controller or a sensor."),
           {.type = kit::Type::caption, .colour = kit::Token::ink2});
      break;
    case Instrument::clamp_meter:
      text(b.ui, tr("Press the number of a wire to lay the clamp round it. Nothing is touched."),
           {.type = kit::Type::caption, .colour = kit::Token::ink2});
      b.offer("probes_off", tr("Take it off"), hands::probes_off());
      break;
    case Instrument::gauge_set:
      b.offer("connect", tr("Connect to the service ports"), hands::connect_gauges());
      same_line(b.ui);
      b.offer("disconnect", tr("Take it off"), hands::take_gauges_off());
      break;
    case Instrument::contact_thermometer: draw_thermometer(b); break;
    case Instrument::none:
    case Instrument::count: draw_hands(b); break;
  }
}

void pressed(Bench& b, const DiagramPress& press) {
  const electrics::Network& network = b.input.machine.plant.circuit;
  if (press.terminal >= 0) {
    b.out.push_back((b.view.red_next ? hands::red_probe : hands::black_probe)(
        network.terminals[static_cast<std::size_t>(press.terminal)].name));
    if (hands::why_not(b.input.machine, b.input.state, b.out.back()).empty())
      b.view.red_next = !b.view.red_next;
  }
  if (press.wire < 0) return;
  const std::string number = std::to_string(network.wires[static_cast<std::size_t>(press.wire)].number);
  const auto& off = b.work().wires_off;
  const bool is_off = std::find(off.begin(), off.end(), press.wire + 1) != off.end();
  b.out.push_back((b.work().tool == Instrument::clamp_meter ? hands::clamp_round
                   : is_off                                 ? hands::put_wire_on
                                                            : hands::take_wire_off)(number));
}

void draw_legend(kit::Ui& ui, kit::Rect rect) {
  ImDrawList* draw = kit::current_draw();
  at(ui, rect.x, rect.y);
  const auto piece = [&](kit::Token token, const std::string& words) {
    const ImVec2 corner = ImGui::GetCursorScreenPos();
    const float y = corner.y + ui.theme.line_px(kit::Type::caption) * 0.5F;
    draw->AddLine({corner.x, y}, {corner.x + ui.em(26.0F), y}, ui.colour(token), ui.px(3.0F));
    at(ui, corner.x + ui.em(32.0F), corner.y);
    text(ui, words, {.type = kit::Type::caption, .colour = kit::Token::ink2});
    at(ui, corner.x + ui.em(46.0F) + text_size(ui, words, kit::Type::caption).x, corner.y);
  };
  piece(kit::Token::hot, tr("over 50 V"));
  piece(kit::Token::act, tr("24 V"));
  piece(kit::Token::ink2, tr("no voltage"));
  text(ui, tr("arrow: current flows"), {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

}  // namespace

void show_terminals(WiringState& view, const WiringInput& input) {
  const int sheet = sheet_with(input.machine.plant.circuit, input.sheets, input.marked);
  if (sheet >= 0) view.sheet = sheet;
}

void draw_meter_face(kit::Ui& ui, const machine::FaultWork& work, const std::string& id,
                     const kit::Rect& rect) {
  kit::PanelScope face(ui, id, rect,
                       {.ground = kit::Token::display, .border = kit::Token::display, .padding = 10.0F});
  std::string head = tool_title(work.tool);
  if (work.tool == Instrument::multimeter)
    head += " · " + function_title(static_cast<std::size_t>(work.function));
  text(ui, head, {.type = kit::Type::caption, .colour = kit::Token::on_display2});
  const std::string shown = work.tool == Instrument::none ? "-" : machine::reading_words(work);
  const bool fits = text_size(ui, shown, kit::Type::display).x < face.inner().w;
  text(ui, shown,
       {.type = fits ? kit::Type::display : kit::Type::body_bold,
        .colour = kit::Token::on_display,
        .id = (id + ".shown").c_str()});
  if (work.fuse_blown && work.tool == Instrument::multimeter)
    text(ui, tr("Fuse blown: it shows nothing even where there is voltage."),
         {.type = kit::Type::caption, .colour = kit::Token::on_display, .id = (id + ".fuse").c_str()});
}

std::vector<hands::Action> draw_wiring(kit::Ui& ui, WiringState& view, const WiringInput& input,
                                       const kit::Rect& rect) {
  Bench b{ui, view, input};
  kit::PanelScope panel(ui, input.id, rect, {.scroll = false});
  kit::Rect area = panel.inner();
  if (input.sheets.empty()) {
    text(ui, tr("There is no diagram of this machine's circuit."));
    return {};
  }
  view.sheet = std::clamp(view.sheet, 0, static_cast<int>(input.sheets.size()) - 1);
  draw_head(b, area.take_top(ui.theme.control_height(), ui.px(8.0F)));
  kit::Rect foot = area.take_bottom(std::min(area.h * 0.45F, ui.em(168.0F)), ui.px(8.0F));
  const bool live = input.show_live && !input.machine.plant.circuit.empty();
  if (live) {
    follow(view.live, input.machine, input.state);
    draw_legend(ui, area.take_bottom(ui.theme.line_px(kit::Type::caption), ui.px(4.0F)));
  }
  const bool clamp = b.work().tool == Instrument::clamp_meter;
  const bool probes =
      b.work().tool == Instrument::multimeter || b.work().tool == Instrument::insulation_tester;
  const DiagramViewInput sheet{.network = input.machine.plant.circuit,
                               .sheet = input.sheets[static_cast<std::size_t>(view.sheet)],
                               .work = &input.state.work,
                               .live = live ? &view.live : nullptr,
                               .marked = input.marked,
                               .terminals = probes,
                               .wires = clamp || (b.work().tool == Instrument::none && view.wires_off),
                               .zoom = view.zoom,
                               .id = input.id};
  pressed(b, draw_diagram(ui, sheet, area));
  draw_meter_face(ui, b.work(), input.id + ".meter",
                  foot.take_left(std::min(ui.em(220.0F), foot.w * 0.34F), ui.px(12.0F)));
  kit::ScrollScope scroll(ui, input.id + ".tools", foot);
  draw_tools(b);
  draw_context(b);
  return b.out;
}

}  // namespace stirbench::desk::views
