#pragma once

#include <string>

#include "app/cli/asking.h"

namespace stirbench::cli {

// "ROOM:COUNT:HASH" of a head that stands on paper; empty: none.
int records_verify(const CommonOptions& common, bool journals, const std::string& head);
int records_head(const CommonOptions& common);
int records_backup(const CommonOptions& common, const SignInOptions& asking, const std::string& folder);
int records_restore(const CommonOptions& common, const std::string& folder);
int records_merge(const CommonOptions& common, const SignInOptions& asking, const std::string& folder);
int records_site(const CommonOptions& common, const SignInOptions& asking, const std::string& name);
int records_use(const CommonOptions& common, const std::string& database);
// Plays every kept journal again and compares hashes and scores with what was kept.
int records_rescore(const CommonOptions& common, const SignInOptions& asking);
// What the items of lessons told of the people here (records/items.h). `lesson`: only of this one; empty:
// all.
int records_items(const CommonOptions& common, const SignInOptions& asking, const std::string& lesson);

}  // namespace stirbench::cli
