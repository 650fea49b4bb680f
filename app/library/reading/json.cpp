#include "app/library/reading/json.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "sim_core/bytes/hash64.h"

namespace stirbench::library {

namespace {

constexpr std::size_t deepest = 64;

// Builds the value and notes keys that stand twice. nlohmann's own handler keeps the last of two equal keys
// in silence.
class Builder final : public nlohmann::json_sax<Json> {
 public:
  Builder(std::string_view text, std::string file, std::vector<Problem>& problems, int line)
      : text_(text), file_(std::move(file)), problems_(problems), line_(line) {}

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool string(string_t& value) override { return put(std::move(value)); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    Level& level = levels_.back();
    level.key = name;
    if (level.value->contains(name))
      problems_.push_back({file_, located(path()), "each key once", in_quotes(name) + " again"});
    return true;
  }

  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::detail::exception& error) override {
    // `position` counts what was read, the offending byte included; one more than there is when the text
    // ended too early.
    const std::string what = error.what();
    if (position > text_.size() || text_.empty()) {
      problems_.push_back({file_, place(text_.size()), expected(what),
                           line_ > 0 ? "the end of the line" : "the end of the file"});
    } else {
      const std::size_t at = start_of(position - 1, token);
      problems_.push_back({file_, place(at), expected(what), found(at, position)});
    }
    return false;
  }

  Json take() { return std::move(root_); }

 private:
  struct Level {
    Json* value;
    std::string key;
  };

  std::string path() const {
    std::string out;
    for (const Level& level : levels_)
      out += level.value->is_object() ? pointer_step(level.key) : "/" + std::to_string(level.value->size());
    return out;
  }

  std::string located(const std::string& path) const {
    return line_ > 0 ? "line " + std::to_string(line_) + path : path;
  }

