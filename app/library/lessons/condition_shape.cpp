#include <algorithm>

#include "app/library/tables.h"
#include "sim_core/hands/hand.h"
#include "sim_core/signals/signals.h"
#include "sim_core/training/batch_judge.h"
#include "sim_core/training/grounds.h"

// Conditions of lessons: one recursive shape. Names are checked wherever the set of names is known, since a
// mistyped one would be a condition that is never true.
namespace stirbench::library {

namespace {

using training::Condition;
using training::Op;

constexpr double any_number = 1e9;

const std::vector<std::pair<std::string, Op>>& comparisons() {
  static const std::vector<std::pair<std::string, Op>> words = {
      {"at_least", Op::at_least}, {"at_most", Op::at_most}, {"above", Op::above}, {"below", Op::below}};
  return words;
}

void read_condition(Reader& reader, const Json& json, Condition& out);

// Problems for keys that are not among `known`; returns whether all were.
bool only_keys(Reader& reader, const Json& json, const std::vector<std::string>& known) {
  bool good = true;
  for (const auto& item : json.items()) {
    const std::string& key = item.key();
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    reader.below(pointer_step(key),
                 [&] { reader.problem(expect_name("a known key", key, known), in_quotes(key)); });
    good = false;
  }
  return good;
}

void read_number(Reader& reader, const Json& json, const std::string& key, double& out) {
  reader.below("/" + key, [&] { number(-any_number, any_number, "").read(reader, json[key], out); });
}

void read_name(Reader& reader, const Json& json, const std::string& key, const std::string& what,
               const std::vector<std::string>& known, std::string& out) {
  reader.below("/" + key,
               [&] { one_of(what, [&known](const Names&) { return known; }).read(reader, json[key], out); });
}

std::vector<std::string> mode_names() {
  std::vector<std::string> names;
  for (int i = 0; i <= static_cast<int>(control::Mode::rinsing); ++i)
    names.emplace_back(control::mode_name(static_cast<control::Mode>(i)));
  return names;
}

// Texts that a text signal can have; empty: unknown here, any text is accepted. "" means "none" and is always
// accepted.
std::vector<std::string> texts_of(const Reader& reader, std::string_view signal) {
  if (signal == "mode") return mode_names();
  if (signal == "phase") return reader.names.phases;
  if (signal == "recipe") return reader.names.recipes;
  return {};
}

void read_is(Reader& reader, const Json& json, Condition& out) {
  const Json& is = json["is"];
  if (out.signal->kind == signals::SignalKind::flag) {
    out.op = Op::is_flag;
    return reader.below("/is", [&] { flag().read(reader, is, out.flag); });
  }
  if (out.signal->kind != signals::SignalKind::text)
    return reader.below("/is", [&] {
      reader.problem("at_least, at_most, above or below for a number signal", in_quotes("is"));
    });
  out.op = Op::is_text;
  const std::vector<std::string> known = texts_of(reader, out.signal->name);
  const bool no_text = is.is_string() && is.get_ref<const std::string&>().empty();
  if (known.empty() || no_text) return reader.below("/is", [&] { text(0, 60).read(reader, is, out.text); });
  read_name(reader, json, "is", "a " + std::string(out.signal->name) + " that exists", known, out.text);
}

void read_signal(Reader& reader, const Json& json, Condition& out) {
  if (!only_keys(reader, json, {"signal", "is", "at_least", "at_most", "above", "below"})) return;
  std::vector<std::string> known;
  for (const signals::Signal& one : signals::signals()) known.emplace_back(one.name);
  std::string name;
  read_name(reader, json, "signal", "a known signal", known, name);
  if (name.empty()) return;
  out.signal = signals::find_signal(name);
  if (json.size() != 2)
    return reader.problem("signal and one comparison", std::to_string(json.size()) + " keys");
  if (json.contains("is")) return read_is(reader, json, out);
  for (const auto& [key, op] : comparisons()) {
    if (!json.contains(key)) continue;
    if (out.signal->kind != signals::SignalKind::number)
      return reader.below("/" + key, [&, &word = key] {
        reader.problem("is, for a signal that is no number", in_quotes(word));
      });
    out.op = op;
    return read_number(reader, json, key, out.number);
  }
}

std::vector<std::string> event_topics(const Reader& reader, machine::EventKind kind) {
  using K = machine::EventKind;
  std::vector<std::string> names;
  switch (kind) {
    case K::acted:
    case K::refused:
    case K::instructor:
      for (const hands::Hand* hand : hands::all()) names.emplace_back(hand->name);
      break;
    case K::alarm_raised:
    case K::alarm_cleared:
    case K::alarm_state:
      for (std::size_t i = 0; i < control::alarm_count; ++i)
        names.emplace_back(control::alarm_key(static_cast<control::AlarmId>(i)));
      break;
    case K::phase_began:
    case K::recipe_finished:
    case K::hold_restarted: names = reader.names.phases; break;
    case K::mode_changed: names = mode_names(); break;
    case K::harm:
      for (std::size_t i = 0; i < machine::harm_count; ++i)
        names.emplace_back(machine::harm_key(static_cast<machine::HarmId>(i)));
      break;
    default: break;
  }
  return names;
}

// What the first text of a hand may name; empty: not known here, anything goes.
std::vector<std::string> subjects_of(const Reader& reader, const std::string& action) {
  const hands::Hand* hand = hands::find(action);
  if (hand == nullptr) return {};
  for (const hands::Parameter* parameter : hand->takes()) {
    if (parameter->type != hands::Type::text) continue;
    switch (parameter->catalogue) {
      case hands::Catalogue::words: {
        const hands::Words words = parameter->words();
        return {words.begin(), words.end()};
      }
      case hands::Catalogue::ingredient: return reader.names.ingredients;
      case hands::Catalogue::recipe: return reader.names.recipes;
      case hands::Catalogue::body_part: return reader.names.parts;
      default: return {};
    }
  }
  return {};
}

void read_event(Reader& reader, const Json& json, Condition& out) {
  if (!only_keys(reader, json, {"event", "name", "of", "at_least"})) return;
  out.op = Op::event;
  constexpr auto count = static_cast<std::size_t>(machine::EventKind::count);
  std::vector<std::string> kinds;
  kinds.reserve(count);
  for (std::size_t i = 0; i < count; ++i)
    kinds.emplace_back(machine::event_name(static_cast<machine::EventKind>(i)));
  std::string kind;
  read_name(reader, json, "event", "a known event", kinds, kind);
  if (kind.empty()) return;
  out.event = static_cast<machine::EventKind>(std::find(kinds.begin(), kinds.end(), kind) - kinds.begin());
  if (json.contains("name")) {
    const std::vector<std::string> topics = event_topics(reader, out.event);
    if (topics.empty())
      reader.below("/name",
                   [&] { reader.problem("no name for the event " + kind, found_text(json["name"])); });
    else
      read_name(reader, json, "name", "a known name for the event " + kind, topics, out.text);
  }
  if (json.contains("of")) {
    const std::vector<std::string> subjects = subjects_of(reader, out.text);
    if (subjects.empty())
      reader.below("/of", [&] {
        reader.problem("of only beside an action that takes one of a list of names", found_text(json["of"]));
      });
    else
      read_name(reader, json, "of", "something that can be used with " + out.text, subjects, out.of);
  }
  if (json.contains("at_least")) read_number(reader, json, "at_least", out.event_at_least);
}

void read_row_met(Reader& reader, const Json& json, Condition& out) {
  if (!only_keys(reader, json, {"row_met"})) return;
  out.op = Op::row_met;
  read_name(reader, json, "row_met", "the id of a heat-treatment row", reader.names.rows, out.text);
}

void read_cooling(Reader& reader, const Json& json, Condition& out) {
  if (!only_keys(reader, json, {"cooling", "is"})) return;
  out.op = Op::cooling_is;
  read_name(reader, json, "cooling", "the id of a cooling rule", reader.names.cooling, out.text);
  if (!json.contains("is")) return reader.problem("cooling and is", "nothing for is");
  std::vector<std::string> words;
  for (int i = 0; i <= static_cast<int>(product::CoolingState::does_not_apply); ++i)
    words.emplace_back(training::cooling_word(static_cast<product::CoolingState>(i)));
  read_name(reader, json, "is", "a state of a cooling rule", words, out.of);
}

void read_grounds(Reader& reader, const Json& json, Condition& out) {
  if (!only_keys(reader, json, {"grounds", "at_least", "at_most", "above", "below"})) return;
  out.op = Op::grounds;
  read_name(reader, json, "grounds", "a count of the person's grounds", training::Grounds::count_words(),
            out.text);
  if (json.size() != 2)
    return reader.problem("grounds and one comparison", std::to_string(json.size()) + " keys");
  for (const auto& [key, op] : comparisons()) {
    if (!json.contains(key)) continue;
    out.compare = op;
    read_number(reader, json, key, out.number);
  }
}

void read_parts(Reader& reader, const Json& json, const std::string& key, Condition& out) {
  out.op = key == "all" ? Op::all : Op::any;
  if (!only_keys(reader, json, {key})) return;
  reader.below("/" + key, [&] {
    const Json& parts = json[key];
    if (!parts.is_array() || parts.empty() || parts.size() > 40)
      return reader.problem("a list of 1 to 40 conditions", found_text(parts));
    for (std::size_t i = 0; i < parts.size(); ++i)
      reader.below("/" + std::to_string(i),
                   [&] { read_condition(reader, parts[i], out.parts.emplace_back()); });
  });
}

void read_condition(Reader& reader, const Json& json, Condition& out) {
  if (!json.is_object()) return reader.problem("a condition (an object)", found_text(json));
  if (json.contains("signal")) return read_signal(reader, json, out);
  if (json.contains("event")) return read_event(reader, json, out);
  if (json.contains("row_met")) return read_row_met(reader, json, out);
  if (json.contains("cooling")) return read_cooling(reader, json, out);
  if (json.contains("grounds")) return read_grounds(reader, json, out);
  if (json.contains("all")) return read_parts(reader, json, "all", out);
  if (json.contains("any")) return read_parts(reader, json, "any", out);
  if (json.contains("not")) {
    out.op = Op::negate;
    if (only_keys(reader, json, {"not"}))
      reader.below("/not", [&] { read_condition(reader, json["not"], out.parts.emplace_back()); });
    return;
  }
  reader.problem("one of the keys signal, event, row_met, cooling, grounds, all, any, not",
                 json.empty() ? "none" : in_quotes(json.begin().key()));
}

Json object_schema(const Json& properties, const Json& required) {
  return Json{{"type", "object"},
              {"properties", properties},
              {"required", required},
              {"additionalProperties", false}};
}

}  // namespace

Shape<Condition> condition_shape() {
  return {read_condition, Json{{"$ref", "#/definitions/condition"}}, "a condition"};
}

Json condition_definition() {
  const Json self{{"$ref", "#/definitions/condition"}};
  const Json bound{{"type", "number"}, {"minimum", -any_number}, {"maximum", any_number}};
  const Json name{{"type", "string"}};
  const Json parts{{"type", "array"}, {"items", self}, {"minItems", 1}, {"maxItems", 40}};
  Json forms = Json::array();
  for (const auto& [key, op] : comparisons())
    forms.push_back(object_schema(Json{{"signal", name}, {key, bound}}, Json::array({"signal", key})));
  forms.push_back(
      object_schema(Json{{"signal", name}, {"is", Json{{"type", Json::array({"boolean", "string"})}}}},
                    Json::array({"signal", "is"})));
  forms.push_back(object_schema(Json{{"event", name}, {"name", name}, {"of", name}, {"at_least", bound}},
                                Json::array({"event"})));
  forms.push_back(object_schema(Json{{"row_met", name}}, Json::array({"row_met"})));
  forms.push_back(object_schema(Json{{"cooling", name}, {"is", name}}, Json::array({"cooling", "is"})));
  for (const auto& [key, op] : comparisons())
    forms.push_back(object_schema(Json{{"grounds", name}, {key, bound}}, Json::array({"grounds", key})));
  forms.push_back(object_schema(Json{{"all", parts}}, Json::array({"all"})));
  forms.push_back(object_schema(Json{{"any", parts}}, Json::array({"any"})));
  forms.push_back(object_schema(Json{{"not", self}}, Json::array({"not"})));
  return Json{{"description", "What is true or not at one moment."}, {"oneOf", forms}};
}

}  // namespace stirbench::library
