#pragma once

#include <string>

#include "app/desk/screens/settings.h"

namespace stirbench::desk::shell {

// DATA/settings.json.
struct SettingsLoad {
  screens::Settings settings;  // the defaults when the file is absent or bad
  std::string message;  // empty, or "FILE:/key: expected ..., found ..." and where the bad file was put aside
};

std::string settings_text(const screens::Settings& settings);                   // JSON, byte-stable
SettingsLoad parse_settings(const std::string& text, const std::string& file);  // strict
// Reads DATA/settings.json. A bad file is renamed to settings.json.bad (-2, -3 ...) and the defaults are
// used.
SettingsLoad load_settings(const std::string& data_dir);
// Atomically. Empty = saved, else the message.
std::string save_settings(const screens::Settings& settings, const std::string& data_dir);

}  // namespace stirbench::desk::shell
