#include <algorithm>

#include "app/library/lessons/variations.h"
#include "app/library/tables.h"
#include "sim_core/faults/safety.h"
#include "sim_core/hands/part_states.h"
#include "sim_core/training/monitors.h"
#include "sim_core/training/words.h"

// Lesson files. The lesson's page and its hash come from outside lesson.json.
namespace stirbench::library {

namespace {

using training::Criterion;
using training::Lesson;
using training::Monitor;
using training::MonitorKind;

Shape<std::string> ingredient() {
  return one_of("a known ingredient", [](const Names& names) { return names.ingredients; });
}

// What each kind of monitor needs beside "kind", and what else it may have.
struct MonitorKeys {
  MonitorKind kind;
  std::vector<std::string> needs;
  std::vector<std::string> may;
};
const std::vector<MonitorKeys>& monitor_keys() {
  using K = MonitorKind;
  static const std::vector<MonitorKeys> table = {
      {K::happens, {"what"}, {"within_s", "tolerance"}},
      {K::never, {"what"}, {"grace_s", "tolerance"}},
      {K::always, {"what"}, {"when", "grace_s", "tolerance"}},
      {K::held_for, {"what", "duration_s"}, {"grace_s", "tolerance"}},
      {K::ordered, {"steps"}, {"tolerance"}},
      {K::after, {"what", "when"}, {"within_s"}},
      {K::total, {"what", "low", "high"}, {"tolerance"}},
      {K::final_state, {"what"}, {"tolerance"}}};
  return table;
}

// A key that the kind does not use would be silently without effect: an error.
void judge_monitor_keys(Reader& reader, const Json& json, MonitorKind kind) {
  for (const MonitorKeys& keys : monitor_keys()) {
    if (keys.kind != kind) continue;
    for (const std::string& key : keys.needs) {
      if (!json.contains(key))
        reader.below("/" + key, [&] { reader.problem("given for this kind of monitor", "nothing"); });
    }
    std::vector<std::string> used = keys.needs;
    used.insert(used.end(), keys.may.begin(), keys.may.end());
    for (const auto& item : json.items()) {
      const std::string& key = item.key();
      if (key == "kind" || std::find(used.begin(), used.end(), key) != used.end()) continue;
      reader.below(pointer_step(key),
                   [&] { reader.problem("no such key for this kind of monitor", in_quotes(key)); });
    }
  }
}

Shape<Monitor> monitor() {
  using S = Monitor;
  Object<S> t;
  t.need("kind", &S::kind, choice<MonitorKind>(monitor_words()), "How the criterion is judged.")
      .may("what", &S::what, condition_shape(), "What is watched.")
      .may("when", &S::when, condition_shape(),
           "always: only while this is true. after: the moment that starts the clock.")
      .may("steps", &S::steps, list(condition_shape(), 1, 40), "ordered: become true one after another.")
      .may("duration_s", &S::duration_s, number(0.0, longest_lesson_s, "s"),
           "held_for: how long without a break.")
      .may("within_s", &S::within_s, number(0.0, longest_lesson_s, "s"),
           "happens: by then, 0 any time. after: time allowed.")
      .may("grace_s", &S::grace_s, number(0.0, 3600.0, "s"),
           "Shorter breaks do not count. A must-pass item that watches a reading has 0.5 s at the least, "
           "also when it is left out.")
      .may("low", &S::low, number(-1e6, 1e6, ""), "total: least sum.")
      .may("high", &S::high, number(-1e6, 1e6, ""), "total: greatest sum.")
      .may("tolerance", &S::tolerance, number(0.001, 1e6, ""),
           "Partial credit: a miss by this much earns nothing, a smaller one its share. In the unit of what "
           "is compared; s for held_for, steps for ordered.")
      .check([](Reader& reader, const S& m) {
        const bool by_reading = m.kind == MonitorKind::happens || m.kind == MonitorKind::never ||
                                m.kind == MonitorKind::always || m.kind == MonitorKind::final_state;
        if (m.tolerance > 0.0 && by_reading && training::first_number(m.what) == nullptr)
          reader.problem("a comparison of a number in \"what\", which it could be a part of",
                         number_text(m.tolerance), "/tolerance");
        if (m.kind == MonitorKind::total && m.high < m.low)
          reader.problem("at least low (" + number_text(m.low) + ")", number_text(m.high), "/high");
      });
  Shape<S> shape = t.shape();
  shape.read = [read = shape.read](Reader& reader, const Json& json, S& out) {
    const std::size_t before = reader.count();
    read(reader, json, out);
    if (reader.count() == before) judge_monitor_keys(reader, json, out.kind);
  };
  return shape;
}

// Whether a reading that may flicker decides a must-pass item: rows of moments with a number in them, and no
// event that would be over before any grace.
bool wants_grace(const Criterion& c) {
  const Monitor& m = c.monitor;
  if (!c.must_pass || (m.kind != MonitorKind::never && m.kind != MonitorKind::always)) return false;
  if (training::needs_event(m.what) || (m.kind == MonitorKind::always && training::needs_event(m.when)))
    return false;
  return training::first_number(m.what) != nullptr || training::first_number(m.when) != nullptr;
}

void judge_must_pass(Reader& reader, const Json& json, Criterion& out) {
  if (out.must_pass && out.monitor.tolerance > 0.0)
    reader.problem("no tolerance: a must-pass item has no almost", number_text(out.monitor.tolerance),
                   "/monitor/tolerance");
  if (!wants_grace(out)) return;
  if (!json["monitor"].contains("grace_s"))
    out.monitor.grace_s = training::must_pass_grace_s;
  else if (out.monitor.grace_s < training::must_pass_grace_s)
    reader.problem("at least " + number_text(training::must_pass_grace_s) +
                       " s for a must-pass item, so that nobody fails on a flicker",
                   number_text(out.monitor.grace_s), "/monitor/grace_s");
}

Shape<Criterion> criterion() {
  using S = Criterion;
  const Shape<training::Condition> chance = condition_shape();
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique in its lesson.")
      .need("title", &S::title, text(1, 100), "What is asked, in a few words.")
      .need("points", &S::points, number(0.0, 1000.0, ""), "Weight in the score.")
      .may("must_pass", &S::must_pass, flag(), "Without it the lesson is not passed, whatever the points.")
      .may("skill", &S::skill, one_of("a known skill", [](const Names& names) { return names.skills; }),
           "The one of the lesson's skills that this shows; certificates read skills from criteria.")
      .field({"chance", "When it is at stake: it earns nothing in a run in which this was never true.",
              chance.expected, false, chance.schema,
              [read = chance.read](Reader& reader, const Json& json, S& out) {
                read(reader, json, out.chance.emplace());
              }})
      .need("monitor", &S::monitor, monitor(), "How it is judged.")
      .need("met_text", &S::met_text, verdict_text(), "Why it was met, one sentence.")
      .need("missed_text", &S::missed_text, verdict_text(), "What went wrong and what it costs.");
  Shape<S> shape = t.shape();
  shape.read = [read = shape.read](Reader& reader, const Json& json, S& out) {
    const std::size_t before = reader.count();
    read(reader, json, out);
    if (reader.count() == before) judge_must_pass(reader, json, out);
  };
  return shape;
}

Shape<machine::StartSetup::Part> left_part() {
  using S = machine::StartSetup::Part;
  Object<S> t;
  t.need("part", &S::part, one_of("a part", [](const Names&) { return hands::left_parts(); }), "The place.")
      .need("state", &S::state,
            one_of("a state of a part", [](const Names&) { return hands::part_states(); }),
            "How it was left.");
  return t.shape();
}

Shape<machine::StartSetup::Drawn> drawn() {
  using S = machine::StartSetup::Drawn;
  Object<S> t;
  t.need("from", &S::from,
         list(one_of("a fault of content", [](const Names& names) { return names.faults; }), 1, 40, true),
         "The faults to draw from.")
      .may("count", &S::count, whole(1, 4), "How many at once.")
      .check([](Reader& reader, const S& one) {
        if (static_cast<std::size_t>(one.count) > one.from.size())
          reader.problem("at most as many as there are to draw from", std::to_string(one.count), "/count");
      });
  return t.shape();
}

Shape<machine::StartSetup::Load> load_shape() {
  using Load = machine::StartSetup::Load;
  Object<Load> load;
  load.need("ingredient", &Load::ingredient, ingredient(), "Id of the ingredient.")
      .need("kg", &Load::kg, number(0.001, 1000.0, "kg"), "How much.")
      .need("degC", &Load::degC, number(-2.0, 100.0, "degC"), "Its temperature.");
  return load.shape();
}

// Room and supply.
void add_environment(Object<machine::StartSetup>& t) {
  using S = machine::StartSetup;
  using Environment = plant::Environment;
  const auto around = [&t](const char* key, double Environment::*member, const Shape<double>& shape,
                           const char* doc) {
    t.field({key, doc, shape.expected, false, shape.schema,
             [member, read = shape.read](Reader& reader, const Json& json, S& out) {
               read(reader, json, out.environment.*member);
             }});
  };
  around("ambient_degC", &Environment::ambient_degC, number(-10.0, 60.0, "degC"), "The room.");
  around("humidity_norm", &Environment::humidity_norm, number(0.0, 1.0, ""),
         "Relative humidity of the room.");
  around("supply_norm", &Environment::supply_norm, number(0.0, 1.2, ""),
         "Supply voltage over the nominal one.");
  around("frequency_Hz", &Environment::frequency_Hz, number(45.0, 65.0, "Hz"), "Frequency of the supply.");
}

Shape<machine::StartSetup> start() {
  using S = machine::StartSetup;
  Object<S> t;
  add_environment(t);
  const auto situation = [&t]<class V>(const char* key, V machine::Scenario::*member, const Shape<V>& shape,
                                       const char* doc) {
    t.field({key, doc, shape.expected, false, shape.schema,
             [member, read = shape.read](Reader& reader, const Json& json, S& out) {
               read(reader, json, out.situation.*member);
             }});
  };
  situation("second_person_s", &machine::Scenario::second_person_s, number(0.0, 86400.0, "s"),
            "Somebody comes by and wants to switch on, so long after work on the machine began.");
  situation("colleague_work_s", &machine::Scenario::colleague_work_s, number(0.0, 86400.0, "s"),
            "A colleague locks on after you and works so long.");
  situation("isolator_pole_stuck", &machine::Scenario::isolator_pole_stuck, flag(),
            "One pole of the isolator stays closed.");
  situation("meter_broken", &machine::Scenario::meter_broken, flag(), "The meter shows 0 V everywhere.");
  situation("power_cut_at_s", &machine::Scenario::power_cut_at_s, number(0.0, longest_lesson_s, "s"),
            "The supply fails then.");
  situation("power_cut_for_s", &machine::Scenario::power_cut_for_s, number(0.0, 86400.0, "s"),
            "And comes back so long after.");
  using Fault = machine::StartSetup::Fault;
  Object<Fault> fault;
  fault
      .need("id", &Fault::id,
            one_of("a known fault",
                   [](const Names& names) {
                     std::vector<std::string> known = names.faults;
                     for (const auto& one : faults::safety_faults()) known.emplace_back(one.id);
                     return known;
                   }),
            "Id of the fault.")
      .may("severity", &Fault::severity, number(0.001, 1.0, ""), "How bad, where it is a matter of degree.");
  t.may("faults", &S::faults, list(fault.shape(), 0, 8), "What is broken or defeated from the start.")
      .may("drawn", &S::drawn, drawn(), "Faults drawn by the session's seed, so that nobody knows which.")
      .may("parts", &S::parts, list(left_part(), 0, 20), "Parts that somebody left in a bad state.");
  situation("trade", &machine::Scenario::trade, who_shape(),
            "What the person has learnt; licensed work is refused to others.");
  situation("plan_min", &machine::Scenario::plan_min, number(0.0, 100000.0, "min"),
            "Minutes of the fault guide's own way to this fault, its repair included; work_over_plan is "
            "measured by it.");
  const Shape<int> seed = whole(0, 2147483647);
  t.field({"seed", "Seed of the session's random stream.", seed.expected, false, seed.schema,
           [read = seed.read](Reader& reader, const Json& json, S& out) {
             int value = 1;
             read(reader, json, value);
             out.seed = static_cast<std::uint64_t>(value);
           }})
      .may("loaded", &S::loaded, list(load_shape(), 0, 40), "What is in the vat at the start.")
      .may("recipe", &S::recipe,
           one_of("a known recipe",
                  [](const Names& names) {
                    std::vector<std::string> known = names.recipes;
                    known.emplace_back();  // "" is none
                    return known;
                  }),
           "Chosen already; empty: none.");
  return t.shape();
}

template <class V>
void unique_ids(Reader& reader, const std::vector<V>& all, const std::string& key) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (all[i].id == all[j].id)
        reader.problem("an id that is not used yet", in_quotes(all[i].id),
                       "/" + key + "/" + std::to_string(i) + "/id");
    }
  }
}

