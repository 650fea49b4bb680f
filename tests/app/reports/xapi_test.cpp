#include "app/reports/xapi.h"

#include <doctest/doctest.h>

#include "tests/support/files.h"

using namespace stirbench;
using nlohmann::json;
using reports::why_not_statement;

namespace {

// Source: xAPI-Data 1.0.3, appendix A (adlnet/xAPI-Spec): the example of a simple statement.
json official() {
  return json::parse(
      R"({"id": "7ccd3322-e1a5-411a-a67d-6a735c76f119", "timestamp": "2015-12-18T12:17:00+00:00",
    "actor": {"objectType": "Agent", "name": "Example Learner", "mbox": "mailto:example.learner@adlnet.gov"},
    "verb": {"id": "http://adlnet.gov/expapi/verbs/attempted", "display": {"en-US": "attempted"}},
    "object": {"id": "http://example.adlnet.gov/xapi/example/simpleCBT",
      "definition": {"name": {"en-US": "simple CBT course"}, "description": {"en-US": "A fictitious example CBT course."}}},
    "result": {"score": {"scaled": 0.95}, "success": true, "completion": true, "duration": "PT1234S"}})");
}

json with(const char* pointer, const json& value) {
  json s = official();
  s[json::json_pointer(pointer)] = value;
  return s;
}

json without(const char* key) {
  json s = official();
  s.erase(key);
  return s;
}

}  // namespace

TEST_CASE("the official example and the smallest statement keep the rules") {
  CHECK(why_not_statement(official()) == "");
  CHECK(why_not_statement(
            json::parse(R"({"id": "7ccd3322-e1a5-411a-a67d-6a735c76f119", "actor": {"mbox": "mailto:a@b.org"},
    "verb": {"id": "http://adlnet.gov/expapi/verbs/attempted", "display": {"en": "attempted"}},
    "object": {"id": "http://example.org/a"}})")) == "");
}

// Source: adlnet/lrs-conformance-test-suite (commit 2ec25f2): what it takes and what it refuses.
TEST_CASE("conformance vectors: scores, durations, identities") {
  for (const double good : {1.0, -1.0, 0.0})
    CHECK(why_not_statement(with("/result/score/scaled", good)) == "");
  for (const double bad : {1.01, -1.00001}) CHECK(why_not_statement(with("/result/score/scaled", bad)) != "");
  CHECK(why_not_statement(with("/result/score", {{"raw", 5}, {"min", 0}, {"max", 10}})) == "");
  CHECK(why_not_statement(with("/result/score", {{"raw", 11}, {"min", 0}, {"max", 10}})) != "");
  CHECK(why_not_statement(with("/result/score", {{"raw", -1}, {"min", 0}, {"max", 10}})) != "");
  CHECK(why_not_statement(with("/result/score", {{"min", 10}, {"max", 0}})) != "");
  CHECK(why_not_statement(with("/result/score/scaled", "0.9")) != "");
  for (const char* good :
       {"PT4H35M59.14S", "PT16559.14S", "P3Y1M29DT4H35M59.14S", "P3Y", "P4W", "PT1H0M0.1S", "PT1.234S"}) {
    CAPTURE(good);
    CHECK(reports::is_duration(good));
  }
  for (const char* bad : {"P4W1D", "PA1H0M0S", "P", "PT", "P1H", "1H", "", "PYT1S", "PT5HS", "P1DT"}) {
    CAPTURE(bad);
    CHECK_FALSE(reports::is_duration(bad));
  }
  for (const json& bad : {json(12), json::object(), json("plain text")})
    CHECK(why_not_statement(with("/result/duration", bad)) != "");
  for (const char* bad : {"7ccd3322-e1a5-411a-a67d-6a735c76f11", "7ccd3322-e1a5-411a-a67d-6a735c76f1199",
                          "7ccd3322-e1a5-411a-a67d-6a735c76f11g", "x"}) {
    CAPTURE(bad);
    CHECK(why_not_statement(with("/id", bad)) != "");
  }
}

TEST_CASE("conformance vectors: actors, verbs, keys, nulls, timestamps, voiding") {
  CHECK(why_not_statement(with("/actor/account", {{"homePage", "https://a.org"}, {"name", "x"}})) !=
        "");  // two identities
  CHECK(why_not_statement(with("/actor", {{"name", "Nobody"}})) != "");
  CHECK(why_not_statement(with("/actor", {{"mbox", "a@b.org"}})) != "");
  CHECK(why_not_statement(with("/actor", {{"account", {{"homePage", "no-scheme"}, {"name", "x"}}}})) != "");
  CHECK(why_not_statement(with("/actor", {{"account", {{"homePage", "https://a.org"}, {"name", "x"}}}})) ==
        "");
  CHECK(why_not_statement(with("/verb/id", "attempted")) != "");
  CHECK(why_not_statement(with("/verb/display", "attempted")) != "");
  CHECK(why_not_statement(with("/Verb", official()["verb"])) != "");
  CHECK(why_not_statement(with("/extra", 1)) != "");
  CHECK(why_not_statement(with("/result/success", nullptr)) != "");
  CHECK(why_not_statement(with("/result/success", "true")) != "");
  CHECK(why_not_statement(with("/result/extensions", {{"https://a.org/x", nullptr}})) ==
        "");  // nulls may stand in extensions
  CHECK(why_not_statement(with("/result/extensions", {{"x", 1}})) != "");
  for (const char* key : {"actor", "verb", "object"}) CHECK(why_not_statement(without(key)) != "");
  for (const char* good :
       {"2015-12-18T12:17:00+00:00", "2026-11-25T07:00:00.000Z", "2026-11-25T07:00:00-05:00"})
    CHECK(reports::is_timestamp(good));
  for (const char* bad : {"2015-12-18T12:17:00-00:00", "2015-12-18T12:17:00-0000", "2015-12-18T12:17:00-00",
                          "2015-13-18T12:17:00Z", "yesterday"}) {
    CAPTURE(bad);
    CHECK_FALSE(reports::is_timestamp(bad));
  }
  json voids = with("/verb/id", "http://adlnet.gov/expapi/verbs/voided");
  CHECK(why_not_statement(voids) != "");
  voids["object"] = {{"objectType", "StatementRef"}, {"id", "7ccd3322-e1a5-411a-a67d-6a735c76f119"}};
  CHECK(why_not_statement(voids) == "");
  voids["context"] = {{"platform", "Stirbench"}};
  CHECK(why_not_statement(voids) != "");  // platform only beside an activity
}

TEST_CASE("durations are written one way, to the hundredth") {
  CHECK(reports::duration_text(1234.0) == "PT1234S");
  CHECK(reports::duration_text(0.1) == "PT0.1S");
  CHECK(reports::duration_text(59.999) == "PT60S");
  CHECK(reports::duration_text(12.34) == "PT12.34S");
  for (const double s : {0.0, 0.005, 7.05, 86400.5}) CHECK(reports::is_duration(reports::duration_text(s)));
}
