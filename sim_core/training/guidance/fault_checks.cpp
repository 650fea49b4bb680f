#include "sim_core/training/guidance/fault_checks.h"

#include <algorithm>
#include <charconv>

#include "sim_core/hands/handles.h"
#include "sim_core/plant/instruments.h"

namespace stirbench::training {

namespace {

using faults::AccessState;
using machine::FaultWork;
using machine::Instrument;

constexpr const char* at_the_wiring = "train.wiring";

std::vector<std::string> parted(std::string_view text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t colon = std::min(text.find(':', at), text.size());
    out.emplace_back(text.substr(at, colon - at));
    at = colon + 1;
  }
  return out;
}

bool runs(Spell spell) {
  return spell == Spell::stirring || spell == Spell::warming || spell == Spell::chilling;
}

electrics::MeterFunction function_of(std::string_view word) {
  const auto words = machine::meter_functions();
  const auto found = std::find(words.begin(), words.end(), word);
  return static_cast<electrics::MeterFunction>(found - words.begin());
}

std::string tool_name(Instrument tool) {
  switch (tool) {
    case Instrument::multimeter: return "multimeter";
    case Instrument::clamp_meter: return "clamp meter";
    case Instrument::insulation_tester: return "insulation tester";
    case Instrument::gauge_set: return "gauge set";
    case Instrument::contact_thermometer: return "contact thermometer";
    default: return "instrument";
  }
}

std::vector<std::int32_t> wires_at(const electrics::Network& network, const std::string& terminal) {
  std::vector<std::int32_t> out;
  const auto at = static_cast<std::size_t>(network.terminal(terminal));
  for (const auto& wire : network.wires) {
    const int index = network.wire(wire.number);
    const auto& join = network.joins[static_cast<std::size_t>(index)];
    if (join.from == at || join.to == at) out.push_back(index);
  }
  return out;
}

bool is_off(const FaultWork& work, std::int32_t wire) {
  return std::find(work.wires_off.begin(), work.wires_off.end(), wire + 1) != work.wires_off.end();
}

void take_off(const electrics::Network& network, const std::string& terminal, FaultWork& as) {
  for (const std::int32_t wire : wires_at(network, terminal)) {
    const auto free = std::find(as.wires_off.begin(), as.wires_off.end(), 0);
    if (!is_off(as, wire) && free != as.wires_off.end()) *free = wire + 1;
  }
}

// The reading as Grounds tells it from others; none for what no meter reads.
std::optional<FaultWork> reading_of(const machine::Machine& machine, const FaultWork& now,
                                    const std::string& source) {
  const electrics::Network& network = machine.plant.circuit;
  const std::vector<std::string> word = parted(source);
  FaultWork as;
  as.function = now.function;
  if (word.size() == 2 && word[0] == "clamp") {
    int number = -1;
    std::from_chars(word[1].data(), word[1].data() + word[1].size(), number);
    as.tool = Instrument::clamp_meter;
    as.round = network.wire(number);
    return as;
  }
  const bool insulation = word.size() == 3 && word[0] == "insulation";
  if (word.size() != 4 && !insulation) return std::nullopt;
  as.tool = insulation ? Instrument::insulation_tester : Instrument::multimeter;
  if (!insulation) as.function = function_of(word[1]);
  as.red = network.terminal(word[word.size() - 2]);
  as.black = network.terminal(word[word.size() - 1]);
  if (word[0] == "unplugged") {
    take_off(network, word[2], as);
    take_off(network, word[3], as);
  }
  return as;
}

}  // namespace

bool FaultChecks::can_tell(Spell wanted) const {
  if (!runs(wanted)) return wanted == Spell::rest;
  if (access_.found_isolated() && !state().lockout.yours.on) return false;
  return grounds_.spell() == wanted || grounds_.key_tells(state()) || !state().plant.fittings.isolator_on ||
         access_.site_breaker().has_value();
}

bool FaultChecks::possible(std::size_t question) const {
  const GroundsQuestion& how = grounds_.guide().questions()[question];
  if (how.taking == Taking::told || !can_tell(how.spell)) return false;
  if (how.taking == Taking::sample) return how.spell == Spell::rest;
  if (how.taking == Taking::display) return how.spell != Spell::rest;
  const AccessState needs = grounds_.guide().model().check(question).needs;
  // What shows while it runs is not looked at on an isolated machine.
  const bool isolated = needs == AccessState::isolated || needs == AccessState::open_isolated;
  if (how.taking == Taking::check && isolated && runs(how.spell)) return false;
  if (how.taking != Taking::meter) return true;
  return needs != AccessState::open_live || !access_.found_isolated() || state().lockout.yours.on;
}

NextHand FaultChecks::make(std::size_t question) const {
  const GroundsQuestion& how = grounds_.guide().questions()[question];
  const diagnosis::Check& check = grounds_.guide().model().check(question);
  if (how.taking == Taking::meter) return by_meter(how, check);
  const AccessState needs = how.taking == Taking::check ? check.needs : AccessState::running;
  const bool gauges_stay = how.taking == Taking::gauges && state().work.gauges_on;
  if (!gauges_stay) {
    if (NextHand next = access_.at(needs)) return next;
  }
  const double ripe_s = how.taking == Taking::display ? std::min(how.ripe_s, how.until_s) : how.ripe_s;
  if (NextHand next = access_.told(how.spell, ripe_s)) return next;
  switch (how.taking) {
    case Taking::check:
      return do_hand(hands::make_check(check.id), check.title + ".", {}, "hand.fault.check");
    case Taking::sample: return by_sample();
    case Taking::gauges: return by_gauges();
    case Taking::thermometer: return by_thermometer(how);
    default: return {};
  }
}

