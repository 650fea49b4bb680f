#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "app/library/reading/json.h"
#include "app/library/reading/suggest.h"

// Shapes: what a JSON value must look like, how it fills a C++ value, and its JSON Schema. A struct's fields
// are listed once, in its table (`Object<T>`); the strict reader, the schema files under content/schema and
// the documentation of a key come from it.
namespace stirbench::library {

// Names that content may refer to, gathered while it loads.
struct Names {
  std::vector<std::string> ingredients;
  std::vector<std::string> recipes;
  std::vector<std::string> phases;  // of all recipes
  std::vector<std::string> machines;
  std::vector<std::string> cautions;
  std::vector<std::string> rows;     // heat-treatment rows
  std::vector<std::string> cooling;  // cooling rules
  std::vector<std::string> skills;
  std::vector<std::string> parts;   // of all machines' bodies
  std::vector<std::string> faults;  // of content; those of the safety parts are known to sim_core
};

// The reader's position in the file, and where problems go.
class Reader {
 public:
  Reader(std::string file, std::vector<Problem>& problems, const Names& known)
      : names(known), file_(std::move(file)), problems_(problems) {}

  // Adds a problem at the present path (plus `below`, a pointer such as "/0/kg").
  void problem(const std::string& expected, const std::string& found, const std::string& below = "") {
    problems_.push_back({file_, path_ + below, expected, found});
  }
  std::size_t count() const { return problems_.size(); }

  // Reads `value` one step deeper.
  template <class Do>
  void below(const std::string& step, Do&& work) {
    const std::size_t length = path_.size();
    path_ += step;
    work();
    path_.resize(length);
  }

  const Names& names;

 private:
  std::string file_;
  std::string path_;
  std::vector<Problem>& problems_;
};

template <class V>
struct Shape {
  std::function<void(Reader&, const Json&, V&)> read;
  Json schema;
  std::string expected;  // "a number in 0 .. 1 kg"
};

// Numbers must be finite and lie in low..high, both included. `unit` is for people; messages and schema show
// it.
Shape<double> number(double low, double high, const std::string& unit);
Shape<int> whole(int low, int high);
Shape<bool> flag();
// Text of `least`..`most` characters (code points) without control characters; `lines`: line feeds allowed.
Shape<std::string> text(std::size_t least, std::size_t most, bool lines = false);
// Lower-case letters, digits and '-', 2..40: ids of recipes, machines, lessons, phases, steps, criteria.
Shape<std::string> slug();
// Lower-case letters, digits and '_', 2..40: ids of ingredients and keys of cautions.
Shape<std::string> word();
// One of the names that `known` selects from the reader's Names; the schema only requires text.
Shape<std::string> one_of(const std::string& what,
                          std::function<std::vector<std::string>(const Names&)> known);

bool is_slug(std::string_view text);
bool is_word(std::string_view text);

// One of a fixed set of words.
template <class E>
Shape<E> choice(std::vector<std::pair<std::string, E>> words) {
  std::vector<std::string> known;
  known.reserve(words.size());
  for (const auto& [word_text, value] : words) known.push_back(word_text);
  Shape<E> shape;
  shape.schema = Json{{"type", "string"}, {"enum", known}};
  for (const std::string& one : known) shape.expected += (shape.expected.empty() ? "one of " : ", ") + one;
  shape.read = [words, known, expected = shape.expected](Reader& reader, const Json& json, E& out) {
    if (json.is_string()) {
      for (const auto& [word_text, value] : words) {
        if (word_text == json.get_ref<const std::string&>()) {
          out = value;
          return;
        }
      }
      const std::string near = nearest(json.get_ref<const std::string&>(), known);
      reader.problem(expected + (near.empty() ? "" : " (did you mean \"" + near + "\"?)"), found_text(json));
      return;
    }
    reader.problem(expected, found_text(json));
  };
  return shape;
}

template <class V>
Shape<std::vector<V>> list(Shape<V> item, std::size_t least, std::size_t most, bool unique = false) {
  Shape<std::vector<V>> shape;
  shape.schema = Json{{"type", "array"}, {"items", item.schema}, {"minItems", least}, {"maxItems", most}};
  if (unique) shape.schema["uniqueItems"] = true;
  shape.expected = "a list of " + std::to_string(least) + " to " + std::to_string(most) + " entries";
  shape.read = [item, least, most, unique, expected = shape.expected](Reader& reader, const Json& json,
                                                                      std::vector<V>& out) {
    if (!json.is_array()) return reader.problem(expected, found_text(json));
    if (json.size() < least || json.size() > most) {
      reader.problem(expected, std::to_string(json.size()));
      if (json.size() > most) return;
    }
    for (std::size_t i = 0; i < json.size(); ++i) {
      reader.below("/" + std::to_string(i), [&] {
        V value{};
        item.read(reader, json[i], value);
        for (std::size_t j = 0; unique && j < i; ++j) {
          if (json[j] == json[i]) return reader.problem("each entry once", found_text(json[i]) + " again");
        }
        out.push_back(std::move(value));
      });
    }
  };
  return shape;
}

// The fields of a struct. Reading reports unknown keys (with the nearest known one), missing ones and
// whatever the fields say; then `check`, when the object itself had no problem.
template <class T>
class Object {
 public:
  struct Field {
    std::string key;
    std::string doc;
    std::string expected;
    bool required = true;
    Json schema;
    std::function<void(Reader&, const Json&, T&)> read;
  };

