#include "app/desk/shell/settings_file.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/library/reading/paths.h"

namespace stirbench::desk::shell {

namespace {

namespace fs = std::filesystem;
using nlohmann::ordered_json;

constexpr const char* file_name = "settings.json";
constexpr int format_version = 1;

// The words of a choice, in the order of its enum: one list for writing and reading.
constexpr std::array temperature_words{"degC", "degF"};
constexpr std::array volume_words{"litre", "us_gallon"};
constexpr std::array mass_words{"kilogram", "pound"};
constexpr std::array pressure_words{"bar", "psi"};
constexpr std::array power_words{"kilowatt", "watt"};
constexpr std::array theme_words{"light", "dark", "contrast"};

// Reads keys one by one, notes the first problem with its place, and knows which keys were asked for.
class Reader {
 public:
  Reader(const ordered_json& object, std::string file, std::string path)
      : object_(object), file_(std::move(file)), path_(std::move(path)) {}

  template <typename Enum, std::size_t N>
  void choice(const char* key, const std::array<const char*, N>& words, Enum& value) {
    const ordered_json* found = take(key, "string");
    if (found == nullptr) return;
    const auto at = std::find(words.begin(), words.end(), found->get<std::string>());
    if (at == words.end()) {
      std::string expected = "one of";
      for (const char* word : words) expected += std::string(" ") + word;
      report(key, expected, found->dump());
      return;
    }
    value = static_cast<Enum>(at - words.begin());
  }
  void text(const char* key, std::string& value) {
    if (const ordered_json* found = take(key, "string"); found != nullptr) value = found->get<std::string>();
  }
  // A key that older files do not have.
  void text_or_nothing(const char* key, std::string& value) {
    if (object_.contains(key)) text(key, value);
  }
  void flag(const char* key, bool& value) {
    if (const ordered_json* found = take(key, "boolean"); found != nullptr) value = found->get<bool>();
  }
  void whole(const char* key, int low, int high, int& value) {
    const ordered_json* found = take(key, "number");
    if (found == nullptr) return;
    const double number = found->get<double>();
    if (!found->is_number_integer() || number < low || number > high) {
      report(key, "a whole number from " + std::to_string(low) + " to " + std::to_string(high),
             found->dump());
      return;
    }
    value = found->get<int>();
  }
  const ordered_json* object(const char* key) { return take(key, "object"); }
  // After the last key: what is left over is unknown.
  void finish() {
    for (const auto& [key, value] : object_.items()) {
      if (std::find(known_.begin(), known_.end(), key) == known_.end())
        report(key, "no such key", value.dump());
    }
  }
  const std::string& problem() const { return problem_; }
  void adopt(const std::string& problem) {
    if (problem_.empty()) problem_ = problem;
  }

 private:
  const ordered_json* take(const char* key, const char* type) {
    known_.emplace_back(key);
    const auto found = object_.find(key);
    if (found == object_.end()) {
      report(key, std::string("a ") + type, "nothing");
      return nullptr;
    }
    if (std::string(found->type_name()) != type) {
      report(key, std::string("a ") + type, found->dump());
      return nullptr;
    }
    return &*found;
  }
  void report(const std::string& key, const std::string& expected, const std::string& found) {
    if (problem_.empty())
      problem_ = file_ + ":" + path_ + "/" + key + ": expected " + expected + ", found " + found;
  }

  const ordered_json& object_;
  std::string file_;
  std::string path_;
  std::string problem_;
  std::vector<std::string> known_;
};

std::string read_units(const ordered_json& object, const std::string& file, kit::UnitChoice& units) {
  Reader reader(object, file, "/units");
  reader.choice("temperature", temperature_words, units.temperature);
  reader.choice("volume", volume_words, units.volume);
  reader.choice("mass", mass_words, units.mass);
  reader.choice("pressure", pressure_words, units.pressure);
  reader.choice("power", power_words, units.power);
  reader.finish();
  return reader.problem();
}

// First free name among settings.json.bad, settings.json.bad-2, ...
fs::path free_bad_name(const fs::path& file) {
  fs::path candidate = file.string() + ".bad";
  std::error_code failed;
  for (int n = 2; fs::exists(candidate, failed) && n < 1000; ++n)
    candidate = file.string() + ".bad-" + std::to_string(n);
  return candidate;
}

}  // namespace

std::string settings_text(const screens::Settings& settings) {
  const auto word = [](const auto& words, auto value) { return words[static_cast<std::size_t>(value)]; };
  ordered_json root;
  root["format"] = format_version;
  root["units"]["temperature"] = word(temperature_words, settings.units.temperature);
  root["units"]["volume"] = word(volume_words, settings.units.volume);
  root["units"]["mass"] = word(mass_words, settings.units.mass);
  root["units"]["pressure"] = word(pressure_words, settings.units.pressure);
  root["units"]["power"] = word(power_words, settings.units.power);
  root["text_percent"] = settings.text_percent;
  root["theme"] = word(theme_words, settings.theme);
  root["reduced_motion"] = settings.reduced_motion;
  root["language"] = settings.language;
  root["rules_of"] = settings.rules_of;
  root["last_person"] = settings.last_person;
  return root.dump(2) + "\n";
}

SettingsLoad parse_settings(const std::string& text, const std::string& file) {
  SettingsLoad load;
  ordered_json root;
  try {
    root = ordered_json::parse(text);
  } catch (const ordered_json::parse_error& error) {
    const std::size_t end = std::min(static_cast<std::size_t>(error.byte), text.size());
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
    load.message = file + ":line " + std::to_string(line) + ": expected JSON, found a syntax error";
    return load;
  }
  if (!root.is_object()) {
    load.message = file + ":/: expected an object, found " + root.type_name();
    return load;
  }
  screens::Settings read;
  int format = format_version;
  Reader reader(root, file, "");
  reader.whole("format", format_version, format_version, format);
  if (const ordered_json* units = reader.object("units"); units != nullptr)
    reader.adopt(read_units(*units, file, read.units));
  reader.whole("text_percent", 100, 200, read.text_percent);
  reader.choice("theme", theme_words, read.theme);
  reader.flag("reduced_motion", read.reduced_motion);
  reader.text("language", read.language);
  reader.text_or_nothing("rules_of", read.rules_of);
  reader.text("last_person", read.last_person);
  reader.finish();
  load.message = reader.problem();
  if (load.message.empty()) load.settings = read;
  return load;
}

SettingsLoad load_settings(const std::string& data_dir) {
  SettingsLoad load;
  const fs::path file = fs::path(data_dir) / file_name;
  std::error_code failed;
  if (!fs::exists(file, failed)) return load;
  std::string text;
  try {
    text = library::read_file(file.string());
  } catch (const std::exception& error) {
    load.message = error.what();
    return load;
  }
  load = parse_settings(text, file.string());
  if (load.message.empty()) return load;
  // Put aside rather than overwritten: somebody may want to mend it.
  const fs::path aside = free_bad_name(file);
  fs::rename(file, aside, failed);
  load.message += failed ? ". The usual settings are used."
                         : ". The usual settings are used; the file was put aside as " + aside.string() + ".";
  return load;
}

std::string save_settings(const screens::Settings& settings, const std::string& data_dir) {
  if (std::string problem = library::make_writable(data_dir); !problem.empty()) return problem;
  return library::write_atomically((fs::path(data_dir) / file_name).string(), settings_text(settings));
}

}  // namespace stirbench::desk::shell
