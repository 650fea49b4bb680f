#include "sim_core/journal/journal_text.h"

#include <algorithm>
#include <charconv>

#include "sim_core/bytes/hash64.h"
#include "sim_core/hands/hand.h"
#include "sim_core/hands/part_states.h"

namespace stirbench::journal {

using machine::Scenario;

namespace {

template <typename T>
void append_chars(std::string& out, T value) {
  char buffer[40];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value);
  out.append(buffer, end.ptr);
}

// Bytes for a message: printable, and not longer than fits a line.
std::string shown(std::string_view text) {
  constexpr std::size_t most = 40;
  std::string out;
  for (const char c : text.substr(0, most)) out += c >= ' ' && c <= '~' ? c : '?';
  if (text.size() > most) out += "...";
  return text.empty() ? "the end of the line" : "\"" + out + "\"";
}

}  // namespace

void begin_body(std::string& out, std::uint64_t record, std::uint64_t tick, std::string_view kind) {
  out = "{\"r\":";
  append_chars(out, record);
  put_integer(out, "tick", tick);
  put_text(out, "kind", kind);
}

void put_text(std::string& out, std::string_view key, std::string_view value) {
  out += ",\"";
  out += key;
  out += "\":\"";
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20) {
      out += "\\u00";
      bytes::append_hex8(out, byte);
    } else {
      out += c;
    }
  }
  out += '"';
}

void put_integer(std::string& out, std::string_view key, std::uint64_t value) {
  out += ",\"";
  out += key;
  out += "\":";
  append_chars(out, value);
}

void put_number(std::string& out, std::string_view key, double value) {
  out += ",\"";
  out += key;
  out += "\":";
  append_chars(out, value);
}

void put_boolean(std::string& out, std::string_view key, bool value) {
  out += ",\"";
  out += key;
  out += value ? "\":true" : "\":false";
}

// Only what differs from an ordinary day, so that ordinary journals read as they always did.
static void put_situation(std::string& out, const Scenario& situation) {
  const Scenario ordinary;
  if (situation.second_person_s != ordinary.second_person_s)
    put_number(out, "second_person_s", situation.second_person_s);
  if (situation.colleague_work_s != ordinary.colleague_work_s)
    put_number(out, "colleague_work_s", situation.colleague_work_s);
  if (situation.isolator_pole_stuck) put_boolean(out, "isolator_pole_stuck", true);
  if (situation.meter_broken) put_boolean(out, "meter_broken", true);
  if (situation.power_cut_at_s != ordinary.power_cut_at_s)
    put_number(out, "power_cut_at_s", situation.power_cut_at_s);
  if (situation.power_cut_for_s != ordinary.power_cut_for_s)
    put_number(out, "power_cut_for_s", situation.power_cut_for_s);
  if (situation.trade != ordinary.trade) put_text(out, "trade", faults::who_word(situation.trade));
  if (situation.plan_min != ordinary.plan_min) put_number(out, "plan_min", situation.plan_min);
}

void put_header(std::string& out, const Machine& machine, const SessionHeader& header) {
  put_integer(out, "format", static_cast<std::uint64_t>(journal_format));
  put_text(out, "program", header.program);
  put_text(out, "content", machine.content_hash);
  put_text(out, "machine", header.machine);
  put_text(out, "lesson", header.lesson);
  put_text(out, "lesson_hash", header.lesson_hash);
  put_text(out, "mode", header.mode);
  put_integer(out, "tick_ms", 1000 / machine::ticks_per_second);
  put_integer(out, "seed", header.start.seed);
  put_number(out, "ambient_degC", header.start.environment.ambient_degC);
  put_number(out, "humidity_norm", header.start.environment.humidity_norm);
  put_number(out, "supply_norm", header.start.environment.supply_norm);
  put_number(out, "frequency_Hz", header.start.environment.frequency_Hz);
  put_situation(out, header.start.situation);
  if (!header.start.parts.empty()) put_text(out, "parts", hands::parts_text(header.start.parts));
  if (!header.start.faults.empty()) put_integer(out, "faults", header.start.faults.size());
  if (header.branch_tick > 0) {
    put_text(out, "branch_of", header.branch_of);
    put_integer(out, "branch_tick", header.branch_tick);
  }
  put_text(out, "recipe", header.start.recipe);
  put_integer(out, "loads", header.start.loaded.size());
}

void put_load(std::string& out, const StartSetup::Load& load) {
  put_text(out, "ingredient", load.ingredient);
  put_number(out, "kg", load.kg);
  put_number(out, "degC", load.degC);
}

void put_fault(std::string& out, const StartSetup::Fault& fault) {
  put_text(out, "id", fault.id);
  put_number(out, "severity", fault.severity);
}

