#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <set>
#include <string>
#include <thread>

#include "tests/support/files.h"
#include "tests/ui/support/driver.h"

// The widget sheet holds every control once; these cases work it with a pointer and with keys only.
namespace {

using stirbench::desk::kit::ThemeKind;
using stirbench::desk::kit::Widget;
using stirbench::desk::screens::Settings;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::Driver;
using stirbench::ui_test::DriverOptions;

DriverOptions options_in(const TempFolder& folder) {
  DriverOptions options;
  options.data_dir = folder.file("data");
  options.first_screen = "sheet";
  return options;
}

// Mean brightness 0..255 of the picture.
double brightness(Driver& driver) {
  const auto picture = driver.window().picture();
  double sum = 0.0;
  for (const unsigned char byte : picture.rgb) sum += byte;
  return picture.rgb.empty() ? 0.0 : sum / static_cast<double>(picture.rgb.size());
}

}  // namespace

TEST_CASE("sheet: a click on a named button counts, a click next to it does not") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  CHECK(driver.app().registry().duplicates().empty());
  CHECK(driver.value("sheet.count") == "Pressed 0 times");
  driver.click("sheet.press");
  CHECK(driver.value("sheet.count") == "Pressed 1 time");
  driver.click("sheet.display");
  CHECK(driver.value("sheet.count") == "Pressed 1 time");
  driver.click("sheet.press");
  CHECK(driver.value("sheet.count") == "Pressed 2 times");
}

TEST_CASE("sheet: a message goes by a click on it, which reaches nothing below, and by Escape") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  driver.click("sheet.primary");
  REQUIRE(driver.has("toast.0"));
  driver.click("toast.0");
  CHECK_FALSE(driver.has("toast.0"));
  driver.click("sheet.primary");
  REQUIRE(driver.has("toast.0"));
  driver.press("Escape");
  CHECK_FALSE(driver.has("toast.0"));
}

TEST_CASE("sheet: a disabled button does nothing and says why") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  const Widget run = driver.widget("sheet.disabled");
  CHECK_FALSE(run.enabled);
  CHECK(run.reason == "Close the lid first.");
  driver.click("sheet.disabled");
  CHECK(driver.value("sheet.count") == "Pressed 0 times");
}

TEST_CASE("sheet: fields take text and numbers, in the person's units, and keep out what is not a number") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  driver.click("sheet.name");
  driver.type("Ravi Osei");
  CHECK(driver.value("sheet.name") == "Ravi Osei");
  driver.fill("sheet.target", "72,5");
  CHECK(driver.value("sheet.target") == "72.5");
  // Out of range: stays in the field to be put right, with words under it; the value is kept.
  driver.fill("sheet.target", "200");
  CHECK(driver.value("sheet.target") == "200");
  CHECK(driver.value("sheet.product") == "72.5\u2009°C");
  driver.fill("sheet.target", "60");
  CHECK(driver.value("sheet.target") == "60.0");
  driver.click("sheet.mass.plus");
  CHECK(driver.value("sheet.mass") == "20.50");
  driver.click("sheet.mass.minus");
  driver.click("sheet.mass.minus");
  CHECK(driver.value("sheet.mass") == "19.50");
  // The same mass in pounds: 19.5 kg / 0.45359237 (NIST SP 811, exact) = 42.99 lb.
  Settings settings = driver.app().settings();
  settings.units.mass = stirbench::desk::kit::MassUnit::pound;
  driver.app().change_settings(settings);
  driver.frames(4);
  CHECK(driver.value("sheet.mass") == "42.99");
}

TEST_CASE("sheet: check box, radio, chips, slider, list, drop-down by pointer") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  CHECK(driver.value("sheet.guide") == "on");
  driver.click("sheet.guide");
  CHECK(driver.value("sheet.guide") == "off");
  driver.click("sheet.unit.1");
  CHECK(driver.value("sheet.unit.1") == "on");
  CHECK(driver.value("sheet.unit.0") == "off");
  driver.click("sheet.speed.2");
  CHECK(driver.value("sheet.speed.2") == "selected");
  driver.drag("sheet.opening", 100.0F, 0.0F);
  CHECK(driver.value("sheet.opening") > "60");
  driver.click("sheet.row.1");
  CHECK(driver.value("sheet.row.1") == "selected");
  CHECK(driver.value("sheet.recipe") == "White base");
  driver.click("sheet.recipe");
  driver.click("sheet.recipe.1");
  CHECK(driver.value("sheet.recipe") == "Chocolate");
  CHECK(driver.wait_for([&] { return !driver.has("sheet.recipe.1"); }));
  driver.click("sheet.vat");
  CHECK(driver.value("sheet.vat") == "open");
}

