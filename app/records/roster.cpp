#include "app/records/roster.h"

#include <algorithm>
#include <set>

#include "app/records/csv.h"
#include "app/records/names.h"
#include "app/records/store_internal.h"

namespace stirbench::records {

namespace {

constexpr std::size_t most_lines = 20000;

std::string heading(const std::string& cell) { return name_key(trimmed(cell)); }

RosterLine judge(const CsvRow& row, std::size_t name_at, std::size_t number_at,
                 const std::vector<Person>& people, std::set<std::string>& names,
                 std::set<std::string>& numbers) {
  RosterLine line;
  line.line = row.line;
  line.name = name_at < row.cells.size() ? trimmed(row.cells[name_at]) : "";
  line.number = number_at < row.cells.size() ? trimmed(row.cells[number_at]) : "";
  const auto wrong = [&line](const std::string& why) {
    line.step = RosterStep::wrong;
    line.why = why;
    return line;
  };
  const std::string trouble = why_not_name(line.name);
  if (!trouble.empty()) return wrong(trouble);
  if (looks_like_formula(line.name) || looks_like_formula(line.number))
    return wrong("expected a name and a number, found what a spreadsheet takes for a formula");
  if (!line.number.empty() && !why_not_name(line.number).empty())
    return wrong("The number is not plain text.");
  if (!names.insert(name_key(line.name)).second) return wrong("expected each name once, found it again");
  if (!line.number.empty() && !numbers.insert(line.number).second)
    return wrong("expected each number once, found it again");
  for (const Person& person : people) {
    const bool same_name = name_key(person.name) == name_key(line.name);
    const bool same_number = !line.number.empty() && person.number == line.number;
    if (same_number && !same_name)
      return wrong("number " + line.number + " belongs to " + person.name + " already");
    if (!same_name) continue;
    line.step = RosterStep::known;
    line.why = person.name;
  }
  return line;
}

}  // namespace

bool RosterPlan::good() const {
  return problem.empty() && std::none_of(lines.begin(), lines.end(),
                                         [](const RosterLine& one) { return one.step == RosterStep::wrong; });
}

int RosterPlan::to_add() const {
  return static_cast<int>(std::count_if(lines.begin(), lines.end(),
                                        [](const RosterLine& one) { return one.step == RosterStep::add; }));
}

RosterPlan plan_roster(Store& store, const std::string& csv) {
  RosterPlan plan;
  const CsvFile file = read_csv(csv);
  plan.problem = file.problem;
  if (plan.problem.empty() && file.rows.empty())
    plan.problem = "line 1: expected a heading \"name\", found nothing";
  if (plan.problem.empty() && file.rows.size() > most_lines)
    plan.problem = "expected at most " + std::to_string(most_lines) + " lines, found " +
                   std::to_string(file.rows.size());
  if (!plan.problem.empty()) return plan;
  const std::vector<std::string>& head = file.rows.front().cells;
  std::size_t name_at = head.size();
  std::size_t number_at = static_cast<std::size_t>(-1);
  for (std::size_t i = 0; i < head.size(); ++i) {
    if (heading(head[i]) == "name")
      name_at = i;
    else if (heading(head[i]) == "number")
      number_at = i;
    else
      plan.ignored.push_back(trimmed(head[i]));
  }
  if (name_at == head.size()) {
    plan.problem = "line 1: expected a heading \"name\", found \"" + trimmed(head.front()) + "\"";
    return plan;
  }
  const std::vector<Person> people = store.people();
  std::set<std::string> names, numbers;
  for (std::size_t i = 1; i < file.rows.size(); ++i)
    plan.lines.push_back(judge(file.rows[i], name_at, number_at, people, names, numbers));
  return plan;
}

int take_roster(Store& store, const Access& who, const RosterPlan& plan) {
  require(who, Right::add_people);
  if (!plan.good())
    throw StoreError("The roster is not taken over: something in it is wrong. Nothing was changed.");
  Store::Impl& impl = store.impl();
  return impl.changed([&] {
    int added = 0;
    for (const RosterLine& line : plan.lines) {
      if (line.step != RosterStep::add) continue;
      int taken = 0;
      const std::string key = name_key(line.name);
      impl.sql << "SELECT count(*) FROM person WHERE name_key = :key", soci::use(key), soci::into(taken);
      if (taken != 0)
        throw StoreError("Meanwhile somebody has the name \"" + line.name +
                         "\". Look at the roster again; nothing was changed.");
      const std::string uid = random_uuid();
      insert_row(impl.sql, table_named("person"),
                 {uid, line.name, line.number, "learner", "", random_hex(16), 0},
                 [](const std::string&) { return 0LL; });
      impl.log(who, "person_added", "person", uid);
      ++added;
    }
    return added;
  });
}

}  // namespace stirbench::records