NextHand FaultChecks::take(Instrument tool) const {
  if (state().work.tool == tool) return {};
  if (state().work.gauges_on) return access_.hands_empty();
  return do_hand(hands::take_tool(std::string(machine::instrument_word(tool))),
                 "Take the " + tool_name(tool) + " in hand.", {}, at_the_wiring);
}

NextHand FaultChecks::by_sample() const {
  if (!state().plant.fittings.lid_open)
    return do_hand(hands::open_lid(), "Open the lid.", {}, "hand.open_lid");
  return do_hand(hands::take_sample(), "Take a spoonful and measure it.", {}, "hand.thermometer");
}

NextHand FaultChecks::by_gauges() const {
  if (NextHand next = take(Instrument::gauge_set)) return next;
  if (!state().work.gauges_on)
    return do_hand(hands::connect_gauges(), "Connect the gauge set.", {}, at_the_wiring);
  return do_hand(hands::look_at_reading(), "Read the gauges.", {}, at_the_wiring);
}

NextHand FaultChecks::by_thermometer(const GroundsQuestion& how) const {
  for (const auto& source : how.reading.sources()) {
    std::string point;
    if (source.name.starts_with("contact:")) point = source.name.substr(8);
    if (source.name == "part:own_air_K") point = "condenser_air_on";
    if (point.empty()) continue;
    if (NextHand next = take(Instrument::contact_thermometer)) return next;
    return do_hand(hands::press_thermometer(point), "Press the contact thermometer on: " + point + ".", {},
                   at_the_wiring);
  }
  return {};
}

// The next of the wires that are to be off.
NextHand FaultChecks::unplugged(const FaultWork& as) const {
  for (const std::int32_t wire : as.wires_off) {
    if (wire == 0 || is_off(state().work, wire - 1)) continue;
    const auto& wires = moment_.machine.plant.circuit.wires;
    const std::string number = std::to_string(wires[static_cast<std::size_t>(wire - 1)].number);
    return do_hand(hands::take_wire_off(number), "Take wire " + number + " off.",
                   "What is behind it is measured alone.", at_the_wiring);
  }
  return {};
}

NextHand FaultChecks::read(const FaultWork& as, bool alone) const {
  const electrics::Network& network = moment_.machine.plant.circuit;
  const FaultWork& work = state().work;
  if (NextHand next = access_.wires_back(as.wires_off)) return next;
  if (NextHand next = alone ? unplugged(as) : NextHand()) return next;
  if (NextHand next = take(as.tool)) return next;
  // Probes that are placed elsewhere come off first: one moved alone would read a third thing.
  const bool elsewhere = (work.red >= 0 && work.red != as.red) || (work.black >= 0 && work.black != as.black);
  const bool done = work.red == as.red && work.black == as.black && work.function == as.function;
  if (elsewhere || done) return do_hand(hands::probes_off(), "Take the probes off.", {}, at_the_wiring);
  const auto name = [&](std::int32_t i) { return network.terminals[static_cast<std::size_t>(i)].name; };
  if (as.tool == Instrument::multimeter && work.function != as.function) {
    const std::string function(machine::meter_functions()[static_cast<std::size_t>(as.function)]);
    return do_hand(hands::set_meter(function), "Turn the meter to " + function + ".", {}, at_the_wiring);
  }
  if (work.red != as.red)
    return do_hand(hands::red_probe(name(as.red)), "Red probe on " + name(as.red) + ".", {}, at_the_wiring);
  return do_hand(hands::black_probe(name(as.black)), "Black probe on " + name(as.black) + ".", {},
                 at_the_wiring);
}

NextHand FaultChecks::read_wire(const FaultWork& as) const {
  if (NextHand next = access_.wires_back()) return next;
  if (NextHand next = take(as.tool)) return next;
  const auto& wires = moment_.machine.plant.circuit.wires;
  const std::string number = std::to_string(wires[static_cast<std::size_t>(as.round)].number);
  return do_hand(hands::clamp_round(number), "Clamp round wire " + number + ".", {}, at_the_wiring);
}

NextHand FaultChecks::by_meter(const GroundsQuestion& how, const diagnosis::Check& check) const {
  for (const auto& source : how.reading.sources()) {
    const std::optional<FaultWork> as = reading_of(moment_.machine, state().work, source.name);
    if (!as || grounds_.has_read(*as, how.spell)) continue;
    if (NextHand next = access_.at(check.needs)) return next;
    if (NextHand next =
            check.needs == AccessState::open_live ? access_.told(how.spell, how.ripe_s) : NextHand())
      return next;
    return as->tool == Instrument::clamp_meter ? read_wire(*as)
                                               : read(*as, source.name.starts_with("unplugged"));
  }
  return {};
}

}  // namespace stirbench::training
