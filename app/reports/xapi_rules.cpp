#include <regex>
#include <set>

#include "app/reports/xapi.h"

// The rules a statement must keep (xAPI 1.0.3, xAPI-Data), with what the published schema leaves out.
namespace stirbench::reports {

namespace {

using Json = nlohmann::json;
using Keys = std::set<std::string>;

// The first broken rule ends the look.
struct Broken {
  std::string text;
};

class Rules {
 public:
  void statement(const Json& s, const std::string& path, bool sub = false) {
    object(s, path,
           {"id", "actor", "verb", "object", "result", "context", "timestamp", "stored", "authority",
            "version", "attachments", "objectType"});
    if (s.contains("id")) uuid(s["id"], path + "/id");
    if (!sub && s.contains("objectType")) fail(path + "/objectType", "nothing", s["objectType"]);
    actor(need(s, "actor", path), path + "/actor");
    const Json& v = need(s, "verb", path);
    object(v, path + "/verb", {"id", "display"});
    iri(need(v, "id", path + "/verb"), path + "/verb/id");
    if (v.contains("display")) words(v["display"], path + "/verb/display");
    const Json& o = need(s, "object", path);
    target(o, path + "/object");
    const bool is_activity = o.value("objectType", std::string("Activity")) == "Activity";
    if (v["id"] == "http://adlnet.gov/expapi/verbs/voided" &&
        o.value("objectType", std::string()) != "StatementRef")
      fail(path + "/object", "a StatementRef to void", o);
    if (s.contains("result")) result(s["result"], path + "/result");
    if (s.contains("context")) context(s["context"], path + "/context", is_activity);
    for (const char* key : {"timestamp", "stored"}) {
      if (s.contains(key)) timestamp(s[key], path + "/" + key);
    }
    if (s.contains("authority")) actor(s["authority"], path + "/authority");
    if (s.contains("version"))
      matches(s["version"], path + "/version", R"(1\.0(\.\d+)?|2\.0(\.\d+)?)", "a version 1.0.x or 2.0.x");
  }

 private:
  [[noreturn]] static void fail(const std::string& path, const std::string& expected, const Json& found) {
    throw Broken{path + ": expected " + expected + ", found " +
                 found.dump(-1, ' ', false, Json::error_handler_t::replace)};
  }

  static const Json& need(const Json& from, const char* key, const std::string& path) {
    if (!from.contains(key)) fail(path + "/" + key, "a value", Json("nothing"));
    return from[key];
  }

  static void object(const Json& j, const std::string& path, const Keys& known) {
    if (!j.is_object()) fail(path, "an object", j);
    for (const auto& item : j.items()) {
      if (known.count(item.key()) == 0) fail(path + "/" + item.key(), "a known key", Json(item.key()));
      if (item.value().is_null()) fail(path + "/" + item.key(), "a value", item.value());
    }
  }

  static const std::string& text(const Json& j, const std::string& path) {
    if (!j.is_string()) fail(path, "text", j);
    return j.get_ref<const std::string&>();
  }

  static void matches(const Json& j, const std::string& path, const char* pattern, const char* expected) {
    if (!std::regex_match(text(j, path), std::regex(pattern))) fail(path, expected, j);
  }

