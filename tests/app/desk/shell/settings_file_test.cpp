#include "app/desk/shell/settings_file.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "tests/support/files.h"

using namespace stirbench::desk::kit;
using namespace stirbench::desk::screens;
using namespace stirbench::desk::shell;
using stirbench::test_support::read_file;
using stirbench::test_support::TempFolder;
using stirbench::test_support::write_file;

namespace {

Settings unusual() {
  Settings settings;
  settings.units = {TemperatureUnit::degF, VolumeUnit::us_gallon, MassUnit::pound, PressureUnit::psi,
                    PowerUnit::watt};
  settings.text_percent = 150;
  settings.theme = ThemeKind::contrast;
  settings.reduced_motion = true;
  settings.language = "fr";
  settings.rules_of = "United Kingdom";
  settings.last_person = "leilani";
  return settings;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("settings: saved and read again they are the same, to the byte") {
  const TempFolder folder("settings");
  const std::string data = folder.file("deep/data");
  CHECK(load_settings(data).settings == Settings{});
  CHECK(load_settings(data).message.empty());
  REQUIRE(save_settings(unusual(), data).empty());
  const SettingsLoad load = load_settings(data);
  CHECK(load.message.empty());
  CHECK(load.settings == unusual());
  CHECK(settings_text(load.settings) == read_file(data + "/settings.json"));
}

TEST_CASE("settings: each kind of mistake is named with its place, and the defaults are used") {
  const std::string good = settings_text(unusual());
  struct Row {
    std::string text;
    const char* wanted;
  };
  const Row rows[] = {
      {replaced(good, "150", "90"),
       "s.json:/text_percent: expected a whole number from 100 to 200, found 90"},
      {replaced(good, "150", "150.5"),
       "s.json:/text_percent: expected a whole number from 100 to 200, found 150.5"},
      {replaced(good, "150", "\"150\""), "s.json:/text_percent: expected a number, found \"150\""},
      {replaced(good, "\"contrast\"", "\"purple\""),
       "s.json:/theme: expected one of light dark contrast, found \"purple\""},
      {replaced(good, "\"degF\"", "\"K\""),
       "s.json:/units/temperature: expected one of degC degF, found \"K\""},
      {replaced(good, "\"reduced_motion\": true,", ""),
       "s.json:/reduced_motion: expected a boolean, found nothing"},
      {replaced(good, "\"theme\"", "\"shade\": 1, \"theme\""),
       "s.json:/shade: expected no such key, found 1"},
      {replaced(good, "\"format\": 1", "\"format\": 2"),
       "s.json:/format: expected a whole number from 1 to 1, found 2"},
      {"{\n  \"format\": 1,\n", "s.json:line 3: expected JSON"},
      {"[]", "s.json:/: expected an object, found array"},
      {"", "s.json:line 1: expected JSON"},
  };
  for (const Row& row : rows) {
    const SettingsLoad load = parse_settings(row.text, "s.json");
    INFO(load.message);
    CHECK(load.message.find(row.wanted) == 0);
    CHECK(load.settings == Settings{});
  }
}

TEST_CASE("settings: a bad file is put aside, never overwritten") {
  const TempFolder folder("settings");
  for (const char* aside : {"settings.json.bad", "settings.json.bad-2"}) {
    write_file(folder.path() / "settings.json", std::string("broken ") + aside);
    const SettingsLoad load = load_settings(folder.path().string());
    INFO(load.message);
    CHECK(load.message.find(aside) != std::string::npos);
    CHECK(read_file(folder.file(aside)) == std::string("broken ") + aside);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "settings.json"));
  }
}

TEST_CASE("settings: a folder that cannot be made is said, and nothing is thrown") {
  const TempFolder folder("settings");
  write_file(folder.path() / "file", "not a folder");
  const std::string problem = save_settings(unusual(), folder.file("file/data"));
  INFO(problem);
  CHECK(problem.find("file/data") != std::string::npos);
}
