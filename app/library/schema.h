#pragma once

#include <map>
#include <string>

// JSON Schemas (draft-07) of the content files, made from the reader's own field tables, for editors and for
// people. What a schema cannot say (sums, names that must exist, a recipe that fits a machine) only the
// reader checks.
namespace stirbench::library {

// File name ("recipe.schema.json") -> text.
std::map<std::string, std::string> schema_files();

// Writes them into `dir`. Empty = done, else what failed.
std::string write_schemas(const std::string& dir);

}  // namespace stirbench::library