  // The containers above an open one do not grow until it is closed, so the pointers kept in levels_ stay
  // valid.
  Json* add(Json value) {
    if (levels_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Level& level = levels_.back();
    if (level.value->is_object()) {
      Json& place = (*level.value)[level.key];
      place = std::move(value);
      return &place;
    }
    level.value->push_back(std::move(value));
    return &level.value->back();
  }

  bool put(Json value) {
    add(std::move(value));
    return true;
  }

  bool open(Json value) {
    if (levels_.size() >= deepest) {
      problems_.push_back({file_, located(path()), "at most 64 levels of lists and objects", "more"});
      return false;
    }
    levels_.push_back({add(std::move(value)), {}});
    return true;
  }

  bool close() {
    levels_.pop_back();
    return true;
  }

  std::string place(std::size_t at) const {
    const auto begin = text_.begin();
    const auto here = begin + static_cast<std::ptrdiff_t>(at);
    const auto row = 1 + std::count(begin, here, '\n');
    const std::size_t row_start = text_.substr(0, at).rfind('\n') + 1;  // npos + 1 is 0
    return "line " + std::to_string(line_ > 0 ? line_ : row) + ", column " +
           std::to_string(at - row_start + 1);
  }

  static bool is_word(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' ||
           c == '+' || c == '-' || c == '_';
  }

  // Where the piece begins whose last byte that was read is `last`: a whole string, a word or number, else
  // that byte.
  std::size_t start_of(std::size_t last, const std::string& token) const {
    if (text_[last] == '"' && token.size() >= 2 && token.front() == '"' && token.size() <= last + 1)
      return last + 1 - token.size();
    std::size_t at = last;
    while (at > 0 && is_word(text_[last]) && is_word(text_[at - 1])) --at;
    return at;
  }

  std::string found(std::size_t at, std::size_t end) const {
    constexpr std::size_t most = 24;
    const auto first = static_cast<unsigned char>(text_[at]);
    if (first < 0x20U || first >= 0x7FU) {
      std::string byte = "the byte 0x";
      bytes::append_hex8(byte, first);
      return byte;
    }
    while (is_word(text_[at]) && end < text_.size() && is_word(text_[end])) ++end;
    std::string out(text_.substr(at, std::min(end - at, most)));
    for (char& c : out) c = c >= ' ' && c < 127 ? c : '?';
    return "'" + out + (end - at > most ? "..." : "") + "'";
  }

  static std::string expected(const std::string& what) {
    if (what.find("number overflow") != std::string::npos) return "a number that a double can hold";
    if (what.find("UTF-8") != std::string::npos) return "UTF-8 text";
    if (what.find("control character") != std::string::npos) return "text without raw control characters";
    if (what.find("missing closing quote") != std::string::npos) return "a closing quote";
    if (what.find("parsing object key") != std::string::npos) return "a key in quotes";
    if (what.find("invalid literal") != std::string::npos || what.find("invalid number") != std::string::npos)
      return "a value";
    const std::size_t tail = what.find("; expected ");
    if (tail == std::string::npos) return "valid JSON";
    std::string wanted = what.substr(tail + 11);
    if (wanted.find("literal") != std::string::npos) return "a value";
    if (wanted == "'}'") return "',' or '}'";
    if (wanted == "']'") return "',' or ']'";
    return wanted == "end of input" ? "nothing more" : wanted;
  }

  std::string_view text_;
  std::string file_;
  std::vector<Problem>& problems_;
  int line_;
  Json root_;
  std::vector<Level> levels_;
};

bool is_leaf(const Json& value) { return !value.is_structured() || value.empty(); }

bool only_leaves(const Json& value) {
  for (const Json& part : value) {
    if (!is_leaf(part)) return false;
  }
  return true;
}

std::string one_piece(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string one_line(const Json& value) {
  std::string out = value.is_object() ? "{" : "[";
  bool first = true;
  for (const auto& [key, part] : value.items()) {
    if (!first) out += ", ";
    first = false;
    if (value.is_object()) out += one_piece(Json(key)) + ": ";
    out += one_piece(part);
  }
  return out + (value.is_object() ? "}" : "]");
}

void write(const Json& value, std::size_t indent, std::size_t used, std::string& out) {
  constexpr std::size_t widest = 110;
  if (is_leaf(value)) {
    out += one_piece(value);
    return;
  }
  if (only_leaves(value)) {
    const std::string line = one_line(value);
    if (indent > 0 && used + line.size() <= widest) {
      out += line;
      return;
    }
  }
  const std::string margin(indent + 2, ' ');
  out += value.is_object() ? "{\n" : "[\n";
  bool first = true;
  for (const auto& [key, part] : value.items()) {
    if (!first) out += ",\n";
    first = false;
    const std::string name = value.is_object() ? one_piece(Json(key)) + ": " : "";
    out += margin + name;
    write(part, indent + 2, margin.size() + name.size() + 1, out);
  }
  out += "\n" + std::string(indent, ' ') + (value.is_object() ? "}" : "]");
}

}  // namespace

std::optional<Json> parse_json(std::string_view text, const std::string& file, std::vector<Problem>& problems,
                               int line) {
  Builder builder(text, file, problems, line);
  if (!Json::sax_parse(text.begin(), text.end(), &builder)) return std::nullopt;
  return builder.take();
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t most = 60;
  std::string shown(text.substr(0, most));
  if (text.size() > most) {
    while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xC0U) == 0x80U) shown.pop_back();
    if (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0x80U) != 0U) shown.pop_back();
    shown += "...";
  }
  return one_piece(Json(shown));
}

bool is_utf8(std::string_view text) {
  try {
    static_cast<void>(Json(std::string(text)).dump());
    return true;
  } catch (const Json::type_error&) {
    return false;
  }
}

std::string found_text(const Json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list";
  if (value.is_string()) return in_quotes(value.get_ref<const std::string&>());
  if (value.is_number()) return number_text(value.get<double>());
  return value.dump();
}

std::string number_text(double value) {
  if (!std::isfinite(value)) return "not a finite number";
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value);
  return {buffer, end.ptr};
}

std::string pointer_step(std::string_view key) {
  std::string out = "/";
  for (const char c : key) {
    if (c == '~')
      out += "~0";
    else if (c == '/')
      out += "~1";
    else
      out += c;
  }
  return out;
}

std::string pretty(const Json& value) {
  std::string out;
  write(value, 0, 0, out);
  return out + "\n";
}

std::string row_by_row(const Json& object) {
  std::string out = "{";
  for (const auto& [key, value] : object.items()) {
    const bool rows = value.is_array() && !value.empty() && value.front().is_object();
    if (out.size() > 1) out += rows ? ",\n" : ", ";
    out += Json(key).dump() + ": ";
    if (!rows) {
      out += value.dump();
      continue;
    }
    for (std::size_t i = 0; i < value.size(); ++i) out += (i == 0 ? "[\n" : ",\n") + value[i].dump();
    out += "\n]";
  }
  return out + "}\n";
}

}  // namespace stirbench::library
