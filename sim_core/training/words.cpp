#include "sim_core/training/words.h"

#include <array>
#include <charconv>
#include <cmath>

namespace stirbench::training {

namespace {

struct UnitEntry {
  std::string_view suffix;  // of a signal's name
  std::string_view unit;
  std::string_view difference;  // unit of a difference
  int decimals;
  double factor;
};

// Longer suffixes first where one ends with another.
constexpr std::array<UnitEntry, 21> units{{
    {"_L_per_min", "L/min", "L/min", 1, 1.0},
    {"_kg_per_h", "kg/h", "kg/h", 1, 1.0},
    {"_kg_per_m2", "kg/m²", "kg/m²", 2, 1.0},
    {"_kg_per_m3", "kg/m³", "kg/m³", 0, 1.0},
    {"_Pa_s", "Pa s", "Pa s", 3, 1.0},
    {"_degC", "°C", "K", 1, 1.0},
    {"_log10", "decades", "decades", 2, 1.0},
    {"_norm", "%", "%", 0, 100.0},
    {"_rpm", "rpm", "rpm", 0, 1.0},
    {"_bar", "bar", "bar", 1, 1.0},
    {"_Nm", "N m", "N m", 1, 1.0},
    {"_pct", "%", "%", 1, 1.0},
    {"_kg", "kg", "kg", 2, 1.0},
    {"_mm", "mm", "mm", 2, 1.0},
    {"_um", "µm", "µm", 0, 1.0},
    {"_g", "g", "g", 1, 1.0},
    {"_L", "L", "L", 1, 1.0},
    {"_A", "A", "A", 1, 1.0},
    {"_W", "W", "W", 0, 1.0},
    {"_K", "K", "K", 1, 1.0},
    {"_s", "s", "s", 1, 1.0},
}};

const UnitEntry* unit_of(std::string_view signal_name) {
  for (const UnitEntry& entry : units) {
    if (signal_name.size() > entry.suffix.size() && signal_name.ends_with(entry.suffix)) return &entry;
  }
  return nullptr;
}

struct Slot {
  std::string_view name;
  std::string Placeholders::*field;
};
constexpr std::array<Slot, 9> slots{{{"time", &Placeholders::time},
                                     {"value", &Placeholders::value},
                                     {"bound", &Placeholders::bound},
                                     {"by", &Placeholders::by},
                                     {"name", &Placeholders::name},
                                     {"held", &Placeholders::held},
                                     {"done", &Placeholders::done},
                                     {"low", &Placeholders::low},
                                     {"high", &Placeholders::high}}};

}  // namespace

std::string fixed_text(double value, int decimals) {
  if (!std::isfinite(value)) return "?";
  std::array<char, 400> buffer{};
  const auto result =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  std::string text(buffer.data(), result.ptr);
  // "-0.0" reads like a fault.
  if (text.front() == '-' && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

std::string clock_text(double t_s) {
  if (!(t_s >= 0.0)) return "?";
  const auto whole_s = static_cast<long long>(t_s);
  const auto two = [](long long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  if (whole_s >= 3600)
    return std::to_string(whole_s / 3600) + ":" + two(whole_s / 60 % 60) + ":" + two(whole_s % 60);
  return std::to_string(whole_s / 60) + ":" + two(whole_s % 60);
}

std::string value_text(std::string_view signal_name, double value) {
  const UnitEntry* entry = unit_of(signal_name);
  if (entry == nullptr) return fixed_text(value, value == std::floor(value) ? 0 : 2);
  return fixed_text(value * entry->factor, entry->decimals) + " " + std::string(entry->unit);
}

std::string difference_text(std::string_view signal_name, double difference) {
  const double size = std::fabs(difference);
  const UnitEntry* entry = unit_of(signal_name);
  if (entry == nullptr) return fixed_text(size, size == std::floor(size) ? 0 : 2);
  return fixed_text(size * entry->factor, entry->decimals) + " " + std::string(entry->difference);
}

std::string duration_text(double duration_s) {
  if (duration_s < 9.95) return fixed_text(duration_s, 1) + " s";
  if (duration_s < 119.5) return fixed_text(duration_s, 0) + " s";
  const auto whole_s = std::llround(duration_s);
  return std::to_string(whole_s / 60) + " min " + std::to_string(whole_s % 60) + " s";
}

bool known_placeholder(std::string_view name) {
  for (const Slot& slot : slots) {
    if (slot.name == name) return true;
  }
  return false;
}

std::string fill_placeholders(std::string_view text, const Placeholders& placeholders) {
  std::string out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t open = text.find('{', at);
    const std::size_t close = open == std::string_view::npos ? open : text.find('}', open);
    if (close == std::string_view::npos) break;
    out.append(text.substr(at, open - at));
    const std::string_view name = text.substr(open + 1, close - open - 1);
    bool found = false;
    for (const Slot& slot : slots) {
      if (slot.name != name) continue;
      const std::string& value = placeholders.*slot.field;
      out.append(value.empty() ? "?" : value);
      found = true;
    }
    if (!found) out.append(text.substr(open, close - open + 1));
    at = close + 1;
  }
  out.append(text.substr(at));
  return out;
}

}  // namespace stirbench::training
