#include "app/reports/xapi.h"

#include <cmath>
#include <map>
#include <stdexcept>

#include "app/records/hash.h"
#include "sim_core/bytes/hash64.h"

namespace stirbench::reports {

namespace {

using Json = nlohmann::json;

Json verb(const char* iri, const char* word) { return {{"id", iri}, {"display", {{"en-US", word}}}}; }

Json agent(const std::string& uid, const std::string& home) {
  return {{"objectType", "Agent"}, {"account", {{"homePage", home}, {"name", uid}}}};
}

Json activity(const std::string& iri, const std::string& name, const char* type) {
  return {
      {"objectType", "Activity"},
      {"id", iri},
      {"definition",
       {{"name", {{"en-US", name}}}, {"type", std::string("http://adlnet.gov/expapi/activities/") + type}}}};
}

// "2026-11-25T07:00:00Z" -> "2026-11-25T07:00:00.000Z"
std::string with_milliseconds(const std::string& utc) {
  return !utc.empty() && utc.back() == 'Z' && utc.find('.') == std::string::npos
             ? utc.substr(0, utc.size() - 1) + ".000Z"
             : utc;
}

// An id as a part of an IRI (RFC 3986: unreserved characters stay, the rest is percent-encoded).
std::string iri_part(const std::string& id) {
  std::string out;
  for (const char c : id) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '-' || c == '_' || c == '.' || c == '~';
    out += plain ? c : '%';
    if (!plain) bytes::append_hex8(out, byte, bytes::upper_digits);
  }
  return out;
}

// A lasting identity for a statement that has none of its own.
std::string derived_uuid(const std::string& from) {
  std::string hex = records::sha256_hex("xapi " + from).substr(0, 32);
  hex[12] = '5';
  hex[16] = "89ab"[static_cast<std::size_t>(hex[16]) % 4];
  return hex.substr(0, 8) + "-" + hex.substr(8, 4) + "-" + hex.substr(12, 4) + "-" + hex.substr(16, 4) + "-" +
         hex.substr(20);
}

}  // namespace

std::string duration_text(double seconds) {
  const auto hundredths = static_cast<long long>(std::llround(std::max(0.0, seconds) * 100.0));
  std::string out = "PT" + std::to_string(hundredths / 100);
  const long long rest = hundredths % 100;
  if (rest != 0) {
    std::string digits = std::to_string(100 + rest).substr(1);
    if (digits.back() == '0') digits.pop_back();
    out += "." + digits;
  }
  return out + "S";
}

Json attempt_statement(const records::Attempt& a, const std::string& person_uid,
                       const library::Library& library, const std::string& home) {
  const auto lesson = library.lessons.find(a.lesson);
  const bool test = records::counts_for_certificate(a.mode);
  // Practice is completed; only a test passes or fails somebody.
  const Json done = !test      ? verb("http://adlnet.gov/expapi/verbs/completed", "completed")
                    : a.passed ? verb("http://adlnet.gov/expapi/verbs/passed", "passed")
                               : verb("http://adlnet.gov/expapi/verbs/failed", "failed");
  Json result = {{"score", {{"scaled", a.score_norm}}},
                 {"success", a.passed},
                 {"completion", true},
                 {"duration", duration_text(a.simulated_s)},
                 {"extensions",
                  {{home + "/xapi/journal_sha256", a.journal_sha256},
                   {home + "/xapi/lesson_hash", a.lesson_hash},
                   {home + "/xapi/must_pass_missed", a.musts_missed}}}};
  return {
      {"id", a.uid},
      {"actor", agent(person_uid, home)},
      {"verb", done},
      {"object", activity(home + "/lesson/" + iri_part(a.lesson),
                          lesson == library.lessons.end() ? a.lesson : lesson->second.title, "simulation")},
      {"result", std::move(result)},
      {"context",
       {{"platform", "Stirbench"},
        {"contextActivities",
         {{"category", Json::array({activity(home + "/mode/" + iri_part(a.mode), a.mode, "profile")})}}}}},
      {"timestamp", with_milliseconds(a.started_utc)}};
}

Json certificate_statement(const records::Certificate& c, const std::string& person_uid,
                           const std::string& title, const std::string& home) {
  return {{"id", c.uid},
          {"actor", agent(person_uid, home)},
          {"verb", verb("https://w3id.org/xapi/adl/verbs/satisfied", "satisfied")},
          {"object", activity(home + "/demand/" + iri_part(c.demand), title, "objective")},
          {"result",
           {{"extensions",
             {{home + "/xapi/valid_until", c.until_utc},
              {home + "/xapi/certificate_sha256", records::sha256_hex(c.file)}}}}},
          {"timestamp", with_milliseconds(c.issued_utc)}};
}

Json voiding_statement(const records::Certificate& c, const std::string& issuer_uid,
                       const std::string& home) {
  return {{"id", derived_uuid(c.uid)},
          {"actor", agent(issuer_uid, home)},
          {"verb", verb("http://adlnet.gov/expapi/verbs/voided", "voided")},
          {"object", {{"objectType", "StatementRef"}, {"id", c.uid}}},
          {"timestamp", with_milliseconds(c.changed_utc)}};
}

Json all_statements(records::Store& store, const library::Library& library, const std::string& home) {
  std::map<std::int64_t, std::string> uids;
  for (const records::Person& one : store.people(true)) uids[one.id] = one.uid;
  Json out = Json::array();
  std::vector<records::Attempt> attempts = store.attempts(std::nullopt);
  for (auto it = attempts.rbegin(); it != attempts.rend(); ++it) {
    if (it->finished) out.push_back(attempt_statement(*it, uids[it->person], library, home));
  }
  for (const records::Certificate& c : store.certificates()) {
    const auto demand = library.demands.find(c.demand);
    out.push_back(certificate_statement(
        c, uids[c.person], demand == library.demands.end() ? c.demand : demand->second.title, home));
    if (c.state == records::CertificateState::revoked)
      out.push_back(voiding_statement(c, uids[c.issuer], home));
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    const std::string wrong = why_not_statement(out[i]);
    if (!wrong.empty()) throw std::logic_error("statement " + std::to_string(i) + wrong);
  }
  return out;
}

}  // namespace stirbench::reports
