#include "app/records/certificate.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/library/reading/paths.h"
#include "app/records/names.h"

namespace stirbench::records {

namespace {

using Json = nlohmann::json;

constexpr const char* context = "stirbench certificate\n";
constexpr const char* short_context = "stirbench short certificate\n";
constexpr const char* short_mark = "SBC1";

Json to_json(const CertificateText& t) {
  Json evidence = Json::array();
  for (const EvidenceItem& one : t.evidence)
    evidence.push_back({{"attempt", one.attempt},
                        {"lesson", one.lesson},
                        {"lesson_hash", one.lesson_hash},
                        {"at", one.at_utc},
                        {"passed", one.passed},
                        {"score_norm", one.score_norm},
                        {"journal_sha256", one.journal_sha256},
                        {"state_hash", one.state_hash}});
  Json seen = Json::array();
  for (const SeenItem& one : t.seen)
    seen.push_back(
        {{"task", one.task}, {"machine", one.machine}, {"by", one.by}, {"at", one.at_utc}, {"uid", one.uid}});
  return {{"kind", "stirbench certificate"},
          {"format", 1},
          {"serial", t.serial},
          {"site", t.site},
          {"holder", t.holder},
          {"holder_uid", t.holder_uid},
          {"demand",
           {{"id", t.demand_id},
            {"title", t.demand_title},
            {"sha256", t.demand_sha256},
            {"tests_each", t.tests_each},
            {"lessons_each", t.lessons_each},
            {"days_apart", t.days_apart},
            {"must_pass_all", t.must_pass_all},
            {"p_not", t.plan.p_not},
            {"p_competent", t.plan.p_competent},
            {"alpha", t.plan.alpha},
            {"beta", t.plan.beta},
            {"most", t.plan.most}}},
          {"skills", t.skills},
          {"issued", t.issued_utc},
          {"until", t.until_utc},
          {"issuer", t.issuer},
          {"renews", t.renews},
          {"evidence", evidence},
          {"seen_at_machine", seen},
          {"chain", {{"room", t.head.room}, {"count", t.head.count}, {"hash", t.head.hash}}},
          {"program", t.program},
          {"content_hash", t.content_hash},
          {"what_it_is_not", certificate_limits}};
}

CertificateText from_json(const Json& j) {
  CertificateText t;
  const auto get = [](const Json& from, const char* key) { return from.at(key).get<std::string>(); };
  t.serial = get(j, "serial");
  t.site = get(j, "site");
  t.holder = get(j, "holder");
  t.holder_uid = get(j, "holder_uid");
  const Json& demand = j.at("demand");
  t.demand_id = get(demand, "id");
  t.demand_title = get(demand, "title");
  t.demand_sha256 = get(demand, "sha256");
  t.tests_each = demand.at("tests_each").get<int>();
  t.lessons_each = demand.value("lessons_each", 0);
  t.days_apart = demand.value("days_apart", 0);
  t.must_pass_all = demand.at("must_pass_all").get<bool>();
  t.plan = {demand.at("p_not").get<double>(), demand.at("p_competent").get<double>(),
            demand.at("alpha").get<double>(), demand.at("beta").get<double>(), demand.at("most").get<int>()};
  t.skills = j.at("skills").get<std::vector<std::string>>();
  t.issued_utc = get(j, "issued");
  t.until_utc = get(j, "until");
  t.issuer = get(j, "issuer");
  t.renews = get(j, "renews");
  for (const Json& one : j.at("evidence"))
    t.evidence.push_back({get(one, "attempt"), get(one, "lesson"), get(one, "lesson_hash"), get(one, "at"),
                          one.at("passed").get<bool>(), one.at("score_norm").get<double>(),
                          get(one, "journal_sha256"), get(one, "state_hash")});
  for (const Json& one : j.at("seen_at_machine"))
    t.seen.push_back(
        {get(one, "task"), get(one, "machine"), get(one, "by"), get(one, "at"), get(one, "uid")});
  const Json& chain = j.at("chain");
  t.head = {get(chain, "room"), chain.at("count").get<std::int64_t>(), get(chain, "hash")};
  t.program = get(j, "program");
  t.content_hash = get(j, "content_hash");
  return t;
}

CertificateCheck wrong(const std::string& place, const std::string& what) {
  CertificateCheck check;
  check.place = place;
  check.fault = what;
  return check;
}

// Reads what was signed; it is the program's own text, so anything else in it is a fault.
CertificateCheck read_signed(const std::string& line, CertificateCheck check) {
  try {
    const Json json = Json::parse(line);
    if (json.at("kind") != "stirbench certificate" || json.at("format") != 1)
      return wrong("line 1", "expected a Stirbench certificate of format 1");
    check.text = from_json(json);
  } catch (const Json::exception& error) {
    return wrong("line 1", std::string("expected a certificate's fields: ") + error.what());
  }
  check.head = check.text.head;
  return check;
}

std::string without_bar(std::string text) {
  for (char& c : text) {
    if (c == '|') c = '/';
  }
  return text;
}

}  // namespace

std::string key_fingerprint(const std::string& public_key) {
  const std::string hash = sha256_hex(public_key);
  std::string out;
  for (std::size_t i = 0; i < 8; ++i) out += (i == 0 ? "" : " ") + hash.substr(4 * i, 4);
  return out;
}

std::string write_certificate(const CertificateText& text, const std::string& seed) {
  const std::string line = to_json(text).dump();
  const Json seal = {{"key", to_base64(key_pair_of(seed).public_key)},
                     {"sha256", sha256_hex(line)},
                     {"signature", to_base64(sign(seed, context + line))}};
  return line + "\n" + seal.dump() + "\n";
}

CertificateCheck check_certificate(const std::string& file_text) {
  const std::size_t end = file_text.find('\n');
  if (end == std::string::npos || file_text.back() != '\n' ||
      file_text.find('\n', end + 1) != file_text.size() - 1)
    return wrong("the whole file", "expected two lines, each with its line feed");
  const std::string line = file_text.substr(0, end);
  const std::string second = file_text.substr(end + 1, file_text.size() - end - 2);
  const Json seal = Json::parse(second, nullptr, false);
  const bool shaped = seal.is_object() && seal.size() == 3 && seal.contains("key") &&
                      seal.contains("sha256") && seal.contains("signature") && seal["key"].is_string() &&
                      seal["sha256"].is_string() && seal["signature"].is_string() &&
                      seal.dump(-1, ' ', false, Json::error_handler_t::replace) == second;
  if (!shaped) return wrong("line 2", "expected key, sha256 and signature");
  const std::optional<std::string> key = from_base64(seal["key"].get<std::string>());
  const std::optional<std::string> signature = from_base64(seal["signature"].get<std::string>());
  if (!key || key->size() != 32) return wrong("line 2, key", "expected 32 bytes in base64");
  if (!signature || signature->size() != 64) return wrong("line 2, signature", "expected 64 bytes in base64");
  const bool hash_agrees = seal["sha256"].get<std::string>() == sha256_hex(line);
  if (!verify_signature(*key, context + line, *signature))
    return hash_agrees
               ? wrong("line 2, signature or key", "the signature is not that of this key over line 1")
               : wrong("line 1", "it was changed after it was signed");
  if (!hash_agrees) return wrong("line 2, sha256", "it is not the hash of line 1");
  CertificateCheck check;
  check.public_key = *key;
  check.key_print = key_fingerprint(*key);
  return read_signed(line, check);
}

std::string short_certificate(const CertificateText& text, const std::string& file_text,
                              const std::string& seed) {
  const std::string body = std::string(short_mark) + "|" + text.serial + "|" + without_bar(text.holder) +
                           "|" + without_bar(text.demand_title) + "|" + text.issued_utc + "|" +
                           text.until_utc + "|" + sha256_hex(file_text.substr(0, file_text.find('\n'))) +
                           "|" + to_base64(key_pair_of(seed).public_key);
  return body + "|" + to_base64(sign(seed, short_context + body));
}

CertificateCheck check_short_certificate(const std::string& given) {
  const std::string line = trimmed(given);
  std::vector<std::string> parts(1);
  for (const char c : line) {
    if (c == '|')
      parts.emplace_back();
    else
      parts.back() += c;
  }
  if (parts.size() != 9 || parts[0] != short_mark)
    return wrong("the line", "expected nine parts that begin with SBC1");
  const std::optional<std::string> key = from_base64(parts[7]);
  const std::optional<std::string> signature = from_base64(parts[8]);
  if (!key || key->size() != 32) return wrong("part 8, key", "expected 32 bytes in base64");
  if (!signature || signature->size() != 64) return wrong("part 9, signature", "expected 64 bytes in base64");
  if (!verify_signature(*key, short_context + line.substr(0, line.rfind('|')), *signature))
    return wrong("parts 1 to 8, or the signature", "the signature does not fit");
  CertificateCheck check;
  check.public_key = *key;
  check.key_print = key_fingerprint(*key);
  check.text.serial = parts[1];
  check.text.holder = parts[2];
  check.text.demand_title = parts[3];
  check.text.issued_utc = parts[4];
  check.text.until_utc = parts[5];
  return check;
}

KeyPair site_key(const std::string& data_dir, bool make) {
  const std::string file = data_dir + "/site.key";
  if (std::filesystem::exists(file)) {
    const std::optional<std::string> seed = from_base64(trimmed(library::read_file(file)));
    if (!seed || seed->size() != 32)
      throw StoreError(
          file + ": expected the site's key, 32 bytes in base64. Bring it back from its back-up.", true);
    return key_pair_of(*seed);
  }
  if (!make) throw StoreError("This site has no key yet: it is made with the first certificate.");
  KeyPair pair = make_key_pair();
  const std::string text = to_base64(pair.seed) + "\n";
  const std::string half = file + ".new";
  const int fd = ::open(half.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  const bool written = fd >= 0 &&
                       ::write(fd, text.data(), text.size()) == static_cast<ssize_t>(text.size()) &&
                       ::fsync(fd) == 0;
  if (fd >= 0) ::close(fd);
  // link() refuses when another desk was faster, and the other's key is then the one.
  if (written && ::link(half.c_str(), file.c_str()) == 0) {
    ::unlink(half.c_str());
    return pair;
  }
  ::unlink(half.c_str());
  if (std::filesystem::exists(file)) return site_key(data_dir, false);
  throw StoreError("The site's key " + file + " cannot be written. Make the data folder writable.");
}

}  // namespace stirbench::records