TEST_CASE("sheet: everything is reached and worked with the keyboard alone") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  std::set<std::string> wanted;
  for (const Widget& widget : driver.app().registry().all()) {
    if (widget.focusable) wanted.insert(widget.id);
  }
  REQUIRE(wanted.size() > 25);
  std::set<std::string> reached;
  for (std::size_t i = 0; i < wanted.size() + 2; ++i) {
    driver.press("Tab");
    reached.insert(driver.focused());
  }
  for (const std::string& id : wanted) {
    INFO(id);
    CHECK(reached.contains(id));
  }
  // Back with Shift, and press with Enter and with Space.
  const auto go_to = [&](const std::string& id) {
    for (std::size_t i = 0; i < wanted.size() + 2 && driver.focused() != id; ++i) driver.press("shift+Tab");
    REQUIRE(driver.focused() == id);
  };
  go_to("sheet.press");
  driver.press("Return");
  CHECK(driver.value("sheet.count") == "Pressed 1 time");
  driver.press("space");
  CHECK(driver.value("sheet.count") == "Pressed 2 times");
  go_to("sheet.name");
  driver.type("abc");
  CHECK(driver.value("sheet.name") == "abc");
  go_to("sheet.opening");
  driver.press("Right");
  CHECK(driver.value("sheet.opening").substr(0, 2) == "45");
  CHECK(driver.focused() == "sheet.opening");
  go_to("sheet.vat");
  driver.press("Return");
  CHECK(driver.value("sheet.vat") == "open");
  // A list: opens, walks, chooses, and the keyboard is back where it was.
  go_to("sheet.recipe");
  driver.press("Return");
  CHECK(driver.wait_for([&] { return driver.focused() == "sheet.recipe.0"; }));
  driver.press("Tab");
  driver.press("Tab");
  driver.press("Return");
  CHECK(driver.value("sheet.recipe") == "Fruit syrup");
  CHECK(driver.wait_for([&] { return driver.focused() == "sheet.recipe"; }));
}

TEST_CASE("sheet: a dialog keeps the keyboard inside, blocks what is behind it, and Escape leaves it") {
  const TempFolder folder("ui-sheet");
  Driver driver(options_in(folder));
  driver.click("sheet.link");
  driver.widget("sheet.dialog.yes");
  for (int i = 0; i < 5; ++i) {
    driver.press("Tab");
    CHECK(driver.focused().substr(0, 12) == "sheet.dialog");
  }
  driver.click("sheet.press");
  CHECK(driver.value("sheet.count") == "Pressed 0 times");
  driver.press("Escape");
  CHECK(driver.wait_for([&] { return !driver.has("sheet.dialog.yes"); }));
  driver.click("sheet.press");
  CHECK(driver.value("sheet.count") == "Pressed 1 time");
}

TEST_CASE("sheet: dark theme, 200 % text and a small window keep every control at least 24 px and in reach") {
  const TempFolder folder("ui-sheet");
  DriverOptions options = options_in(folder);
  options.width = 960;
  options.height = 640;
  Driver driver(options);
  const double light = brightness(driver);
  Settings settings = driver.app().settings();
  settings.theme = ThemeKind::dark;
  settings.text_percent = 200;
  driver.app().change_settings(settings);
  driver.frames(8);
  CHECK(brightness(driver) < light * 0.4);
  CHECK(driver.widget("sheet.press").rect.h >= 48.0F);
  for (const Widget& widget : driver.app().registry().all()) {
    INFO(widget.id);
    if (!widget.focusable) continue;
    CHECK(widget.rect.w >= 24.0F);
    CHECK(widget.rect.h >= 24.0F);
  }
  // Scrolled away, then brought back by name.
  CHECK_FALSE(driver.app().registry().find("sheet.recipe")->visible);
  driver.click("sheet.unit.1");
  CHECK(driver.value("sheet.unit.1") == "on");
  // The settings were saved and are read again.
  CHECK(stirbench::desk::shell::load_settings(options.data_dir).settings == settings);
}

TEST_CASE("sheet: nothing is drawn when nothing moves, motion is; the frame is measured") {
  const TempFolder folder("ui-sheet");
  DriverOptions options = options_in(folder);
  options.time_by_frames = false;
  Driver driver(options);
  // What is still pending after the start is drawn within a second; then the loop sleeps until something
  // comes in. The bell ends each sleep without asking for a picture.
  std::atomic<bool> done{false};
  std::thread bell([&done] {
    while (!done) {
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
      glfwPostEmptyEvent();
    }
  });
  const auto frames_in = [&](double seconds) {
    const long long before = driver.window().frames();
    const double until = driver.window().now_s() + seconds;
    while (driver.window().now_s() < until) driver.app().run_frame(true);
    return driver.window().frames() - before;
  };
  frames_in(1.0);
  CHECK(frames_in(0.5) == 0);
  // Motion is drawn, and stops when what moved has gone. With less motion the pointer stands still.
  driver.app().registry().point_at("sheet.stop");
  driver.window().request_frame();
  CHECK(frames_in(0.5) >= 3);
  driver.app().registry().stop_pointing();
  frames_in(0.3);
  CHECK(frames_in(0.3) == 0);
  Settings settings = driver.app().settings();
  settings.reduced_motion = true;
  driver.app().change_settings(settings);
  driver.app().registry().point_at("sheet.stop");
  frames_in(0.5);
  CHECK(frames_in(0.3) == 0);
  done = true;
  bell.join();
  CHECK(driver.window().first_picture_s() > 0.0);
  const auto stats = driver.measure(60);
  std::printf("sheet: frame median %.2f ms, p95 %.2f ms, build %.2f ms\n", stats.median_ms, stats.p95_ms,
              stats.build_median_ms);
  CHECK(stats.frames == 60);
}
