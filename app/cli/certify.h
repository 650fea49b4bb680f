#pragma once

#include <string>
#include <vector>

#include "app/cli/asking.h"

namespace stirbench::cli {

struct CertifyOptions {
  SignInOptions asking;
  std::string name;    // a person, or a serial
  std::string demand;  // empty: the only one, else asked for
  std::string file;    // FILE to verify, --out
  std::string pdf;
  std::string key;  // --key: print or base64 of the site's key
  std::string task;
  std::string machine;
  std::string note;
  std::string format;
  std::string home;
  bool flag = false;  // --not-yet
};

int certify_demands(const CommonOptions& common);
int certify_demand_set(const CommonOptions& common, const CertifyOptions& o);
int certify_table(const CommonOptions& common, const CertifyOptions& o);
// What is missing for one person; exit 1 when something is.
int certify_check(const CommonOptions& common, const CertifyOptions& o);
int certify_seen(const CommonOptions& common, const CertifyOptions& o);
int certify_issue(const CommonOptions& common, const CertifyOptions& o);
int certify_renew(const CommonOptions& common, const CertifyOptions& o);
int certify_revoke(const CommonOptions& common, const CertifyOptions& o);
int certify_list(const CommonOptions& common, const CertifyOptions& o);
// 0: what the key signed, and valid now; 1: signed so, but expired, revoked here, or not this site's; 3:
// changed, with the place.
int certify_verify(const CommonOptions& common, const CertifyOptions& o);
int certify_key(const CommonOptions& common);
int records_export(const CommonOptions& common, const CertifyOptions& o);
// To a record store at o.name as o.note with the secret in o.file; exit 1 when statements are left or were
// refused.
int records_push(const CommonOptions& common, const CertifyOptions& o);

}  // namespace stirbench::cli
