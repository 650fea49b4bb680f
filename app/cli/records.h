#pragma once

#include <string>

#include "app/cli/asking.h"

namespace stirbench::cli {

// "ROOM:COUNT:HASH" of a head that stands on paper; empty: none.
int records_verify(const Common& common, bool journals, const std::string& head);
int records_head(const Common& common);
int records_backup(const Common& common, const Asking& asking, const std::string& folder);
int records_restore(const Common& common, const std::string& folder);
int records_merge(const Common& common, const Asking& asking, const std::string& folder);
int records_site(const Common& common, const Asking& asking, const std::string& name);
int records_use(const Common& common, const std::string& database);
// Plays every kept journal again and compares hashes and scores with what was kept.
int records_rescore(const Common& common, const Asking& asking);

}  // namespace stirbench::cli
