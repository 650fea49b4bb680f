#include <algorithm>
#include <array>
#include <stdexcept>

#include "app/library/library.h"
#include "app/library/reading/json.h"
#include "app/library/reading/paths.h"
#include "app/library/reading/suggest.h"
#include "app/library/tables.h"
#include "sim_core/hands/hands.h"

// Actions files: JSON Lines. Every name, type and range comes from the hands' rows.
namespace stirbench::library {

namespace {

constexpr double longest_s = longest_action_s;

std::vector<std::string> hand_names() {
  std::vector<std::string> names;
  for (const hands::Hand* hand : hands::all()) names.emplace_back(hand->name);
  return names;
}

constexpr std::array<const char*, 4> line_keys{"at_s", "at_phase", "after_s", "do"};

// "only keys that pour takes (did you mean \"degC\"?)": with the nearest one when the key looks like one of
// them.
std::string expect_key(const hands::Hand& hand, const std::string& key) {
  std::vector<std::string> known(line_keys.begin(), line_keys.end());
  for (const hands::Parameter* one : hand.takes()) known.emplace_back(one->name);
  const std::string near = nearest(key, known);
  return "only keys that " + std::string(hand.name) + " takes" +
         (near.empty() ? "" : " (did you mean \"" + near + "\"?)");
}

// One line's reader: problems are located by line, and name the key where there is one.
class Line {
 public:
  Line(std::string file, int number, const machine::Machine& machine, std::vector<Problem>& problems)
      : file_(std::move(file)),
        place_("line " + std::to_string(number)),
        machine_(machine),
        problems_(problems) {}

  bool read(const Json& json, double& last_s, hands::TimedAction& out) {
    const std::size_t before = problems_.size();
    if (!json.is_object()) {
      problem("", "an object", found_text(json));
      return false;
    }
    const hands::Hand* hand = read_do(json);
    read_when(json, last_s, out);
    if (hand != nullptr) {
      out.action = hands::Action(*hand);
      for (const hands::Parameter* parameter : hand->takes()) read_parameter(json, *parameter, out.action);
      unknown_keys(json, *hand);
    }
    return problems_.size() == before;
  }

 private:
  void problem(const std::string& key, const std::string& expected, const std::string& found) {
    problems_.push_back({file_, place_, key.empty() ? expected : "\"" + key + "\" to be " + expected, found});
  }

  const hands::Hand* read_do(const Json& json) {
    const auto found = json.find("do");
    if (found == json.end()) {
      problem("do", "the name of an action", "nothing");
      return nullptr;
    }
    if (!found->is_string()) {
      problem("do", "the name of an action", found_text(*found));
      return nullptr;
    }
    const auto& name = found->get_ref<const std::string&>();
    const hands::Hand* hand = hands::find(name);
    if (hand == nullptr) problem("do", expect_name("a known action", name, hand_names()), found_text(*found));
    return hand;
  }

  bool read_number(const Json& json, const std::string& key, double low, double high, std::string_view unit,
                   double& out) {
    const Json& value = json[key];
    const bool good = value.is_number() && value.get<double>() >= low && value.get<double>() <= high;
    if (good)
      out = value.get<double>();
    else
      problem(key,
              "a number in " + number_text(low) + " .. " + number_text(high) +
                  (unit.empty() ? "" : " " + std::string(unit)),
              found_text(value));
    return good;
  }

  void read_when(const Json& json, double& last_s, hands::TimedAction& out) {
    const bool at_s = json.contains("at_s");
    const bool at_phase = json.contains("at_phase");
    if (at_s == at_phase) return problem("", "either \"at_s\" or \"at_phase\"", at_s ? "both" : "neither");
    if (at_s) {
      if (json.contains("after_s"))
        problem("after_s", "left out beside \"at_s\"", found_text(json["after_s"]));
      if (!read_number(json, "at_s", 0.0, longest_s, "s", out.at_s)) return;
      if (out.at_s < last_s)
        return problem("at_s", "at least " + number_text(last_s) + " s, the time of the line before",
                       number_text(out.at_s));
      last_s = out.at_s;
      return;
    }
    read_phase(json["at_phase"], out);
    if (json.contains("after_s")) read_number(json, "after_s", 0.0, longest_s, "s", out.after_s);
  }

