#include "sim_core/hands/handles.h"
#include "sim_core/hands/mending.h"
#include "sim_core/hands/procedure.h"

// Locks, tags and stored energies.
namespace stirbench::hands {

namespace {

using machine::Lockout;
using machine::Padlock;
using machine::StoredEnergy;
using L = machine::LockoutStep;

constexpr std::array<std::string_view, 2> persons{"you", "colleague"};
constexpr std::array<std::string_view, 2> messages{"lockout", "restart"};

Words energy_words() {
  static const auto words = [] {
    std::array<std::string_view, machine::energy_count> out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = machine::energy_key(static_cast<StoredEnergy>(i));
    return out;
  }();
  return words;
}

constexpr Text about{"about", listed<messages>, "lockout: you are locking it out; restart: it comes back"};
constexpr Text person{"person", listed<persons>, "whose: you or colleague"};
constexpr Text which{"which", energy_words, "heat, hose, spring, capacitor or refrigerant"};

bool is_own(const Action& action) { return action.get(person) == "you"; }
Padlock& lock_of(Lockout& lockout, const Action& action) {
  return is_own(action) ? lockout.yours : lockout.colleagues;
}
const Padlock& lock_of(const Lockout& lockout, const Action& action) {
  return is_own(action) ? lockout.yours : lockout.colleagues;
}

// Of the isolator that was turned last.
bool isolator_is_off(const State& state) {
  return state.lockout.neighbour_last ? state.lockout.neighbour_isolated : !state.plant.fittings.isolator_on;
}

Outcome energies_read(Scene& scene, const Action&) {
  mark(scene.state, L::energies_read);
  return {};
}

Outcome people_told(Scene& scene, const Action& action) {
  mark(scene.state, action.get(about) == "lockout" ? L::people_told : L::people_told_back);
  return {};
}

std::string why_not_fit_lock(const Machine&, const State& state, const Action& action) {
  if (lock_of(state.lockout, action).on) return "That padlock is already on.";
  return isolator_is_off(state) ? "" : "A padlock goes on an isolator that is off. Turn it off first.";
}

Outcome lock_fitted(Scene& scene, const Action& action) {
  Lockout& lockout = scene.state.lockout;
  Padlock& lock = lock_of(lockout, action);
  const bool own = is_own(action);
  lock.on = true;
  lock.key_in = own;
  lock.borrowed = !own;
  lock.on_neighbour = lockout.neighbour_last;
  if (own && !lock.on_neighbour) mark(scene.state, L::locked);
  return own ? "" : "It is not your padlock, and you do not have its only key.";
}

std::string why_not_take_key(const Machine&, const State& state, const Action&) {
  if (!state.lockout.yours.on) return "Your padlock is not on.";
  return state.lockout.yours.key_in ? "" : "You have the key in your pocket already.";
}

Outcome key_taken(Scene& scene, const Action&) {
  scene.state.lockout.yours.key_in = false;
  mark(scene.state, L::key_taken);
  return {};
}

std::string why_not_fit_tag(const Machine&, const State& state, const Action& action) {
  if (lock_of(state.lockout, action).tag) return "That tag is already on.";
  return isolator_is_off(state) ? "" : "A tag goes on an isolator that is off. Turn it off first.";
}

Outcome tag_fitted(Scene& scene, const Action& action) {
  lock_of(scene.state.lockout, action).tag = true;
  if (is_own(action) && !scene.state.lockout.neighbour_last) mark(scene.state, L::tagged);
  return {};
}

std::string why_not_remove_tag(const Machine&, const State& state, const Action& action) {
  if (!lock_of(state.lockout, action).tag) return "That tag is not on.";
  const bool works = state.work.hand_over.stage == machine::HandOverStage::here;
  return works && !is_own(action) ? std::string(colleague_works) : "";
}

Outcome tag_removed(Scene& scene, const Action& action) {
  lock_of(scene.state.lockout, action).tag = false;
  if (is_own(action)) mark(scene.state, L::tag_off);
  return {};
}

std::string why_not_remove_lock(const Machine&, const State& state, const Action& action) {
  if (!lock_of(state.lockout, action).on) return "That padlock is not on.";
  const bool works = state.work.hand_over.stage == machine::HandOverStage::here;
  return works && !is_own(action) ? std::string(colleague_works) : "";
}

Outcome lock_removed(Scene& scene, const Action& action) {
  Padlock& lock = lock_of(scene.state.lockout, action);
  lock = {.tag = lock.tag};
  if (!is_own(action)) return "You cut off a padlock that is not yours.";
  if (!step_of(scene.state.lockout, L::inspected).done) {
    unmark(scene.state, L::locked);
    unmark(scene.state, L::key_taken);
  }
  mark(scene.state, L::lock_off);
  return {};
}

StoredEnergy energy_of(const Action& action) {
  return static_cast<StoredEnergy>(index_of(which, action.get(which)));
}

std::string why_not_release(const Machine& machine, const State& state, const Action& action) {
  const StoredEnergy energy = energy_of(action);
  if (energy == StoredEnergy::hose && state.plant.flows.agitator_rpm > 5.0)
    return "The pump still turns and would press on.";
  if (energy == StoredEnergy::hose && state.plant.fittings.draw_opening_norm > 0.0)
    return "Shut the draw valve first.";
  if (energy == StoredEnergy::capacitor && terminals_V(machine, state) > machine::touch_V) {
    return "It is fed: as long as there is supply, nothing can be let out.";
  }
  const bool waits = energy == StoredEnergy::heat || energy == StoredEnergy::capacitor;
  if (!waits || energy_left_norm(machine, state, energy) <= 0.0) return "";
  return "Still " + machine::energy_words(machine, state, energy) +
         (energy == StoredEnergy::heat ? ". Let it cool below 48 °C."
                                       : ". The label says: wait 60 s after isolating.");
}

Outcome energy_released(Scene& scene, const Action& action) {
  State& state = scene.state;
  const StoredEnergy energy = energy_of(action);
  switch (energy) {
    case StoredEnergy::heat: mark(state, L::heat_gone); break;
    case StoredEnergy::hose:
      state.plant.freezer.line_bar = 0.0;
      mark(state, L::hose_gone);
      break;
    case StoredEnergy::spring:
      state.lockout.spring_eased = true;
      mark(state, L::spring_eased);
      break;
    case StoredEnergy::capacitor: mark(state, L::capacitor_gone); break;
    case StoredEnergy::refrigerant: mark(state, L::refrigerant_left); break;
    case StoredEnergy::count: break;
  }
  return machine::energy_words(scene.machine, state, energy);
}

}  // namespace

constinit const HandOf<> read_energies{{
    .name = "read_energies",
    .meaning = "Read the sheet on the machine: which energies it holds and how each is held off.",
    .group = Group::safety,
    .effect = energies_read,
}};

constinit const HandOf<Text> tell_people{
    {
        .name = "tell_people",
        .meaning = "Tell the people who work with the machine.",
        .group = Group::safety,
        .effect = people_told,
    },
    about,
};

constinit const HandOf<Text> fit_lock{
    {
        .name = "fit_lock",
        .meaning = "Hang a padlock on the isolator that was turned last; its key stays in it.",
        .group = Group::safety,
        .why_not = why_not_fit_lock,
        .effect = lock_fitted,
        .minutes = 0.5,
    },
    person};

constinit const HandOf<> take_key{{
    .name = "take_key",
    .meaning = "Pull the key out of your padlock and pocket it.",
    .group = Group::safety,
    .why_not = why_not_take_key,
    .effect = key_taken,
}};

constinit const HandOf<Text> fit_tag{
    {
        .name = "fit_tag",
        .meaning = "Hang a tag with a name on it beside the padlock.",
        .group = Group::safety,
        .why_not = why_not_fit_tag,
        .effect = tag_fitted,
        .minutes = 0.5,
    },
    person,
};

constinit const HandOf<Text> remove_tag{
    {
        .name = "remove_tag",
        .meaning = "Take a tag off.",
        .group = Group::safety,
        .why_not = why_not_remove_tag,
        .effect = tag_removed,
    },
    person,
};

constinit const HandOf<Text> remove_lock{
    {
        .name = "remove_lock",
        .meaning = "Take a padlock off: your own with its key, another one with a cutter.",
        .group = Group::safety,
        .why_not = why_not_remove_lock,
        .effect = lock_removed,
    },
    person};

constinit const HandOf<Text> release_energy{
    {
        .name = "release_energy",
        .meaning = "Let one stored energy out, or see that it is gone.",
        .group = Group::safety,
        .why_not = why_not_release,
        .effect = energy_released,
    },
    which};

HandList lockout_hands() {
  static constexpr const Hand* list[] = {&read_energies, &tell_people, &fit_lock,    &take_key,
                                         &fit_tag,       &remove_tag,  &remove_lock, &release_energy};
  return list;
}

}  // namespace stirbench::hands