  static void uuid(const Json& j, const std::string& path) {
    matches(j, path, "[0-9a-fA-F]{8}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{12}", "a UUID");
  }
  static void iri(const Json& j, const std::string& path) {
    matches(j, path, R"([A-Za-z][A-Za-z0-9+.\-]*:[^\s<>"{}|\\^`]+)", "an IRI with a scheme");
  }
  static void timestamp(const Json& j, const std::string& path) {
    if (!is_timestamp(text(j, path))) fail(path, "an RFC 3339 timestamp", j);
  }

  static void words(const Json& j, const std::string& path) {
    if (!j.is_object()) fail(path, "a language map", j);
    for (const auto& item : j.items()) {
      static const std::regex tag("[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*");
      if (!std::regex_match(item.key(), tag)) fail(path, "language tags as keys", Json(item.key()));
      (void)text(item.value(), path + "/" + item.key());
    }
  }

  static void extensions(const Json& j, const std::string& path) {
    if (!j.is_object()) fail(path, "an object", j);
    for (const auto& item : j.items()) iri(Json(item.key()), path);
  }

  void actor(const Json& j, const std::string& path) {
    object(j, path, {"objectType", "name", "member", "mbox", "mbox_sha1sum", "openid", "account"});
    const bool group = j.contains("objectType") && j["objectType"] == "Group";
    if (j.contains("objectType") && !group && j["objectType"] != "Agent")
      fail(path + "/objectType", "Agent or Group", j["objectType"]);
    if (j.contains("name")) (void)text(j["name"], path + "/name");
    int identities = 0;
    for (const char* key : {"mbox", "mbox_sha1sum", "openid", "account"})
      identities += j.contains(key) ? 1 : 0;
    if (identities > 1 || (identities == 0 && !(group && j.contains("member"))))
      fail(path, "exactly one of mbox, mbox_sha1sum, openid, account", j);
    if (j.contains("mbox"))
      matches(j["mbox"], path + "/mbox", R"(mailto:[^\s@]+@[^\s@]+)", "mailto: and an address");
    if (j.contains("mbox_sha1sum"))
      matches(j["mbox_sha1sum"], path + "/mbox_sha1sum", "[0-9a-fA-F]{40}", "40 hex digits");
    if (j.contains("openid")) iri(j["openid"], path + "/openid");
    if (j.contains("member")) {
      if (!group || !j["member"].is_array()) fail(path + "/member", "a list, in a group", j["member"]);
      for (const Json& one : j["member"]) actor(one, path + "/member");
    }
    if (!j.contains("account")) return;
    object(j["account"], path + "/account", {"homePage", "name"});
    iri(need(j["account"], "homePage", path + "/account"), path + "/account/homePage");
    if (text(need(j["account"], "name", path + "/account"), path + "/account/name").empty())
      fail(path + "/account/name", "text", j["account"]);
  }

  void target(const Json& j, const std::string& path) {
    if (!j.is_object()) fail(path, "an object", j);
    const std::string type =
        j.contains("objectType") ? text(j["objectType"], path + "/objectType") : "Activity";
    if (type == "Activity") return activity(j, path);
    if (type == "Agent" || type == "Group") return actor(j, path);
    if (type == "StatementRef") {
      object(j, path, {"objectType", "id"});
      return uuid(need(j, "id", path), path + "/id");
    }
    if (type == "SubStatement") return statement(j, path, true);
    fail(path + "/objectType", "Activity, Agent, Group, StatementRef or SubStatement", j["objectType"]);
  }

  void activity(const Json& j, const std::string& path) {
    object(j, path, {"objectType", "id", "definition"});
    iri(need(j, "id", path), path + "/id");
    if (!j.contains("definition")) return;
    const Json& d = j["definition"];
    object(d, path + "/definition",
           {"name", "description", "type", "moreInfo", "extensions", "interactionType",
            "correctResponsesPattern", "choices", "scale", "source", "target", "steps"});
    for (const char* key : {"name", "description"}) {
      if (d.contains(key)) words(d[key], path + "/definition/" + key);
    }
    for (const char* key : {"type", "moreInfo"}) {
      if (d.contains(key)) iri(d[key], path + "/definition/" + key);
    }
    if (d.contains("extensions")) extensions(d["extensions"], path + "/definition/extensions");
  }

  static void number(const Json& j, const char* key, const std::string& path) {
    if (j.contains(key) && !j[key].is_number()) fail(path + "/" + key, "a number", j[key]);
  }

  static void result(const Json& j, const std::string& path) {
    object(j, path, {"score", "success", "completion", "response", "duration", "extensions"});
    if (j.contains("score")) {
      const Json& s = j["score"];
      object(s, path + "/score", {"scaled", "raw", "min", "max"});
      for (const char* key : {"scaled", "raw", "min", "max"}) number(s, key, path + "/score");
      if (s.contains("scaled") && std::abs(s["scaled"].get<double>()) > 1.0)
        fail(path + "/score/scaled", "-1 .. 1", s["scaled"]);
      if (s.contains("min") && s.contains("max") && !(s["min"].get<double>() < s["max"].get<double>()))
        fail(path + "/score", "min below max", s);
      if (s.contains("raw") && s.contains("max") && s["raw"].get<double>() > s["max"].get<double>())
        fail(path + "/score/raw", "at most max", s["raw"]);
      if (s.contains("raw") && s.contains("min") && s["raw"].get<double>() < s["min"].get<double>())
        fail(path + "/score/raw", "at least min", s["raw"]);
    }
    for (const char* key : {"success", "completion"}) {
      if (j.contains(key) && !j[key].is_boolean()) fail(path + "/" + key, "true or false", j[key]);
    }
    if (j.contains("response")) (void)text(j["response"], path + "/response");
    if (j.contains("duration") && !is_duration(text(j["duration"], path + "/duration")))
      fail(path + "/duration", "an ISO 8601 duration", j["duration"]);
    if (j.contains("extensions")) extensions(j["extensions"], path + "/extensions");
  }

  void context(const Json& j, const std::string& path, bool about_activity) {
    object(j, path,
           {"registration", "instructor", "team", "contextActivities", "revision", "platform", "language",
            "statement", "extensions", "contextAgents", "contextGroups"});
    if (j.contains("registration")) uuid(j["registration"], path + "/registration");
    for (const char* key : {"instructor", "team"}) {
      if (j.contains(key)) actor(j[key], path + "/" + key);
    }
    for (const char* key : {"revision", "platform"}) {
      if (!j.contains(key)) continue;
      (void)text(j[key], path + "/" + key);
      if (!about_activity) fail(path + "/" + key, "nothing beside an object that is no activity", j[key]);
    }
    if (j.contains("extensions")) extensions(j["extensions"], path + "/extensions");
    if (!j.contains("contextActivities")) return;
    object(j["contextActivities"], path + "/contextActivities", {"parent", "grouping", "category", "other"});
    for (const auto& item : j["contextActivities"].items()) {
      const std::string here = path + "/contextActivities/" + item.key();
      if (item.value().is_object())
        activity(item.value(), here);
      else if (!item.value().is_array())
        fail(here, "a list of activities", item.value());
      else
        for (const Json& one : item.value()) activity(one, here);
    }
  }
};

}  // namespace

bool is_duration(std::string_view text) {
  // Weeks stand alone; else at least one part, and after T at least one; only the last part may have a
  // fraction.
  static const std::regex weeks(R"(P\d+(\.\d+)?W)");
  static const std::regex parts(R"(P(?=\d|T\d)(\d+Y)?(\d+M)?(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+(\.\d+)?S)?)?)");
  const std::string copy(text);
  return std::regex_match(copy, weeks) || std::regex_match(copy, parts);
}

bool is_timestamp(std::string_view text) {
  static const std::regex shape(
      R"((\d{4})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])[T ]([01]\d|2[0-3]):[0-5]\d:([0-5]\d|60)(\.\d+)?(Z|[+-]([01]\d|2[0-3]):?[0-5]\d|[+-]([01]\d|2[0-3]))?)");
  const std::string copy(text);
  if (!std::regex_match(copy, shape)) return false;
  for (const char* minus_zero : {"-00", "-0000", "-00:00"}) {
    if (copy.size() > 19 && copy.substr(19).find('-') != std::string::npos && copy.ends_with(minus_zero))
      return false;
  }
  return true;
}

std::string why_not_statement(const Json& statement) {
  try {
    Rules().statement(statement, "");
  } catch (const Broken& broken) {
    return broken.text;
  }
  return {};
}

}  // namespace stirbench::reports
