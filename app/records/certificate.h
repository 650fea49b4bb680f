#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "app/records/store.h"
#include "sim_core/training/demand.h"

// A certificate's text: two lines.
//   1  what is certified: a JSON object with its keys in order, no blanks
//   2  {"key": public key, "sha256": of line 1, "signature": Ed25519 over the words "stirbench certificate"
//      LF and line 1}
// It verifies anywhere, without network and without these records. What it cannot show by itself is whether
// the key is the site's and whether it was revoked since: compare the key's print with the one on the site's
// wall, ask the site's records.
namespace stirbench::records {

inline constexpr const char* certificate_limits =
    "It is no licence and no permit. It does not replace supervised work at the real machine, the maker's "
    "manual, or local rules. "
    "Electrical and refrigerant work stays with licensed people.";

struct EvidenceItem {
  std::string attempt;  // uid
  std::string lesson;
  std::string lesson_hash;
  std::string at_utc;
  bool passed = false;
  double score_norm = 0.0;
  std::string journal_sha256;
  std::string state_hash;
};
struct SeenItem {
  std::string task;
  std::string machine;
  std::string by;
  std::string at_utc;
  std::string uid;
};

struct CertificateText {
  std::string serial;
  std::string site;
  std::string holder;
  std::string holder_uid;
  std::string demand_id;
  std::string demand_title;
  std::string demand_sha256;  // of the demand's own text
  training::SequentialPlan plan;
  int tests_each = 0;
  int lessons_each = 0;  // 0: of an older certificate, which does not say
  int days_apart = 0;
  bool must_pass_all = true;
  std::vector<std::string> skills;  // titles
  std::string issued_utc;
  std::string until_utc;
  std::string issuer;
  std::string renews;
  std::vector<EvidenceItem> evidence;
  std::vector<SeenItem> seen;
  ChainHead head;  // of the records' chain just before
  std::string program;
  std::string content_hash;
};

// Signed by the site's key. `seed`: 32 bytes.
std::string write_certificate(const CertificateText& text, const std::string& seed);

struct CertificateCheck {
  std::string fault;  // empty: the text is what the key signed
  std::string place;  // "line 1", "line 2, signature" ...
  CertificateText text;
  ChainHead head;
  std::string public_key;  // raw
  std::string key_print;   // of the public key, to compare by eye: eight groups of four hex digits
};
CertificateCheck check_certificate(const std::string& file_text);
std::string key_fingerprint(const std::string& public_key);

// For a QR symbol: one line that verifies by itself,
//   SBC1|serial|holder|demand|issued|until|sha256 of line 1|key|signature over all before
std::string short_certificate(const CertificateText& text, const std::string& file_text,
                              const std::string& seed);
CertificateCheck check_short_certificate(const std::string& line);

// The site's key: DATA/site.key (0600), made at the first certificate. Back it up apart from the records.
// Throws StoreError.
KeyPair site_key(const std::string& data_dir, bool make);

}  // namespace stirbench::records
