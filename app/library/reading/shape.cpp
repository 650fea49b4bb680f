#include "app/library/reading/shape.h"

#include <cmath>

namespace stirbench::library {

namespace {

bool all_of_class(std::string_view text, char extra) {
  if (text.size() < 2 || text.size() > 40) return false;
  for (const char c : text) {
    if (!((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == extra)) return false;
  }
  return true;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1U : 0U;
  return count;
}

bool has_controls(std::string_view text, bool lines) {
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte < 0x20U || byte == 0x7FU) && !(lines && c == '\n')) return true;
  }
  return false;
}

Shape<std::string> pattern(const std::string& regex, const std::string& expected,
                           bool (*fits)(std::string_view)) {
  Shape<std::string> shape;
  shape.schema = Json{{"type", "string"}, {"pattern", regex}};
  shape.expected = expected;
  shape.read = [expected, fits](Reader& reader, const Json& json, std::string& out) {
    if (!json.is_string() || !fits(json.get_ref<const std::string&>()))
      return reader.problem(expected, found_text(json));
    out = json.get<std::string>();
  };
  return shape;
}

}  // namespace

bool is_slug(std::string_view text) { return all_of_class(text, '-'); }
bool is_word(std::string_view text) { return all_of_class(text, '_'); }

Shape<double> number(double low, double high, const std::string& unit) {
  Shape<double> shape;
  shape.schema = Json{{"type", "number"}, {"minimum", low}, {"maximum", high}};
  shape.expected =
      "a number in " + number_text(low) + " .. " + number_text(high) + (unit.empty() ? "" : " " + unit);
  shape.read = [low, high, expected = shape.expected](Reader& reader, const Json& json, double& out) {
    if (!json.is_number()) return reader.problem(expected, found_text(json));
    const double value = json.get<double>();
    // Written so that a NaN would fail too, although JSON cannot carry one.
    if (!(value >= low && value <= high)) return reader.problem(expected, found_text(json));
    out = value == 0.0 ? 0.0 : value;  // "-0" is 0
  };
  return shape;
}

Shape<int> whole(int low, int high) {
  Shape<int> shape;
  shape.schema = Json{{"type", "integer"}, {"minimum", low}, {"maximum", high}};
  shape.expected = "a whole number in " + std::to_string(low) + " .. " + std::to_string(high);
  shape.read = [low, high, expected = shape.expected](Reader& reader, const Json& json, int& out) {
    const double value = json.is_number_integer() ? json.get<double>() : std::nan("");
    if (!(value >= low && value <= high)) return reader.problem(expected, found_text(json));
    out = static_cast<int>(value);
  };
  return shape;
}

Shape<bool> flag() {
  return {[](Reader& reader, const Json& json, bool& out) {
            if (!json.is_boolean()) return reader.problem("true or false", found_text(json));
            out = json.get<bool>();
          },
          Json{{"type", "boolean"}}, "true or false"};
}

Shape<std::string> text(std::size_t least, std::size_t most, bool lines) {
  Shape<std::string> shape;
  shape.schema = Json{{"type", "string"}, {"minLength", least}, {"maxLength", most}};
  shape.expected = "text of " + std::to_string(least) + " to " + std::to_string(most) + " characters";
  shape.read = [least, most, lines, expected = shape.expected](Reader& reader, const Json& json,
                                                               std::string& out) {
    if (!json.is_string()) return reader.problem(expected, found_text(json));
    const auto& value = json.get_ref<const std::string&>();
    const std::size_t length = code_points(value);
    if (length < least || length > most)
      return reader.problem(expected, std::to_string(length) + " characters");
    if (has_controls(value, lines))
      return reader.problem("text without control characters", found_text(json));
    out = value;
  };
  return shape;
}

Shape<std::string> slug() {
  return pattern("^[a-z0-9-]{2,40}$", "an id of 2 to 40 characters a-z, 0-9, -", is_slug);
}

Shape<std::string> word() {
  return pattern("^[a-z0-9_]{2,40}$", "an id of 2 to 40 characters a-z, 0-9, _", is_word);
}

Shape<std::string> one_of(const std::string& what,
                          std::function<std::vector<std::string>(const Names&)> known) {
  Shape<std::string> shape;
  shape.schema = Json{{"type", "string"}};
  shape.expected = what;
  shape.read = [what, known = std::move(known)](Reader& reader, const Json& json, std::string& out) {
    if (!json.is_string()) return reader.problem(what, found_text(json));
    const auto& value = json.get_ref<const std::string&>();
    const std::vector<std::string> names = known(reader.names);
    for (const std::string& one : names) {
      if (one == value) {
        out = value;
        return;
      }
    }
    reader.problem(expect_name(what, value, names), found_text(json));
  };
  return shape;
}

}  // namespace stirbench::library
