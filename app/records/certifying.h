#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "app/records/certificate.h"
#include "app/records/store.h"

// From the records to who is safe at what, until when, and to certificates. Combines content (lessons,
// skills, demands) and records.
namespace stirbench::records {

// Shipped demands, and those a manager changed in their place. One that the records keep and that no longer
// reads is left out; its problem goes to `problems` when given.
std::map<std::string, training::Demand> demands_in_force(Store& store, const library::Library& library,
                                                         std::string* problems = nullptr);

// Checks it as content is checked, then keeps it. StoreError with the located problems when it is not good.
void keep_demand(Store& store, const Access& who, const library::Library& library,
                 const training::Demand& demand);

enum class StandingState : unsigned char { not_yet, valid, due, lapsed };  // due: within due_days
inline constexpr int due_days = 30;

struct SkillStanding {
  StandingState state = StandingState::not_yet;
  std::int64_t until_s = 0;  // valid, due, lapsed
  training::SkillVerdict verdict;
  bool stuck = false;  // a closed series, or three tests failed and none passed
};

// One person against a demand's skills.
struct Standing {
  Person person;
  std::map<std::string, SkillStanding> cells;  // by skill, of the demand
  training::DemandState demand;
  std::optional<Certificate> certificate;  // the newest of this demand that was neither revoked nor renewed
  std::int64_t certified_until_s = 0;      // 0: no certificate
  bool may_work = false;                   // holds a certificate that is valid now
};

// Everybody (or one person) against one demand. Reads attempts, what was seen and certificates once.
std::vector<Standing> standings(Store& store, const library::Library& library, const training::Demand& demand,
                                std::optional<std::int64_t> person = std::nullopt);

// Issues a certificate when the demand is met: signs it with the site's key (made when there is none), keeps
// it. StoreError that lists what is missing, or that the person may not. `renews`: the serial of the one it
// follows, or empty.
Certificate issue_certificate(Store& store, const Access& who, const library::Library& library,
                              const training::Demand& demand, std::int64_t person, const std::string& program,
                              const std::string& renews = "");

// The evidence behind a cell: attempts by number, newest first.
std::vector<Attempt> evidence_of(Store& store, const SkillStanding& cell);

}  // namespace stirbench::records