  template <class V>
  Object& need(const std::string& key, V T::*member, const Shape<V>& shape, const std::string& doc) {
    return add(key, member, shape, doc, true);
  }
  template <class V>
  Object& may(const std::string& key, V T::*member, const Shape<V>& shape, const std::string& doc) {
    return add(key, member, shape, doc, false);
  }
  Object& field(Field one) {
    fields_.push_back(std::move(one));
    return *this;
  }
  // Every file carries the version of its layout.
  Object& format(int version) {
    return field({"format", "Version of this file's layout.", std::to_string(version), true,
                  Json{{"const", version}}, [version](Reader& reader, const Json& json, T&) {
                    if (!json.is_number_integer() || json != version)
                      reader.problem(std::to_string(version), found_text(json));
                  }});
  }
  Object& check(std::function<void(Reader&, const T&)> judge) {
    check_ = std::move(judge);
    return *this;
  }
  const std::vector<Field>& fields() const { return fields_; }

  void read(Reader& reader, const Json& json, T& out) const {
    if (!json.is_object()) return reader.problem("an object", found_text(json));
    const std::size_t before = reader.count();
    for (const auto& [key, value] : json.items()) {
      if (!has(key)) unknown(reader, key);
    }
    for (const Field& one : fields_) {
      const auto found = json.find(one.key);
      reader.below(pointer_step(one.key), [&] {
        if (found != json.end())
          one.read(reader, *found, out);
        else if (one.required)
          reader.problem(one.expected, "nothing");
      });
    }
    if (check_ && reader.count() == before) check_(reader, out);
  }

  Json schema() const {
    Json properties = Json::object();
    Json required = Json::array();
    for (const Field& one : fields_) {
      Json described = one.schema;
      // Beside "$ref" draft-07 ignores everything, so the description goes around it.
      if (described.contains("$ref")) described = Json{{"allOf", Json::array({one.schema})}};
      described["description"] = one.doc;
      properties[one.key] = described;
      if (one.required) required.push_back(one.key);
    }
    Json out{{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
    if (!required.empty()) out["required"] = required;
    return out;
  }

  Shape<T> shape() const {
    return {[self = *this](Reader& reader, const Json& json, T& out) { self.read(reader, json, out); },
            schema(), "an object"};
  }

 private:
  template <class V>
  Object& add(const std::string& key, V T::*member, const Shape<V>& shape, const std::string& doc,
              bool required) {
    return field({key, doc, shape.expected, required, shape.schema,
                  [member, read = shape.read](Reader& reader, const Json& json, T& out) {
                    read(reader, json, out.*member);
                  }});
  }
  bool has(const std::string& key) const {
    for (const Field& one : fields_) {
      if (one.key == key) return true;
    }
    return false;
  }
  void unknown(Reader& reader, const std::string& key) const {
    std::vector<std::string> known;
    for (const Field& one : fields_) known.push_back(one.key);
    reader.below(pointer_step(key),
                 [&] { reader.problem(expect_name("a known key", key, known), in_quotes(key)); });
  }

  std::vector<Field> fields_;
  std::function<void(Reader&, const T&)> check_;
};

}  // namespace stirbench::library
