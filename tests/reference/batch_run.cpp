#include "tests/reference/batch_run.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/plant.h"
#include "tests/support/hm45_spec.h"
#include "tests/support/switched_loads.h"

namespace stirbench::tests {
namespace {

using namespace plant;
using control::Key;
using product::Component;

constexpr double scan_s = 0.1;

// A white base, everything dissolved: nothing in it but its age changes how it flows.
product::Ingredient base_mix() {
  product::Ingredient i;
  i.fraction[Component::water] = 0.65;
  i.fraction[Component::milk_fat] = 0.06;
  i.fraction[Component::milk_protein] = 0.04;
  i.fraction[Component::lactose] = 0.06;
  i.fraction[Component::sucrose] = 0.18;
  i.fraction[Component::milk_ash] = 0.01;
  return i;
}

product::Ingredient cream() {
  product::Ingredient i;
  i.fraction[Component::water] = 0.61;
  i.fraction[Component::milk_fat] = 0.33;
  i.fraction[Component::milk_protein] = 0.02;
  i.fraction[Component::lactose] = 0.035;
  i.fraction[Component::milk_ash] = 0.005;
  return i;
}

// As on the machine: heat tapers towards the target in cycles of ten seconds.
control::ControlSpec tapering() {
  control::ControlSpec spec;
  spec.heat_taper_K = 12.0;
  spec.heat_least_norm = 0.5;
  return spec;
}

// The controller and the person in front of it.
class Panel {
 public:
  explicit Panel(const RunPlan& plan)
      : plan_(plan), spec_(tapering()), state_(control::initial_state(spec_)) {}

  struct Hands {
    bool lid_open = false;
    bool pours = false;
  };
  // Before the scan of this tick.
  Hands hands(std::uint64_t tick) {
    input_ = {};
    if (plan_.forced) return {};
    const control::Phase* phase = control::current_phase(&plan_.recipes[0], state_);
    const bool asks = phase != nullptr && phase->kind == control::PhaseKind::add && !state_.confirmed;
    if (!asks) asked_at_ = tick;
    const std::uint64_t since = tick - asked_at_;
    if (tick == 0) input_.choose_recipe = 0;
    key(Key::run, tick, 20);
    Hands hands;
    if (!asks) return hands;
    hands.lid_open = since >= 200 && since < 600;
    hands.pours = since == 400;
    key(Key::stop, since, 650);
    key(Key::run, since, 700);
    input_.confirm = since == 750;
    return hands;
  }

  Actuators scan(std::uint64_t tick, double probe_degC, const Fittings& fittings) {
    SensorReadings readings;
    readings.probe_degC = probe_degC;
    readings.lid_closed = !fittings.lid_open;
    control::ScanNotices notices;
    const control::ScanContext context{spec_, plan_.recipes, scan_s, tick};
    const control::Outputs outputs = control::scan(context, state_, readings, input_, notices);
    const Actuators relays = tests::relays(outputs, readings, fittings);
    return plan_.forced ? *plan_.forced : relays;
  }

 private:
  // Down for three scans from `from` on.
  void key(Key which, std::uint64_t tick, std::uint64_t from) {
    if (tick >= from && tick < from + 3) input_.key[static_cast<std::size_t>(which)] = true;
  }

