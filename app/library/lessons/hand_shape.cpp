#include <algorithm>

#include "app/library/tables.h"
#include "sim_core/hands/hands.h"

// Hands that a lesson's guide advises: what an actions file's line says, without its time.
namespace stirbench::library {

namespace {

using hands::Action;
using hands::Parameter;

void read_number_of(Reader& reader, const Json& value, const Parameter& parameter, Action& out) {
  double read = 0.0;
  const std::size_t before = reader.count();
  number(parameter.low, parameter.high, std::string(parameter.unit)).read(reader, value, read);
  if (reader.count() == before) out.set(parameter, read);
}

// Words of the row's own list are checked here, names of a machine's content when the machine is known
// (names_of_hand).
void read_text_of(Reader& reader, const Json& value, const Parameter& parameter, Action& out) {
  std::string read;
  const std::size_t before = reader.count();
  if (parameter.catalogue == hands::Catalogue::words) {
    const hands::Words words = parameter.words();
    std::vector<std::string> known(words.begin(), words.end());
    one_of("one of the hand's words", [&known](const Names&) { return known; }).read(reader, value, read);
  } else {
    text(1, 80).read(reader, value, read);
  }
  if (reader.count() == before) out.set(parameter, read);
}

void read_parameter(Reader& reader, const Json& json, const Parameter& parameter, bool whole_hand,
                    Action& out) {
  const std::string key(parameter.name);
  reader.below("/" + key, [&] {
    if (!json.contains(key)) {
      if (whole_hand && parameter.required) reader.problem(std::string(parameter.meaning), "nothing");
      return;
    }
    switch (parameter.type) {
      case hands::Type::number: return read_number_of(reader, json[key], parameter, out);
      case hands::Type::text: return read_text_of(reader, json[key], parameter, out);
      case hands::Type::flag:
        bool read = false;
        flag().read(reader, json[key], read);
        out.set(parameter, read);
    }
  });
}

void read_hand(Reader& reader, const Json& json, bool whole_hand, Action& out) {
  if (!json.is_object()) return reader.problem("an object", found_text(json));
  std::vector<std::string> known;
  for (const hands::Hand* one : hands::all()) {
    if (!one->by_instructor) known.emplace_back(one->name);
  }
  std::string name;
  reader.below("/do", [&] {
    const Json& value = json.contains("do") ? json["do"] : Json();
    one_of("a known hand", [&known](const Names&) { return known; }).read(reader, value, name);
  });
  const hands::Hand* hand = hands::find(name);
  if (hand == nullptr) return;
  out = Action(*hand);
  for (const Parameter* parameter : hand->takes()) read_parameter(reader, json, *parameter, whole_hand, out);
  for (const auto& item : json.items()) {
    if (item.key() == "do" || hand->find(item.key()) != nullptr) continue;
    reader.below(pointer_step(item.key()),
                 [&] { reader.problem("only what this hand takes: " + parameter_names(*hand), item.key()); });
  }
}

Json hand_json_schema() {
  return {
      {"type", "object"}, {"properties", {{"do", {{"type", "string"}}}}}, {"required", Json::array({"do"})}};
}

}  // namespace

Shape<Action> hand_shape(bool whole_hand) {
  return {[whole_hand](Reader& reader, const Json& json, Action& out) {
            read_hand(reader, json, whole_hand, out);
          },
          hand_json_schema(), "a hand as in an actions file, without time"};
}

std::string unknown_name_in(const machine::Machine& machine, const Action& action) {
  if (action.hand() == nullptr) return {};
  for (const Parameter* parameter : action.hand()->takes()) {
    const auto* name = std::get_if<std::string>(&action.value(*parameter));
    if (name != nullptr && !hands::is_known(machine, *parameter, *name)) return *name;
  }
  return {};
}

}  // namespace stirbench::library
