#include "app/cli/simulate.h"

#include <chrono>
#include <cmath>

#include "app/cli/alarms.h"
#include "app/cli/judge.h"
#include "app/cli/service.h"
#include "app/cli/trace.h"
#include "app/library/food/recipe_store.h"
#include "app/library/reading/paths.h"
#include "sim_core/bench/script.h"
#include "sim_core/bytes/hash64.h"
#include "sim_core/explore/safety_watch.h"
#include "sim_core/journal/session.h"
#include "sim_core/machine/uncertain.h"
#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/plant.h"
#include "sim_core/product/kinetics.h"

namespace stirbench::cli {

namespace {

constexpr double longest_s = 31.0 * 86400.0;

void check(const SimulateOptions& options) {
  if (!(options.until_s > 0.0) || options.until_s > longest_s) {
    throw Refusal("--until: expected more than 0 and at most 2678400 s (31 days), found " +
                  fixed(options.until_s, 3));
  }
  if (options.spread < 0 || options.spread > 1000)
    throw Refusal("--spread: expected 0 .. 1000 runs, found " + std::to_string(options.spread));
  if ((options.spread > 0) != !options.spread_file.empty())
    throw Refusal("--spread N and --spread-trace FILE go together");
  if (!(options.every_s >= machine::tick_s)) {
    throw Refusal("--every: expected at least 0.1 s, found " + fixed(options.every_s, 3));
  }
  if (!(options.ambient_degC >= -10.0 && options.ambient_degC <= 60.0)) {
    throw Refusal("--ambient: expected -10 .. 60 degC, found " + fixed(options.ambient_degC, 3));
  }
  const auto within = [](const char* option, const char* unit, double low, double high, double value) {
    if (value >= low && value <= high) return;
    throw Refusal(std::string(option) + ": expected " + fixed(low, 1) + " .. " + fixed(high, 1) + unit +
                  ", found " + fixed(value, 3));
  };
  within("--humidity", "", 0.0, 1.0, options.humidity_norm);
  within("--supply", "", 0.0, 1.2, options.supply_norm);
  within("--frequency", " Hz", 45.0, 65.0, options.frequency_Hz);
}

double seconds_of(std::uint64_t tick) { return static_cast<double>(tick) / machine::ticks_per_second; }

signals::AlarmLog log_of(const std::vector<machine::Event>& history) {
  signals::AlarmLog log;
  log.see(history);
  return log;
}

nlohmann::json breaches_json(const explore::SafetyWatch& watch) {
  nlohmann::json list = nlohmann::json::array();
  for (const explore::Breach& breach : watch.breaches()) {
    list.push_back({{"invariant", explore::invariant_id(breach.invariant)},
                    {"at_s", seconds_of(breach.tick)},
                    {"for_s", seconds_of(breach.ticks)},
                    {"words", explore::invariant_words(breach.invariant)}});
  }
  return list;
}

nlohmann::json harms_json(const machine::State& state) {
  nlohmann::json list = nlohmann::json::array();
  for (std::size_t i = 0; i < machine::harm_count; ++i) {
    const machine::Harm& harm = state.harms[i];
    if (!harm.happened) continue;
    const auto id = static_cast<machine::HarmId>(i);
    list.push_back({{"id", std::string(machine::harm_key(id))},
                    {"at_s", seconds_of(harm.tick)},
                    {"injury", machine::harm_is_injury(id)},
                    {"severity", harm.severity},
                    {"text", std::string(machine::harm_text(id))}});
  }
  return list;
}

nlohmann::json product_json(const machine::State& state) {
  const plant::PlantState& plant = state.plant;
  const product::Product& product = plant.product;
  return {{"mass_kg", product.total_kg()},
          {"volume_L", plant::fill_L(plant)},
          {"temperature_degC", plant::product_degC(plant)},
          {"well_degC", plant.well_degC},
          {"vat_degC", plant.vat_degC},
          {"log10_reduction", product::log10_reduction(product)},
          {"native_whey_norm", product.native_whey_norm},
          {"undissolved_kg", product::solids_not_dissolved_kg(product)},
          {"hydration_norm", product::hydration_norm(product)},
          {"age_norm", product.age_norm},
          {"scorched_kg", product.scorched_kg},
          {"egg_curd_norm", product.egg_curd_norm},
          {"viscosity_Pa_s", plant.coefficients.viscosity_Pa_s},
          {"pail_kg", plant.pail.total_kg()},
          {"floor_kg", plant.floor_kg},
          {"tray_kg", plant.seal.tray_kg},
          {"floor_water_kg", plant.floor_water_kg}};
}

nlohmann::json energy_json(const machine::Machine& machine, const machine::State& state) {
  const plant::Ledger& ledger = state.plant.ledger;
  return {{"heaters_J", ledger.heaters_J},
          {"drive_J", ledger.drive_J},
          {"chiller_J", ledger.chiller_J},
          {"surroundings_J", ledger.surroundings_J},
          {"evaporation_J", ledger.evaporation_J},
          {"material_J", ledger.material_J},
          {"stored_J", plant::stored_J(machine.plant, state.plant) - ledger.start_J},
          {"residual_J", plant::residual_J(machine.plant, state.plant)}};
}

nlohmann::json wear_json(const plant::PlantState& plant) {
  return {{"agitator_bushing_mm", plant.agitator_bushing.play_mm},
          {"shaft_end_bushing_mm", plant.shaft_end_bushing.play_mm},
          {"pump_vanes_norm", plant.vanes.wear_norm},
          {"shaft_seal_norm", plant.seal.wear_norm},
          {"dry_run_s", plant.dry_run_s},
          {"deposit_kg_per_m2", plant.deposit_kg_per_m2},
          {"protein_film_kg_per_m2", plant.protein_film_kg_per_m2},
          {"mineral_film_kg_per_m2", plant.mineral_film_kg_per_m2}};
}

nlohmann::json freezer_json(const plant::FreezerState& f) {
  return {{"mode", plant::freezer_mode_name(plant::freezer_mode(f))},
          {"charge_kg", f.product.total_kg()},
          {"charge_L", plant::mix_L(f)},
          {"temperature_degC", f.degC},
          {"ice_pct", 100.0 * plant::frozen_water_norm(f)},
          {"overrun_pct", 100.0 * plant::overrun_norm(f)},
          {"torque_Nm", f.torque_Nm},
          {"texture_um", plant::texture_um(f)},
          {"since_start_s", f.freezing_s},
          {"tripped", f.tripped},
          {"arrived_kg", f.ledger.arrived_kg},
          {"drawn_kg", f.ledger.drawn_kg},
          {"spilled_kg", f.ledger.spilled_kg},
          {"tub_kg", f.tub.total_kg()},
          {"tub_degC", f.tub_degC},
          {"energy",
           {{"arrived_J", f.ledger.arrived_J},
            {"left_J", f.ledger.left_J},
            {"dasher_J", f.ledger.dasher_J},
            {"refrigerant_J", f.ledger.refrigerant_J},
            {"room_J", f.ledger.room_J},
            {"residual_J", plant::freezer_residual_J(f)}}},
          {"mass_residual_kg", plant::freezer_mass_residual_kg(f)}};
}

// With a recipe and no actions file the recipe is run as a prompt operator would run it.
std::vector<hands::TimedAction> actions_for(const library::Library& library, const machine::Machine& machine,
                                            const SimulateOptions& options) {
  if (!options.actions.empty()) return actions_or_refuse(options.actions, machine);
  if (options.recipe.empty()) return {};
  // Run as written it has to fit; an actions file may do what it likes, spilling included.
  const library::RecipeReport report = library::check_recipe(
      library, machine.plant.id, library.recipes.at(options.recipe), "--recipe " + options.recipe);
  if (!report.problems.empty()) throw Refusal(join_problems(report.problems));
  say("No actions file: the recipe is run as a prompt operator would.");
  return library::prompt_operator(library, machine.plant.id, library.recipes.at(options.recipe));
}

void print_summary(const machine::Machine& machine, const machine::State& state, double elapsed_s,
                   const std::vector<machine::Event>& history) {
  const double simulated_s = machine::time_s(state);
  print("machine          " + machine.plant.title);
  print("hold             " + std::string(control::hold_control_name(machine.control.hold_control)));
  print("simulated        " + clock_text(simulated_s) + " in " + fixed(elapsed_s, 3) + " s (" +
        fixed(simulated_s / std::max(elapsed_s, 1e-9), 0) + " x real time)");
  print("product          " + fixed(state.plant.product.total_kg(), 2) + " kg at " +
        fixed(plant::product_degC(state.plant), 1) + " degC");
  // Nobody can count a thousandfold of a thousandfold: beyond this the figure says no more than "enough".
  const double reduction = product::log10_reduction(state.plant.product);
  print("lethality        " + (reduction > 100.0 ? std::string("more than 100") : fixed(reduction, 1)) +
        " log10 (heat-treated; not pasteurised unless the machine is approved for it where it stands)");
  print_alarms(log_of(history), state.tick);
  for (const auto& harm : harms_json(state)) {
    print("harm             at " + clock_text(harm["at_s"].get<double>()) + ": " +
          harm["text"].get<std::string>());
  }
  print_service(machine, state);
  print("energy residual  " + fixed(plant::residual_J(machine.plant, state.plant), 1) + " J");
  print("state hash       " + bytes::hex64(machine::state_hash(state)));
}

}  // namespace

nlohmann::json state_json(const machine::Machine& machine, const machine::State& state,
                          const std::vector<machine::Event>& history) {
  const signals::AlarmLog log = log_of(history);
  return {{"machine", machine.plant.id},
          {"hold_control", std::string(control::hold_control_name(machine.control.hold_control))},
          {"simulated_s", machine::time_s(state)},
          {"state_hash", bytes::hex64(machine::state_hash(state))},
          {"mode", std::string(control::mode_name(state.control.mode))},
          {"product", product_json(state)},
          {"energy", energy_json(machine, state)},
          {"mass_residual_kg", plant::mass_residual_kg(state.plant)},
          {"alarms", alarms_json(log)},
          {"alarm_journal", alarm_journal_json(log)},
          {"alarm_load", alarm_load_json(log.load(state.tick))},
          {"injured", state.injured},
          {"harms", harms_json(state)},
          {"wear", wear_json(state.plant)},
          {"service", service_json(machine, state)},
          {"freezer", freezer_json(state.plant.freezer)}};
}

namespace {

journal::SessionHeader header_for(const machine::Machine& machine, const SimulateOptions& options) {
  journal::SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "free";
  header.program = STIRBENCH_VERSION;
  header.start.environment = {options.ambient_degC, options.humidity_norm, options.supply_norm,
                              options.frequency_Hz};
  header.start.seed = options.seed;
  header.start.recipe = options.recipe;
  for (const std::string& fault : options.faults)
    header.start.faults.push_back(fault_or_refuse(machine, fault));
  return header;
}

void print_breaches(const explore::SafetyWatch& watch) {
  for (const explore::Breach& breach : watch.breaches()) {
    print("breach           at " + clock_text(seconds_of(breach.tick)) +
          ": not so: " + std::string(explore::invariant_words(breach.invariant)));
  }
}

}  // namespace

namespace {

// The same plan on so many machines with drawn constants (machine/uncertain.h), and what they leave open.
std::string spread_of(const machine::Machine& machine, const journal::SessionHeader& header,
                      const std::vector<hands::TimedAction>& actions, const SimulateOptions& options) {
  Spread spread(machine, options.every_s);
  const auto ticks = static_cast<std::uint64_t>(std::llround(options.until_s / machine::tick_s));
  for (int i = 1; i <= options.spread; ++i) {
    const machine::Machine one = machine::drawn(machine, static_cast<std::uint64_t>(i));
    journal::Session session(one, header, {});
    bench::ActionScript script(actions);
    spread.begin_run();
    spread.add(session.state());
    bench::drive(
        session, script, [&] { return session.state().tick >= ticks || session.state().injured; },
        [&](const machine::State& state, const std::vector<machine::Event>&) { spread.add(state); });
  }
  return spread.text();
}

}  // namespace

int simulate(const CommonOptions& common, const SimulateOptions& options) {
  check(options);
  const library::Library library = load_library(common);
  const machine::Machine machine = machine_or_refuse(library, options.machine);
  if (!options.recipe.empty() && library.recipes.count(options.recipe) == 0) {
    throw Refusal("--recipe: expected one of " + known_ids(library.recipes) + ", found \"" + options.recipe +
                  "\"");
  }
  const std::vector<hands::TimedAction> actions = actions_for(library, machine, options);
  bench::ActionScript script(actions);

  const journal::SessionHeader header = header_for(machine, options);
  std::string journal;
  journal::Session::Write write;
  if (!options.journal.empty()) write = [&journal](std::string_view record) { journal += record; };
  journal::Session session(machine, header, write);

  training::BatchJudge judge(machine);
  judge.see(session.state());
  explore::SafetyWatch watch(machine);
  Trace trace(machine, options.every_s);
  const auto ticks = static_cast<std::uint64_t>(std::llround(options.until_s / machine::tick_s));
  const auto began = std::chrono::steady_clock::now();
  if (!options.trace.empty()) trace.add(session.state());
  // An injury stops the run.
  const auto over = [&] { return session.state().tick >= ticks || session.state().injured; };
  bench::drive(session, script, over,
               [&](const machine::State& state, const std::vector<machine::Event>& events) {
                 watch.see(state, events);
                 judge.see(state);
                 if (!options.trace.empty()) trace.add(state);
               });
  const double elapsed_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  session.end();
  if (!header.start.faults.empty()) watch.check_recovery(session.state());
  if (session.state().injured) {
    say("The run stopped at " + clock_text(machine::time_s(session.state())) + ": " +
        std::string(machine::harm_title(session.state().injury)) + ".");
  } else if (!script.finished())
    say("Not every action was due before --until; the rest was left out.");

  if (options.spread > 0) write_or_refuse(options.spread_file, spread_of(machine, header, actions, options));
  if (!options.trace.empty()) write_or_refuse(options.trace, trace.text());
  if (!options.journal.empty()) write_or_refuse(options.journal, journal);
  if (common.json) {
    nlohmann::json out = state_json(machine, session.state(), session.history());
    out.update(judge_json(judge, session.state()));
    out["breaches"] = breaches_json(watch);
    out["elapsed_s"] = elapsed_s;
    out["speedup"] = machine::time_s(session.state()) / std::max(elapsed_s, 1e-9);
    print_json(out);
  } else {
    print_summary(machine, session.state(), elapsed_s, session.history());
    print_breaches(watch);
    print_judge(judge, session.state());
  }
  return exit_done;
}

}  // namespace stirbench::cli
