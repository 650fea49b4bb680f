#include <algorithm>
#include <ctime>
#include <filesystem>

#include "app/cli/certify.h"
#include "app/library/reading/paths.h"
#include "app/records/certifying.h"
#include "app/records/names.h"
#include "app/reports/export.h"
#include "app/reports/papers.h"
#include "app/reports/push.h"
#include "app/reports/xapi.h"

// Verifying needs no records and no network; exports need the role.
namespace stirbench::cli {

namespace {

// Empty: in force. Else why it is not to be relied on, although nothing was changed in it.
std::string why_not_valid(const CommonOptions& common, const CertifyOptions& o,
                          const records::CertificateCheck& check, std::int64_t now_s,
                          std::string& key_known) {
  const std::string own = library::data_dir(common.data_dir);
  std::error_code error;
  key_known = "not compared";
  if (!o.key.empty()) {
    std::string wanted;
    for (const char c : o.key) {
      if (c != ' ') wanted += c;
    }
    std::string print;
    for (const char c : check.key_print) {
      if (c != ' ') print += c;
    }
    if (wanted != print && wanted != records::to_base64(check.public_key))
      return "it was signed by another key than the one given";
    key_known = "the one given";
  } else if (std::filesystem::exists(own + "/site.key", error) &&
             records::site_key(own, false).public_key == check.public_key) {
    key_known = "this site's";
  }
  const std::int64_t until = records::utc_seconds(check.text.until_utc);
  if (until < 0 || until <= now_s) return "it expired on " + check.text.until_utc.substr(0, 10);
  if (!std::filesystem::exists(own + "/records.sqlite", error) &&
      !std::filesystem::exists(own + "/database", error))
    return {};
  try {
    records::Store store(own);
    for (const auto& one : store.certificates()) {
      if (one.uid != check.text.serial) continue;
      if (one.state == records::CertificateState::revoked)
        return "it was revoked on " + one.changed_utc.substr(0, 10) + ": " + one.reason;
      if (one.state == records::CertificateState::renewed)
        return "it was renewed on " + one.changed_utc.substr(0, 10) + "; the newer one counts";
    }
  } catch (const records::StoreError& trouble) {
    say("Whether it was revoked is not known: " + trouble.text);
  }
  return {};
}

}  // namespace

int certify_verify(const CommonOptions& common, const CertifyOptions& o) {
  std::string text;
  try {
    text = library::read_file(o.file);
  } catch (const std::runtime_error& error) {
    throw Refusal(error.what());
  }
  const bool is_short = text.rfind("SBC1|", 0) == 0;
  const records::CertificateCheck check =
      is_short ? records::check_short_certificate(text) : records::check_certificate(text);
  if (!check.fault.empty()) {
    say(o.file + ": " + check.place + ": " + check.fault);
    if (common.json) print_json({{"verified", false}, {"place", check.place}, {"fault", check.fault}});
    return exit_not_verified;
  }
  std::string key_known;
  const std::string reason =
      why_not_valid(common, o, check, static_cast<std::int64_t>(std::time(nullptr)), key_known);
  const records::CertificateText& t = check.text;
  if (common.json) {
    print_json({{"verified", true},
                {"valid", reason.empty()},
                {"reason", reason},
                {"serial", t.serial},
                {"holder", t.holder},
                {"demand", t.demand_title},
                {"site", t.site},
                {"skills", t.skills},
                {"issued", t.issued_utc},
                {"until", t.until_utc},
                {"issuer", t.issuer},
                {"key_print", check.key_print},
                {"key", key_known},
                {"evidence", t.evidence.size()},
                {"head", {{"room", t.head.room}, {"count", t.head.count}, {"hash", t.head.hash}}},
                {"what_it_is_not", records::certificate_limits}});
  } else {
    print(t.holder + ": " + t.demand_title);
    print("from " + t.issued_utc.substr(0, 10) + " until " + t.until_utc.substr(0, 10) + ", issued by " +
          (is_short ? "(see the file)" : t.issuer + ", " + t.site));
    print("serial     " + t.serial);
    print("signed by  " + check.key_print + " (" +
          (key_known == "not compared" ? "compare with the print on the site's wall" : key_known) + ")");
    print(reason.empty() ? "Nothing in it was changed, and it has not expired."
                         : "Nothing in it was changed, but " + reason + ".");
    print(records::certificate_limits);
  }
  return reason.empty() ? exit_done : exit_no;
}

int certify_key(const CommonOptions& common) {
  const records::KeyPair key = records::site_key(library::data_dir(common.data_dir), false);
  const std::string print_text = records::key_fingerprint(key.public_key);
  if (common.json)
    print_json({{"key_print", print_text}, {"key", records::to_base64(key.public_key)}});
  else
    print(print_text);
  return exit_done;
}

namespace {

// Every certificate that somebody holds, or the one asked for.
std::string board_pdf(records::Store& store, const library::Library& library, const std::string& asked) {
  const auto demands = records::demands_in_force(store, library);
  if (!asked.empty() && demands.count(asked) == 0)
    throw Refusal("--demand: expected one of " + known_ids(demands) + ", found \"" + asked + "\"");
  std::vector<reports::BoardPart> parts;
  for (const auto& [id, demand] : demands) {
    if (!asked.empty() && id != asked) continue;
    reports::BoardPart part{&demand, records::standings(store, library, demand)};
    const bool held = std::any_of(part.rows.begin(), part.rows.end(),
                                  [](const records::Standing& row) { return row.certificate.has_value(); });
    if (held || !asked.empty()) parts.push_back(std::move(part));
  }
  if (parts.empty())
    throw Refusal(
        "Nobody holds a certificate yet, so there is no board to print. Name one with --demand to print it "
        "empty.");
  return reports::shift_board_pdf(parts, store.site(), store.now_s());
}

}  // namespace

int records_push(const CommonOptions& common, const CertifyOptions& o) {
  const std::string wrong = reports::why_not_target(o.name);
  if (!wrong.empty()) throw Refusal(wrong);
  const library::Library library = load_library(common);
  records::Store store(library::data_dir(common.data_dir));
  const records::Access who = sign_in(store, o.asking);
  const std::string denied = records::why_not(who, records::Right::see_everybody);
  if (!denied.empty()) throw Refusal(denied);
  reports::PushOptions options;
  options.url = o.name;
  options.user = o.note;
  if (!options.user.empty())
    options.secret = read_pin(o.file, "STIRBENCH_STORE_SECRET", "Password of " + options.user + " there: ");
  const reports::PushResult result =
      reports::push_statements(store, library, o.home.empty() ? reports::default_home : o.home, options);
  store.note(who, "pushed", o.name);
  if (!result.problem.empty())
    say(o.name + ": " + result.problem + ". " + std::to_string(result.left) +
        " statements wait; run this again to send them.");
  if (common.json) {
    print_json({{"sent", result.sent},
                {"refused", result.refused},
                {"left", result.left},
                {"problem", result.problem}});
  } else {
    print(std::to_string(result.sent) + " statements sent, " + std::to_string(result.refused) +
          " refused there, " + std::to_string(result.left) + " wait.");
  }
  return result.left == 0 && result.refused == 0 ? exit_done : exit_no;
}

int records_export(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  records::Store store(library::data_dir(common.data_dir));
  const records::Access who = sign_in(store, o.asking);
  const std::string denied = records::why_not(who, records::Right::see_everybody);
  if (!denied.empty()) throw Refusal(denied);
  std::string out;
  if (o.format == "attempts")
    out = reports::attempts_csv(store, library);
  else if (o.format == "certificates")
    out = reports::certificates_csv(store);
  else if (o.format == "xapi")
    out = reports::all_statements(store, library, o.home.empty() ? reports::default_home : o.home).dump(1) +
          "\n";
  else if (o.format == "board")
    out = board_pdf(store, library, o.demand);
  else if (o.format == "table" || o.format == "table-pdf") {
    const auto demands = records::demands_in_force(store, library);
    const auto demand =
        demands.find(o.demand.empty() && !demands.empty() ? demands.begin()->first : o.demand);
    if (demand == demands.end())
      throw Refusal("--demand: expected one of " + known_ids(demands) + ", found \"" + o.demand + "\"");
    const auto rows = records::standings(store, library, demand->second);
    out = o.format == "table"
              ? reports::standings_csv(rows, library, demand->second)
              : reports::standings_pdf(rows, library, demand->second, store.site(), store.now_s());
  } else {
    throw Refusal("WHAT: expected one of attempts, certificates, board, table, table-pdf, xapi, found \"" +
                  o.format + "\"");
  }
  const std::string failed = library::write_atomically(o.file, out);
  if (!failed.empty()) throw Refusal(failed);
  store.note(who, "exported", o.format);
  if (common.json)
    print_json({{"file", o.file}, {"bytes", out.size()}});
  else
    print(o.file);
  return exit_done;
}

}  // namespace stirbench::cli