  void read_phase(const Json& value, hands::TimedAction& out) {
    std::vector<std::string> known;
    for (const auto& recipe : machine_.recipes) {
      for (const auto& phase : recipe.phases) {
        if (std::find(known.begin(), known.end(), phase.id) == known.end()) known.push_back(phase.id);
      }
    }
    if (value.is_string() &&
        std::find(known.begin(), known.end(), value.get_ref<const std::string&>()) != known.end()) {
      out.at_phase = value.get<std::string>();
      return;
    }
    problem("at_phase",
            value.is_string() ? expect_name("a phase of a recipe", value.get<std::string>(), known)
                              : "the id of a phase",
            found_text(value));
  }

  void read_parameter(const Json& json, const hands::Parameter& parameter, hands::Action& action) {
    const std::string key(parameter.name);
    if (!json.contains(key)) {
      if (parameter.required) problem(key, "given: " + std::string(parameter.meaning), "nothing");
      return;
    }
    const Json& value = json[key];
    switch (parameter.type) {
      case hands::Type::number: {
        double number = 0.0;
        if (read_number(json, key, parameter.low, parameter.high, parameter.unit, number))
          action.set(parameter, number);
        return;
      }
      case hands::Type::text: return read_name(parameter, value, action);
      case hands::Type::flag:
        if (!value.is_boolean()) return problem(key, "true or false", found_text(value));
        return action.set(parameter, value.get<bool>());
    }
  }

  void read_name(const hands::Parameter& parameter, const Json& value, hands::Action& action) {
    const std::string key(parameter.name);
    if (!value.is_string()) return problem(key, "text", found_text(value));
    const auto& name = value.get_ref<const std::string&>();
    if (!is_known(machine_, parameter, name))
      return problem(key, expect_name("a known name", name, names_of(machine_, parameter)),
                     found_text(value));
    action.set(parameter, name);
  }

  void unknown_keys(const Json& json, const hands::Hand& hand) {
    for (const auto& item : json.items()) {
      const std::string& key = item.key();
      const bool of_line = std::find(line_keys.begin(), line_keys.end(), key) != line_keys.end();
      if (!of_line && hand.find(key) == nullptr)
        problem("", expect_key(hand, key), "one more: " + unknown_parameter(hand, key));
    }
  }

  std::string file_;
  std::string place_;
  const machine::Machine& machine_;
  std::vector<Problem>& problems_;
};

}  // namespace

ActionsResult parse_actions(const std::string& text, const std::string& file,
                            const machine::Machine& machine) {
  ActionsResult out;
  double last_s = 0.0;
  int number = 0;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string_view line(text.data() + begin, end - begin);
    begin = end + 1;
    ++number;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.find_first_not_of(" \t") == std::string_view::npos) continue;
    const std::optional<Json> json = parse_json(line, file, out.problems, number);
    if (!json) continue;
    hands::TimedAction action;
    if (Line(file, number, machine, out.problems).read(*json, last_s, action))
      out.actions.push_back(std::move(action));
  }
  if (!out.problems.empty()) out.actions.clear();
  return out;
}

ActionsResult read_actions(const std::string& file, const machine::Machine& machine) {
  try {
    return parse_actions(read_file(file), file, machine);
  } catch (const std::runtime_error& failure) {
    return {{}, {{file, "", "an actions file (JSON Lines)", failure.what()}}};
  }
}

std::string write_action(const hands::TimedAction& entry) {
  Json line = Json::object();
  if (entry.at_phase.empty())
    line["at_s"] = entry.at_s;
  else
    line["at_phase"] = entry.at_phase;
  if (entry.after_s > 0.0) line["after_s"] = entry.after_s;
  line["do"] = std::string(entry.action.hand()->name);
  for (const hands::Parameter* parameter : entry.action.hand()->takes()) {
    const std::string key(parameter->name);
    const hands::Action::Value& value = entry.action.value(*parameter);
    if (const auto* number = std::get_if<double>(&value)) line[key] = *number;
    if (const auto* text = std::get_if<std::string>(&value)) line[key] = *text;
    if (const auto* flag = std::get_if<bool>(&value)) line[key] = *flag;
  }
  return line.dump();
}

}  // namespace stirbench::library
