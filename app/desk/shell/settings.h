#pragma once

#include <string>

#include "app/desk/kit/text/units.h"
#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::shell {

// What a person set up once; kept in DATA/settings.json.
struct Settings {
  kit::UnitChoice units;
  int text_percent = 100;          // 100..200
  kit::ThemeKind theme = kit::ThemeKind::light;
  bool reduced_motion = false;
  std::string language = "en";
  std::string rules_of;            // jurisdiction whose rules the debrief shows; empty: all
  std::string last_person;         // id of the person who used the desk last; may be empty
  bool operator==(const Settings&) const = default;
};

struct SettingsLoad {
  Settings settings;     // the defaults when the file is absent or bad
  std::string message;   // empty, or "FILE:/key: expected ..., found ..." and where the bad file was put aside
};

std::string settings_text(const Settings& settings);                       // JSON, byte-stable
SettingsLoad parse_settings(const std::string& text, const std::string& file);  // strict
// Reads DATA/settings.json. A bad file is renamed to settings.json.bad (-2, -3 ...) and the defaults are used.
SettingsLoad load_settings(const std::string& data_dir);
// Atomically. Empty = saved, else the message.
std::string save_settings(const Settings& settings, const std::string& data_dir);

}  // namespace stirbench::desk::shell
