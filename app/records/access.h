#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Who may do what. The rules are in one table (access.cpp); every call of the store that needs a right takes
// an Access.
//
// A store without a manager is open: everyone may do everything, as on the first day. The rules apply from
// the first manager on. They control access through the program only; anyone who can read the files on the
// disk can read them without it.
namespace stirbench::records {

enum class Role : unsigned char { learner, instructor, manager, auditor };
std::string_view role_name(Role role);
std::optional<Role> role_of(std::string_view name);

// Who is asking, as Store::sign_in found it.
struct Access {
  std::int64_t person = 0;  // 0: nobody
  std::string uid;          // empty: nobody
  Role role = Role::learner;
  bool open = false;  // the store has no manager
};

enum class Right : unsigned char {
  see_attempts,  // of `about`; own ones always
  add_people,    // and import a roster
  set_roles,
  reset_pins,
  sign_seen,  // "seen at the machine"; never one's own
  edit_demands,
  certify,        // issue, renew, revoke; never one's own
  see_everybody,  // matrix, certificates, exports
  instruct,       // change conditions and faults in another person's run, mark what was seen in it
  keep_records,   // back up, restore, merge, anonymise
};

// Empty when `who` may; else why not and who may, one sentence. `about`: the person it is about, 0 when about
// nobody.
std::string why_not(const Access& who, Right right, std::int64_t about = 0);

}  // namespace stirbench::records
