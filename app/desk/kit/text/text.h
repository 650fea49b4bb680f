#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// One translation function for every text a person sees. The English source text is the key.
//
//   tr("Settings")
//   tr("Good morning, {name}.", {{"name", person}})
//   trn("{n} person", "{n} people", count)          // {n} is filled in
//   trc("verb", "Draw")                              // context, when one English word needs two translations
//
// Catalogues are content/text/<lang>.json: one flat object {"source": "translation"}. A plural entry has the
// English plural as its key and an array as its value, one form per plural class of the language; a context
// entry has "context|source" as its key. A key that is missing shows the English source.
namespace stirbench::desk::kit {

using TextArgs = std::vector<std::pair<std::string, std::string>>;

std::string tr(std::string_view english);
std::string tr(std::string_view english, const TextArgs& args);
std::string trn(std::string_view one, std::string_view many, long long n, const TextArgs& args = {});
std::string trc(std::string_view context, std::string_view english);

// Replaces every {name}. An unknown name stays as it is; "{{" gives "{".
std::string fill_in(std::string_view text, const TextArgs& args);

struct Catalogue {
  std::string language = "en";
  std::map<std::string, std::string, std::less<>> texts;
  std::map<std::string, std::vector<std::string>, std::less<>> plurals;
};

struct CatalogueResult {
  Catalogue catalogue;
  std::string error;  // "FILE:KEY: expected ..., found ..."; the catalogue is then empty (English shows)
};

// Strict: unknown placeholders, wrong types and wrong numbers of plural forms are errors.
CatalogueResult parse_catalogue(const std::string& json, const std::string& file,
                                const std::string& language);
CatalogueResult load_catalogue(const std::string& content_dir, const std::string& language);

// Languages with a file under content/text, "en" first; "x-test" (every text 40 % longer, accented) is made
// by code and is not listed.
std::vector<std::string> languages(const std::string& content_dir);

// Switches the process to a catalogue. English needs none.
void use_catalogue(Catalogue catalogue);
const std::string& current_language();

// The pseudo-language: accents every vowel and pads with 40 % more letters; {names} stay intact.
std::string pseudo_text(std::string_view english);

// Index of the plural class for n in a language (Unicode CLDR cardinal rules of the languages listed in
// text.cpp).
std::size_t plural_class(std::string_view language, long long n);
std::size_t plural_classes(std::string_view language);

}  // namespace stirbench::desk::kit
