#include "app/fitting/log_cells.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <vector>

namespace stirbench::fitting {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Lower-case runs of letters; everything else parts them.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (lower >= 'a' && lower <= 'z') {
      out.back() += lower;
    } else if (!out.back().empty()) {
      out.emplace_back();
    }
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

template <typename Value>
struct Word {
  std::string_view word;
  Value value;
};
template <typename Value>
Word(const char*, Value) -> Word<Value>;

// The first that is met counts, so the special stand before the general.
constexpr std::array fields = {
    Word{"wall", LogField::wall},           Word{"element", LogField::element},
    Word{"elements", LogField::element},    Word{"condensing", LogField::condensing},
    Word{"ambient", LogField::ambient},     Word{"room", LogField::ambient},
    Word{"heater", LogField::heater},       Word{"heaters", LogField::heater},
    Word{"power", LogField::power},         Word{"fill", LogField::fill},
    Word{"volume", LogField::fill},         Word{"event", LogField::event},
    Word{"events", LogField::event},        Word{"time", LogField::time},
    Word{"timestamp", LogField::time},      Word{"datetime", LogField::time},
    Word{"elapsed", LogField::time},        Word{"probe", LogField::product},
    Word{"product", LogField::product},     Word{"mix", LogField::product},
    Word{"temperature", LogField::product}, Word{"temp", LogField::product}};

constexpr std::array units = {
    Word{"s", LogUnit::second},    Word{"sec", LogUnit::second},      Word{"seconds", LogUnit::second},
    Word{"min", LogUnit::minute},  Word{"minutes", LogUnit::minute},  Word{"degc", LogUnit::degC},
    Word{"c", LogUnit::degC},      Word{"celsius", LogUnit::degC},    Word{"degf", LogUnit::degF},
    Word{"f", LogUnit::degF},      Word{"fahrenheit", LogUnit::degF}, Word{"w", LogUnit::watt},
    Word{"kw", LogUnit::kilowatt}, Word{"l", LogUnit::litre}};

// Digits only, of a fixed count; below 0: they are not.
int digits(std::string_view text, std::size_t from, std::size_t count) {
  if (text.size() < from + count) return -1;
  int out = 0;
  for (std::size_t i = from; i < from + count; ++i) {
    if (!is_digit(text[i])) return -1;
    out = 10 * out + (text[i] - '0');
  }
  return out;
}

// h:mm:ss.f or h:mm.
std::optional<double> time_of_day(std::string_view text) {
  std::vector<std::string_view> parts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t colon = std::min(text.find(':', at), text.size());
    parts.push_back(text.substr(at, colon - at));
    at = colon + 1;
  }
  if (parts.size() != 2 && parts.size() != 3) return std::nullopt;
  double out = 0.0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::optional<double> part = number_of(parts[i]);
    const bool digit_first = !parts[i].empty() && is_digit(parts[i].front());
    if (!part || !digit_first || (i > 0 && !(*part < 60.0))) return std::nullopt;
    out = 60.0 * out + *part;
  }
  return parts.size() == 2 ? 60.0 * out : out;
}

// "Z", "+01:00", "-0500" or nothing at the end; removed from the text, in seconds.
std::optional<double> zone_of(std::string_view& text) {
  if (text.ends_with('Z')) {
    text.remove_suffix(1);
    return 0.0;
  }
  const std::size_t sign = text.find_last_of("+-");
  if (sign == std::string_view::npos) return 0.0;
  const std::string_view zone = text.substr(sign + 1);
  const int hours = digits(zone, 0, 2);
  const bool colon = zone.size() == 5 && zone[2] == ':';
  const int minutes = zone.size() == 2 ? 0 : digits(zone, colon ? 3 : 2, 2);
  if (hours < 0 || minutes < 0 || zone.size() > 5) return std::nullopt;
  const double seconds = 3600.0 * hours + 60.0 * minutes;
  const bool ahead = text[sign] == '+';
  text = text.substr(0, sign);
  return ahead ? seconds : -seconds;
}

std::optional<double> date_and_time(std::string_view text) {
  const int year = digits(text, 0, 4), month = digits(text, 5, 2), day = digits(text, 8, 2);
  const bool dashes = text.size() > 11 && text[4] == '-' && text[7] == '-';
  if (!dashes || year < 0 || month < 0 || day < 0 || (text[10] != 'T' && text[10] != ' '))
    return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return std::nullopt;
  std::string_view rest = text.substr(11);
  const std::optional<double> zone_s = zone_of(rest);
  const std::optional<double> day_s = time_of_day(rest);
  if (!zone_s || !day_s || !(*day_s <= 86400.0)) return std::nullopt;
  const double days = static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count());
  return 86400.0 * days + *day_s - *zone_s;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

Heading heading_of(std::string_view text) {
  const std::vector<std::string> words = words_of(text);
  Heading out;
  const auto has = [&](std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  for (const auto& [word, field] : fields) {
    if (!has(word)) continue;
    out.field = field;
    break;
  }
  // "freezer", "evaporating" and others that a trace of the program holds are no temperature of the product.
  for (const auto& [word, unit] : units)
    if (has(word)) out.unit = unit;
  out.probe = has("probe");
  return out;
}

std::optional<double> number_of(std::string_view text) {
  std::string copy(trimmed(text));
  std::replace(copy.begin(), copy.end(), ',', '.');
  const char* first = copy.data();
  const char* const last = first + copy.size();
  if (first != last && *first == '+') ++first;
  double value = 0.0;
  const auto read = std::from_chars(first, last, value);
  if (read.ec != std::errc() || read.ptr != last || value != value) return std::nullopt;
  return value;
}

std::optional<double> time_of(std::string_view text, LogUnit unit) {
  text = trimmed(text);
  if (text.find(':') != std::string_view::npos) {
    const std::optional<double> with_date = date_and_time(text);
    return with_date ? with_date : time_of_day(text);
  }
  if (unit != LogUnit::second && unit != LogUnit::minute) return std::nullopt;
  const std::optional<double> number = number_of(text);
  if (!number) return std::nullopt;
  return unit == LogUnit::minute ? 60.0 * *number : *number;
}

double converted(double value, LogUnit unit) {
  if (unit == LogUnit::degF) return (value - 32.0) / 1.8;
  return unit == LogUnit::kilowatt ? 1000.0 * value : value;
}

}  // namespace stirbench::fitting
