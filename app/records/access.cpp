#include "app/records/access.h"

#include <array>

namespace stirbench::records {

namespace {

struct Rule {
  Right right;
  bool instructor;
  bool manager;
  bool auditor;
  bool own;        // about oneself: always
  bool never_own;  // about oneself: never
  const char* what;
};

constexpr std::array<Rule, 10> rules{{
    {Right::see_attempts, true, true, true, true, false, "see another person's attempts"},
    {Right::add_people, true, true, false, false, false, "add people"},
    {Right::set_roles, false, true, false, false, true, "give roles"},
    {Right::reset_pins, false, true, false, false, true, "give a new PIN to somebody"},
    {Right::sign_seen, true, true, false, false, true, "sign that somebody was seen at the machine"},
    {Right::edit_demands, false, true, false, false, false, "change what a certificate demands"},
    {Right::certify, false, true, false, false, true, "issue, renew or revoke a certificate"},
    {Right::see_everybody, true, true, true, false, false, "see the table of everybody"},
    {Right::instruct, true, true, false, false, true, "guide somebody's run as an instructor"},
    {Right::keep_records, false, true, false, false, false, "back up, restore, merge or remove records"},
}};

std::string who_may(const Rule& rule) {
  std::string out;
  const auto add = [&out](bool may, const char* name) {
    if (may) out += (out.empty() ? "" : ", ") + std::string(name);
  };
  add(rule.manager, "a manager");
  add(rule.instructor, "an instructor");
  add(rule.auditor, "an auditor");
  return out;
}

}  // namespace

std::string_view role_name(Role role) {
  switch (role) {
    case Role::learner: return "learner";
    case Role::instructor: return "instructor";
    case Role::manager: return "manager";
    case Role::auditor: return "auditor";
  }
  return "learner";
}

std::optional<Role> role_of(std::string_view name) {
  for (const Role role : {Role::learner, Role::instructor, Role::manager, Role::auditor}) {
    if (role_name(role) == name) return role;
  }
  return std::nullopt;
}

std::string why_not(const Access& who, Right right, std::int64_t about) {
  for (const Rule& rule : rules) {
    if (rule.right != right) continue;
    const bool own = about != 0 && about == who.person;
    if (own && rule.never_own && !(who.open && right == Right::set_roles))
      return "Nobody may do this for themselves: " + std::string(rule.what) + ".";
    if (who.open || (own && rule.own)) return {};
    const bool may = (who.role == Role::instructor && rule.instructor) ||
                     (who.role == Role::manager && rule.manager) ||
                     (who.role == Role::auditor && rule.auditor);
    if (who.person != 0 && may) return {};
    return "To " + std::string(rule.what) + " takes " + who_may(rule) +
           (who.person == 0 ? ", signed in with a PIN." : ".");
  }
  return "This is not allowed.";
}

}  // namespace stirbench::records