  const RunPlan& plan_;
  control::ControlSpec spec_;
  control::ControlState state_;
  control::PanelInputs input_;
  std::uint64_t asked_at_ = 0;
};

std::uint64_t ticks_of(const RunPlan& plan) {
  return static_cast<std::uint64_t>(std::lround(plan.seconds / scan_s));
}

bool same(const Change& a, const Change& b) {
  return a.relays.heat_norm == b.relays.heat_norm && a.relays.drive_on == b.relays.drive_on &&
         a.relays.chiller_on == b.relays.chiller_on && a.compressor_on == b.compressor_on &&
         a.lid_open == b.lid_open;
}

void hold(const MachineSpec& m, PlantState& s, const Actuators& relays, double span_s) {
  for (long n = std::lround(span_s / scan_s); n > 0; --n) step(m, s, relays, scan_s);
}

// Poured, stirred for a minute so that the pump is primed, and left to come to rest.
PlantState with(const MachineSpec& m, double kg, double t_degC) {
  PlantState s = initial_state(m, {});
  pour(m, s, base_mix(), kg, t_degC);
  hold(m, s, {0.0, true, false}, 60.0);
  hold(m, s, {0.0, false, false}, 30.0);
  return s;
}

}  // namespace

Samples run_by_step(const RunPlan& plan, int parts, const std::vector<Change>* given) {
  Samples out;
  Panel panel(plan);
  PlantState s = plan.start;
  const std::uint64_t ticks = ticks_of(plan);
  out.each_second.reserve(ticks / 10 + 1);
  Change last;
  std::size_t next = 0;
  for (std::uint64_t tick = 0; tick < ticks; ++tick) {
    if (tick % 10 == 0) out.each_second.push_back(variables_of(s));
    Panel::Hands hands = panel.hands(tick);
    if (given != nullptr) {
      while (next < given->size() && (*given)[next].tick <= tick) ++next;
      const Change& now = (*given)[next - 1];
      hands = {now.lid_open, now.pours && now.tick == tick};
    }
    s.fittings.lid_open = hands.lid_open;
    if (hands.pours) pour(plan.spec, s, plan.addition, plan.addition_kg, plan.addition_degC);
    Actuators relays = panel.scan(tick, s.probe_degC, s.fittings);
    if (given != nullptr) relays = (*given)[next - 1].relays;
    for (int i = 0; i < parts; ++i) step(plan.spec, s, relays, scan_s / parts);
    const Change now{tick, relays, s.compressor_on, hands.lid_open, hands.pours};
    if (tick == 0 || hands.pours || !same(now, last)) out.changes.push_back(now);
    last = now;
  }
  out.each_second.push_back(variables_of(s));
  return out;
}

Samples run_by_cvode(const RunPlan& plan, const std::vector<Change>& changes, double tolerance) {
  Samples out;
  Panel panel(plan);
  Cvode solver(tolerance);
  MachineOde ode{plan.spec, plan.start, {}};
  Variables y = variables_of(plan.start);
  auto next = changes.begin();
  const std::uint64_t ticks = ticks_of(plan);
  out.each_second.reserve(ticks / 10 + 1);
  for (std::uint64_t tick = 0; tick < ticks; ++tick) {
    const double t_s = scan_s * static_cast<double>(tick);
    if (tick > 0) y = solver.at(t_s);
    if (tick % 10 == 0) out.each_second.push_back(y);
    const bool due = next != changes.end() && next->tick == tick;
    panel.hands(tick);
    Fittings fittings = ode.base.fittings;
    if (due) fittings.lid_open = next->lid_open;
    const Actuators wanted = panel.scan(tick, y[probe], fittings);
    if (due) {
      PlantState s = ode.state_of(y);
      s.fittings = fittings;
      s.compressor_on = next->compressor_on;
      if (next->pours) pour(plan.spec, s, plan.addition, plan.addition_kg, plan.addition_degC);
      ode.base = s;
      ode.relays = next->relays;
      y = variables_of(s);
      solver.start(ode, t_s, y);
      ++next;
    }
    if (wanted.heat_norm != ode.relays.heat_norm || wanted.drive_on != ode.relays.drive_on ||
        wanted.chiller_on != ode.relays.chiller_on)
      ++out.scans_apart;
  }
  out.each_second.push_back(solver.at(scan_s * static_cast<double>(ticks)));
  out.evaluations = solver.evaluations();
  return out;
}

std::vector<RunPlan> reference_runs() {
  MachineSpec m = hm45_spec();
  m.pump.vane_life_h = 1.0e9;  // wear by the hour is no part of CVODE's equations
  RunPlan batch{"batch", m, with(m, 32.0, 8.0), 14400.0, {}, {}, cream(), 8.0, 5.0};
  control::Recipe recipe;
  recipe.id = "base";
  recipe.overshoot_K = 1.0;
  const auto phase = [&recipe](const char* id, control::PhaseKind kind, double target_degC) {
    recipe.phases.emplace_back();
    recipe.phases.back().id = id;
    recipe.phases.back().kind = kind;
    recipe.phases.back().target_degC = target_degC;
  };
  phase("warm", control::PhaseKind::heat, 40.0);
  phase("add", control::PhaseKind::add, 40.0);
  phase("cook", control::PhaseKind::heat, 86.0);
  phase("hold", control::PhaseKind::hold, 85.0);
  recipe.phases.back().duration_s = 30.0;
  phase("chill", control::PhaseKind::chill, 3.0);
  phase("keep", control::PhaseKind::keep, 3.0);
  batch.recipes = {recipe};

  RunPlan stopped{"stopped", m, with(m, 40.0, 40.0), 300.0, Actuators{1.0, false, false}, {}, {}, 0.0, 5.0};
  RunPlan chill{"chill", m, with(m, 40.0, 85.0), 3600.0, Actuators{0.0, true, true}, {}, {}, 0.0, 5.0};
  hold(m, chill.start, {0.0, true, false}, 60.0);
  return {batch, stopped, chill};
}

Difference difference(const Samples& a, const Samples& b) {
  Difference out;
  const std::size_t seconds = std::min(a.each_second.size(), b.each_second.size());
  for (std::size_t s = 0; s < seconds; ++s) {
    const Variables& x = a.each_second[s];
    const Variables& y = b.each_second[s];
    for (std::size_t i = element; i <= lid; ++i) {
      const double off = std::abs(x[i] - y[i]);
      if (off > out.worst_K) out = {off, i, s, out.mass_norm};
    }
    // Only water leaves; it is six tenths of the product.
    out.mass_norm = std::max(out.mass_norm, 0.65 * std::abs(x[water_kg] - y[water_kg]) / y[water_kg]);
  }
  return out;
}

}  // namespace stirbench::tests