void put_act(std::string& out, const hands::Action& action) {
  put_text(out, "do", action.hand() != nullptr ? action.hand()->name : "");
  if (action.hand() == nullptr) return;
  for (const hands::Parameter* parameter : action.hand()->takes()) {
    const hands::Action::Value& value = action.value(*parameter);
    if (const auto* number = std::get_if<double>(&value)) put_number(out, parameter->name, *number);
    if (const auto* text = std::get_if<std::string>(&value)) put_text(out, parameter->name, *text);
    if (const auto* flag = std::get_if<bool>(&value)) put_boolean(out, parameter->name, *flag);
  }
}

void BodyReader::refuse(std::string_view expected, std::string_view found) {
  if (good()) fault_ = "expected " + std::string(expected) + ", found " + shown(found);
}

bool BodyReader::take(std::string_view expected) {
  if (!good()) return false;
  if (!rest_.starts_with(expected)) {
    refuse("`" + std::string(expected) + "`", rest_);
    return false;
  }
  rest_.remove_prefix(expected.size());
  return true;
}

bool BodyReader::take_key(std::string_view key) { return take(",\"" + std::string(key) + "\":"); }

bool BodyReader::next_is(std::string_view key) const {
  return good() && rest_.starts_with(",\"" + std::string(key) + "\":");
}

std::string_view BodyReader::next_key() const {
  constexpr std::string_view opening = ",\"";
  if (!good() || !rest_.starts_with(opening)) return {};
  const std::string_view after = rest_.substr(opening.size());
  return after.substr(0, after.find('"'));
}

std::string_view BodyReader::take_token() {
  const std::size_t length = std::min(rest_.find_first_of(",}"), rest_.size());
  const std::string_view token = rest_.substr(0, length);
  rest_.remove_prefix(length);
  return token;
}

void BodyReader::begin(std::uint64_t& record, std::uint64_t& tick, std::string& kind) {
  if (!take("{\"r\":")) return;
  const std::string_view token = take_token();
  const auto end = std::from_chars(token.data(), token.data() + token.size(), record);
  if (token.empty() || end.ec != std::errc() || end.ptr != token.data() + token.size())
    refuse("a record number", token);
  tick = integer("tick");
  kind = text("kind");
}

bool BodyReader::take_escape(std::string& value) {
  if (rest_.empty()) return false;
  const char c = rest_.front();
  if (c == '"' || c == '\\') {
    value += c;
    rest_.remove_prefix(1);
    return true;
  }
  if (!rest_.starts_with("u00") || rest_.size() < 5) return false;
  const std::size_t high = bytes::lower_digits.find(rest_[3]);
  const std::size_t low = bytes::lower_digits.find(rest_[4]);
  if (high >= 2 || low >= 16) return false;  // only what the writer escapes: below 0x20
  value += static_cast<char>(high * 16 + low);
  rest_.remove_prefix(5);
  return true;
}

std::string BodyReader::text(std::string_view key) {
  std::string value;
  if (!take_key(key) || !take("\"")) return value;
  while (!rest_.empty() && rest_.front() != '"') {
    const char c = rest_.front();
    if (static_cast<unsigned char>(c) < 0x20) break;
    rest_.remove_prefix(1);
    if (c != '\\') {
      value += c;
    } else if (!take_escape(value)) {
      refuse("an escape of the journal's own", rest_);
      return value;
    }
  }
  take("\"");
  return value;
}

std::uint64_t BodyReader::integer(std::string_view key) {
  std::uint64_t value = 0;
  if (!take_key(key)) return 0;
  const std::string_view token = take_token();
  const auto end = std::from_chars(token.data(), token.data() + token.size(), value);
  if (token.empty() || end.ec != std::errc() || end.ptr != token.data() + token.size()) {
    refuse("a whole number for \"" + std::string(key) + "\"", token);
  }
  return value;
}

double BodyReader::number(std::string_view key) {
  double value = 0.0;
  if (!take_key(key)) return 0.0;
  const std::string_view token = take_token();
  const auto end = std::from_chars(token.data(), token.data() + token.size(), value);
  if (token.empty() || end.ec != std::errc() || end.ptr != token.data() + token.size()) {
    refuse("a number for \"" + std::string(key) + "\"", token);
    return 0.0;
  }
  return value;
}

bool BodyReader::boolean(std::string_view key) {
  if (!take_key(key)) return false;
  const std::string_view token = take_token();
  if (token != "true" && token != "false") refuse("true or false for \"" + std::string(key) + "\"", token);
  return token == "true";
}

std::uint64_t BodyReader::hex64(std::string_view key) {
  const std::string digits = text(key);
  if (!good()) return 0;
  const std::optional<std::uint64_t> value = bytes::from_hex64(digits);
  if (!value) refuse("16 hexadecimal digits for \"" + std::string(key) + "\"", digits);
  return value.value_or(0);
}

void BodyReader::close() {
  if (take("}") && !rest_.empty()) refuse("the end of the record", rest_);
}

}  // namespace stirbench::journal
