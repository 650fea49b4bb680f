#include "app/desk/kit/widgets/registry.h"

#include <doctest/doctest.h>

#include <string>

#include "app/desk/kit/theme/geometry.h"

using namespace stirbench::desk::kit;

namespace {

Widget named(const std::string& id, bool focusable = true) {
  Widget widget;
  widget.id = id;
  widget.focusable = focusable;
  return widget;
}

}  // namespace

TEST_CASE("registry: a frame is readable as a whole, and only once it has ended") {
  Registry registry;
  registry.begin_frame();
  registry.add(named("a"));
  CHECK(registry.find("a") == nullptr);
  registry.end_frame();
  REQUIRE(registry.find("a") != nullptr);
  registry.begin_frame();
  CHECK(registry.find("a") != nullptr);
  registry.add(named("b"));
  registry.end_frame();
  CHECK(registry.find("a") == nullptr);
  CHECK(registry.all().size() == 1);
}

TEST_CASE("registry: an id used twice in a frame is reported") {
  Registry registry;
  registry.begin_frame();
  registry.add(named("a"));
  registry.add(named("b"));
  registry.add(named("a"));
  registry.end_frame();
  CHECK(registry.duplicates() == std::vector<std::string>{"a"});
}

TEST_CASE("registry: the keyboard walks in drawing order, round and round, over what can have it") {
  Registry registry;
  registry.begin_frame();
  for (const auto& [id, focusable] : {std::pair{"a", true}, {"text", false}, {"b", true}, {"c", true}})
    registry.add(named(id, focusable));
  registry.end_frame();
  CHECK(registry.neighbour("a", 1) == "b");
  CHECK(registry.neighbour("c", 1) == "a");
  CHECK(registry.neighbour("a", -1) == "c");
  CHECK(registry.neighbour("", 1) == "a");
  CHECK(registry.neighbour("gone", -1) == "c");
}

TEST_CASE("registry: a dialog keeps the keyboard, and a list opened in it keeps it closer") {
  Registry registry;
  registry.begin_frame();
  registry.add(named("behind"));
  const std::size_t dialog = registry.begin_modal();
  registry.add(named("yes"));
  registry.add(named("no"));
  const std::size_t list = registry.begin_modal();
  registry.add(named("one"));
  registry.add(named("two"));
  registry.end_modal(list);
  registry.end_modal(dialog);
  registry.end_frame();
  CHECK(registry.has_modal());
  CHECK(registry.neighbour("two", 1) == "one");
  CHECK(registry.neighbour("behind", 1) == "one");

  registry.begin_frame();
  registry.add(named("behind"));
  const std::size_t again = registry.begin_modal();
  registry.add(named("yes"));
  registry.add(named("no"));
  registry.end_modal(again);
  registry.end_frame();
  CHECK(registry.neighbour("no", 1) == "yes");

  registry.begin_frame();
  registry.add(named("behind"));
  registry.add(named("other"));
  registry.end_frame();
  CHECK_FALSE(registry.has_modal());
  CHECK(registry.neighbour("behind", 1) == "other");
}

TEST_CASE("registry: requests are taken once, by the widget they name") {
  Registry registry;
  registry.request_focus("a");
  CHECK_FALSE(registry.take_focus_request("b"));
  CHECK(registry.take_focus_request("a"));
  CHECK_FALSE(registry.take_focus_request("a"));
  registry.point_at("c");
  CHECK(registry.pointed() == "c");
  CHECK(registry.take_scroll_request("c"));
  registry.point_at("c");
  CHECK_FALSE(registry.take_scroll_request("c"));
  registry.stop_pointing();
  CHECK(registry.pointed().empty());
}

TEST_CASE("geometry: strips and columns fill a rectangle without gaps or overlap beyond the gutter") {
  Rect rect{10.0F, 20.0F, 301.0F, 100.0F};
  const auto columns = rect.columns({1.0F, 2.0F, 0.5F}, 16.0F);
  REQUIRE(columns.size() == 3);
  CHECK(columns.front().x == 10.0F);
  CHECK(columns.back().right() == 311.0F);
  for (std::size_t i = 1; i < columns.size(); ++i) CHECK(columns[i].x == columns[i - 1].right() + 16.0F);
  const Rect top = rect.take_top(30.0F, 8.0F);
  CHECK(top.h == 30.0F);
  CHECK(rect.y == 58.0F);
  CHECK(rect.h == 62.0F);
  const Rect all = rect.take_bottom(500.0F, 8.0F);
  CHECK(all.h == 62.0F);
  CHECK(rect.h == 0.0F);
  const Rect cut = Rect{0.0F, 0.0F, 10.0F, 10.0F}.overlap({8.0F, 20.0F, 10.0F, 10.0F});
  CHECK(cut.w == 2.0F);
  CHECK(cut.h == 0.0F);
  CHECK(cut.empty());
}
