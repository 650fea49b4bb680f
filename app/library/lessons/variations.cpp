#include "app/library/lessons/variations.h"

#include <algorithm>
#include <cmath>

#include "sim_core/machine/random.h"

namespace stirbench::library {

namespace {

constexpr std::size_t most_steps = 100000;

// Bounds on a grid are decimal figures: what a double adds beyond the sixth decimal goes.
double tidy(double value) { return std::round(value * 1.0e6) / 1.0e6; }

std::size_t steps_of(const Variation& one) {
  return static_cast<std::size_t>(std::lround((one.to - one.from) / one.step));
}

double on_grid(const Variation& one, std::size_t k) {
  return tidy(one.from + static_cast<double>(k) * one.step);
}

bool possible(const Variation& one, const Json& value) {
  if (!one.one_of.empty()) return std::find(one.one_of.begin(), one.one_of.end(), value) != one.one_of.end();
  if (!value.is_number()) return false;
  const double x = value.get<double>();
  const double k = (x - one.from) / one.step;
  return x >= one.from && x <= one.to && std::abs(k - std::round(k)) < 1.0e-6;
}

bool is_plain(const Json& value) { return value.is_number() || value.is_string() || value.is_boolean(); }

// A value that can be drawn: plain, or an object; the entries of one may be anything, a whole condition or
// hand too.
Shape<Json> drawable() {
  Shape<Json> shape;
  shape.schema = Json::object();
  shape.expected = "a number, a text, true, false or an object";
  shape.read = [expected = shape.expected](Reader& reader, const Json& json, Json& out) {
    if (!is_plain(json) && !json.is_object()) return reader.problem(expected, found_text(json));
    out = json;
  };
  return shape;
}

void check_variation(Reader& reader, const Variation& one) {
  if (one.one_of.empty()) {
    if (!(one.to > one.from) || !(one.step > 0.0))
      return reader.problem("from < to and a step above 0, or one_of", "bounds without room");
    if (steps_of(one) > most_steps) return reader.problem("a coarser step", number_text(one.step), "/step");
  }
  if (!possible(one, one.usual))
    reader.problem("one of the possible values", found_text(one.usual), "/usual");
}

Object<Variation> variation_table() {
  using S = Variation;
  const Shape<double> any = number(-1.0e6, 1.0e6, "");
  Object<S> t;
  t.need("name", &S::name, word(), "What texts and values call it.")
      .may("from", &S::from, any, "Least value.")
      .may("to", &S::to, any, "Greatest value.")
      .may("step", &S::step, number(1.0e-6, 1.0e6, ""), "Grid between the two.")
      .may("one_of", &S::one_of, list(drawable(), 2, 40, true), "Or the possible values, all alike likely.")
      .need("usual", &S::usual, drawable(), "The value of the shipped runs.")
      .may("says", &S::says, text(1, 200), "What the look back tells of it.")
      .check(check_variation);
  return t;
}

std::string plain_text(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  return value.is_number() ? number_text(tidy(value.get<double>())) : std::string();
}

// The value that NAME or NAME.ENTRY names, whole objects too; null when there is none.
const Json* value_of(const std::map<std::string, Json>& values, const std::string& name,
                     const std::string& entry) {
  const auto found = values.find(name);
  if (found == values.end()) return nullptr;
  if (entry.empty()) return &found->second;
  if (!found->second.is_object()) return nullptr;
  const auto inner = found->second.find(entry);
  return inner == found->second.end() ? nullptr : &*inner;
}

bool is_reference(const Json& json) {
  const auto found = json.is_object() ? json.find("drawn") : json.end();
  return json.is_object() && found != json.end() && found->is_string();
}

void put_in_reference(Reader& reader, const std::map<std::string, Json>& values, Json& json) {
  double times = 1.0, plus = 0.0;
  std::string entry;
  for (const auto& [key, value] : json.items()) {
    if (key == "drawn") continue;
    if (key == "of" && value.is_string()) {
      entry = value.get<std::string>();
    } else if ((key == "times" || key == "plus") && value.is_number()) {
      (key == "times" ? times : plus) = value.get<double>();
    } else {
      return reader.problem("drawn, of, times or plus", found_text(Json(key)));
    }
  }
  const std::string name = json["drawn"].get<std::string>();
  const Json* value = value_of(values, name, entry);
  if (value == nullptr)
    return reader.problem("a name of varies (and an entry of it)",
                          in_quotes(name + (entry.empty() ? "" : "." + entry)));
  const bool counts = times != 1.0 || plus != 0.0;
  if (counts && !value->is_number())
    return reader.problem("a drawn number to count with", found_text(*value));
  json = counts ? Json(tidy(value->get<double>() * times + plus)) : *value;
}

}  // namespace

Shape<std::vector<Variation>> variations_shape() { return list(variation_table().shape(), 1, 40); }

std::map<std::string, Json> draw(const std::vector<Variation>& variations, std::uint64_t seed) {
  machine::Random random{seed ^ 0x766172696573ULL};
  std::map<std::string, Json> out;
  for (const Variation& one : variations) {
    const std::size_t count = one.one_of.empty() ? steps_of(one) + 1 : one.one_of.size();
    const auto k =
        std::min(count - 1, static_cast<std::size_t>(random.uniform() * static_cast<double>(count)));
    out[one.name] = one.one_of.empty() ? Json(on_grid(one, k)) : one.one_of[k];
  }
  return out;
}

std::map<std::string, Json> usual_values(const std::vector<Variation>& variations) {
  std::map<std::string, Json> out;
  for (const Variation& one : variations) out[one.name] = one.usual;
  return out;
}

std::vector<std::map<std::string, Json>> extreme_values(const std::vector<Variation>& variations) {
  std::vector<std::map<std::string, Json>> out = {usual_values(variations), usual_values(variations),
                                                  usual_values(variations)};
  for (const Variation& one : variations) {
    if (one.one_of.empty()) {
      out[1][one.name] = one.from;
      out[2][one.name] = on_grid(one, steps_of(one));
      continue;
    }
    for (const Json& value : one.one_of) {
      out.push_back(usual_values(variations));
      out.back()[one.name] = value;
    }
  }
  return out;
}

std::string put_in_text(const std::map<std::string, Json>& values, const std::string& text) {
  std::string out;
  std::size_t from = 0;
  while (true) {
    const std::size_t open = text.find('{', from);
    const std::size_t close = open == std::string::npos ? open : text.find('}', open);
    if (close == std::string::npos) return out + text.substr(from);
    const std::string whole = text.substr(open + 1, close - open - 1);
    const std::size_t dot = whole.find('.');
    const Json* value = value_of(values, whole.substr(0, dot),
                                 dot == std::string::npos ? std::string() : whole.substr(dot + 1));
    out += text.substr(from, open - from);
    // What is no draw's name is a placeholder of the score's words.
    out += value == nullptr || !is_plain(*value) ? text.substr(open, close + 1 - open) : plain_text(*value);
    from = close + 1;
  }
}

void put_in(Reader& reader, const std::map<std::string, Json>& values, Json& json) {
  if (is_reference(json)) {
    put_in_reference(reader, values, json);
  } else if (json.is_string()) {
    json = put_in_text(values, json.get<std::string>());
  } else if (json.is_object()) {
    for (auto it = json.begin(); it != json.end(); ++it)
      reader.below(pointer_step(it.key()), [&] { put_in(reader, values, it.value()); });
  } else if (json.is_array()) {
    for (std::size_t i = 0; i < json.size(); ++i)
      reader.below("/" + std::to_string(i), [&] { put_in(reader, values, json[i]); });
  }
}

}  // namespace stirbench::library
