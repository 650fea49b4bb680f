#include "app/cli/records.h"
#include "app/records/items.h"

namespace stirbench::cli {

namespace {

nlohmann::json items_json(const records::LessonItems& one) {
  nlohmann::json items = nlohmann::json::array();
  for (std::size_t i = 0; i < one.items.size(); ++i)
    items.push_back({{"criterion", one.criteria[i]},
                     {"difficulty", one.items[i].difficulty},
                     {"discrimination", one.items[i].discrimination},
                     {"gain", one.items[i].gain},
                     {"tells", one.items[i].tells()}});
  return {{"lesson", one.lesson}, {"attempts", one.attempts},
          {"passed", one.passed}, {"enough", one.attempts >= records::fewest_for_items},
          {"alpha", one.alpha},   {"items", std::move(items)}};
}

void print_items(const records::LessonItems& one) {
  print(one.lesson + ": " + std::to_string(one.passed) + " of " + std::to_string(one.attempts) +
        " attempts passed, alpha " + fixed(one.alpha, 2) +
        (one.attempts < records::fewest_for_items
             ? " (fewer than " + std::to_string(records::fewest_for_items) + " attempts: figures of chance)"
             : ""));
  for (std::size_t i = 0; i < one.items.size(); ++i)
    print("  difficulty " + fixed(one.items[i].difficulty, 2) + "  discrimination " +
          fixed(one.items[i].discrimination, 2) + "  gain " + fixed(one.items[i].gain, 2) + "  " +
          one.criteria[i] +
          (one.attempts >= records::fewest_for_items && !one.items[i].tells() ? "  (tells nothing)" : ""));
}

}  // namespace

int records_items(const CommonOptions& common, const SignInOptions& asking, const std::string& lesson) {
  records::Store store = open_store(common);
  const records::Access who = sign_in(store, asking);
  const std::string denied = records::why_not(who, records::Right::see_attempts);
  if (!denied.empty()) throw Refusal(denied);
  nlohmann::json list = nlohmann::json::array();
  bool any = false;
  for (const records::LessonItems& one : records::items_of(store.attempts(std::nullopt))) {
    if (!lesson.empty() && one.lesson != lesson) continue;
    any = true;
    if (common.json)
      list.push_back(items_json(one));
    else
      print_items(one);
  }
  if (common.json) print_json({{"lessons", list}});
  if (!any && !common.json)
    print("No practice and no test is kept" + (lesson.empty() ? "." : " of " + lesson + "."));
  return exit_done;
}

}  // namespace stirbench::cli
