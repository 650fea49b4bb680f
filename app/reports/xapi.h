#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "app/library/library.h"
#include "app/records/store.h"

// Statements for a learning record store: xAPI 1.0.3 (adlnet/xAPI-Spec, xAPI-Data), written so that 2.0 (IEEE
// 9274.1.1) takes them too: UTC timestamps with "Z" and milliseconds. Not cmi5: nothing launched us.
//
// People appear under an account with an opaque name (their uid), never by name. An attempt's statement has
// the attempt's own uid as its id, so that exporting twice makes no second statement.
namespace stirbench::reports {

// Base address of activities and accounts; a site gives its own. RFC 2606 reserves .invalid.
inline constexpr const char* default_home = "https://stirbench.invalid";

// One finished attempt: attempted and passed or failed, score, duration.
nlohmann::json attempt_statement(const records::Attempt& attempt, const std::string& person_uid,
                                 const library::Library& library, const std::string& home);
// A certificate issued: satisfied. A revoked one: the statement that voids it.
nlohmann::json certificate_statement(const records::Certificate& certificate, const std::string& person_uid,
                                     const std::string& title, const std::string& home);
nlohmann::json voiding_statement(const records::Certificate& certificate, const std::string& issuer_uid,
                                 const std::string& home);

// Everything that is kept, as one JSON array: finished attempts, then certificates. Throws std::logic_error
// naming a statement that the rules refuse (ours must all pass).
nlohmann::json all_statements(records::Store& store, const library::Library& library,
                              const std::string& home);

// Empty when the statement keeps the rules; else "PATH: expected ..., found ...". Stricter than the published
// schema: nulls, wrong key case, unknown keys, raw outside min..max, IRIs without scheme, durations and
// timestamps by the specification.
std::string why_not_statement(const nlohmann::json& statement);
bool is_duration(std::string_view text);   // ISO 8601 by designators; weeks stand alone
bool is_timestamp(std::string_view text);  // RFC 3339; offsets of minus zero are refused

// Seconds as "PT1234.5S", at most hundredths.
std::string duration_text(double seconds);

}  // namespace stirbench::reports