void judge_losses(Reader& reader, const Lesson& lesson) {
  for (std::size_t i = 0; i < lesson.lost.size(); ++i) {
    const std::string& id = lesson.lost[i].unmet;
    const bool known = std::any_of(lesson.criteria.begin(), lesson.criteria.end(),
                                   [&id](const Criterion& one) { return one.id == id; });
    if (!id.empty() && !known)
      reader.problem("the id of a criterion", in_quotes(id), "/lost/" + std::to_string(i) + "/unmet");
  }
}

Object<Lesson> make_lesson_table() {
  using S = Lesson;
  Object<S> t;
  t.format(1)
      .need("id", &S::id, slug(), "The folder's name.")
      .need("title", &S::title, text(1, 80), "Name shown to people.")
      .need("minutes", &S::minutes, number(1.0, 600.0, "min"), "How long a person needs, about.")
      .need("skills", &S::skills,
            list(one_of("a known skill", [](const Names& names) { return names.skills; }), 0, 40, true),
            "Skills that the lesson trains (content/skills).")
      .need("machine", &S::machine,
            one_of("a known machine", [](const Names& names) { return names.machines; }),
            "Id of the machine.")
      .need("summary", &S::summary, text(1, 200), "One line for the list.")
      .need("cautions", &S::cautions,
            list(one_of("a known caution", [](const Names& names) { return names.cautions; }), 0, 40, true),
            "Keys of the caution texts shown before the start.")
      .need("start", &S::start, start(), "How the lesson begins.")
      .may("reported", &S::reported, list(slug(), 0, 10, true),
           "Symptoms of the machine's fault guide that the page tells of: what the person knows before they "
           "begin.")
      .need("at_hand", &S::at_hand, list(ingredient(), 0, 60, true), "Ingredients offered on the scale.")
      .need("steps", &S::steps, list(step_shape(), 1, 100), "Guided steps, in order.")
      .may("ways", &S::ways, list(way_shape(), 0, 60),
           "Means of this lesson alone, tried before the shared ones.")
      .may("lost", &S::lost, list(loss_shape(), 0, 20),
           "What cannot be mended, beside what the criteria decide.")
      .need("criteria", &S::criteria, list(criterion(), 1, 60), "What the score is made of.")
      .may("pass_norm", &S::pass_norm, number(0.0, 1.0, ""),
           "Share of the points to pass, besides must_pass.")
      .need("end", &S::end, condition_shape(), "The lesson ends by itself when this is true.")
      .need("limit_s", &S::limit_s, number(10.0, longest_lesson_s, "s"),
            "And at this simulated time at the latest.")
      // Read, drawn and put in before this table sees the file (load_lessons.cpp).
      .field({"varies", "What is drawn for each run.", "", false, variations_shape().schema,
              [](Reader&, const Json&, S&) {}})
      .check([](Reader& reader, const S& lesson) {
        unique_ids(reader, lesson.steps, "steps");
        unique_ids(reader, lesson.criteria, "criteria");
        unique_ids(reader, lesson.ways, "ways");
        judge_losses(reader, lesson);
        double points = 0.0;
        for (const Criterion& one : lesson.criteria) points += one.points;
        for (std::size_t i = 0; i < lesson.criteria.size(); ++i) {
          const std::string& skill = lesson.criteria[i].skill;
          const bool own =
              std::find(lesson.skills.begin(), lesson.skills.end(), skill) != lesson.skills.end();
          if (!skill.empty() && !own)
            reader.problem("one of the lesson's skills", in_quotes(skill),
                           "/criteria/" + std::to_string(i) + "/skill");
        }
        if (!(points > 0.0)) reader.problem("criteria with some points", number_text(points), "/criteria");
      });
  return t;
}

}  // namespace

// Text whose {placeholders} the scorer fills in.
Shape<std::string> verdict_text() {
  Shape<std::string> shape = text(1, 400);
  shape.read = [read = shape.read](Reader& reader, const Json& json, std::string& out) {
    read(reader, json, out);
    for (std::size_t open = out.find('{'); open != std::string::npos; open = out.find('{', open + 1)) {
      const std::size_t close = out.find('}', open);
      const std::string name = out.substr(open + 1, close == std::string::npos ? close : close - open - 1);
      if (close == std::string::npos || !training::known_placeholder(name))
        reader.problem("a known placeholder in braces", in_quotes(name));
    }
  };
  return shape;
}

const std::vector<std::pair<std::string, MonitorKind>>& monitor_words() {
  using K = MonitorKind;
  static const std::vector<std::pair<std::string, K>> words = {
      {"happens", K::happens}, {"never", K::never}, {"always", K::always}, {"held_for", K::held_for},
      {"ordered", K::ordered}, {"after", K::after}, {"total", K::total},   {"final_state", K::final_state}};
  return words;
}

const Object<Lesson>& lesson_table() {
  static const Object<Lesson> table = make_lesson_table();
  return table;
}

}  // namespace stirbench::library
