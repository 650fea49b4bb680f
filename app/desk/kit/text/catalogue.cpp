#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>

#include "app/desk/kit/text/text.h"

namespace stirbench::desk::kit {

namespace {

namespace fs = std::filesystem;
using nlohmann::json;

// The {names} of a text, to compare source and translation.
std::set<std::string> names_in(std::string_view words) {
  std::set<std::string> names;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] != '{') continue;
    if (i + 1 < words.size() && words[i + 1] == '{') {
      ++i;
      continue;
    }
    const std::size_t end = words.find('}', i);
    if (end == std::string_view::npos) break;
    names.emplace(words.substr(i + 1, end - i - 1));
    i = end;
  }
  return names;
}

// Names in the translation that the source does not have: they would be shown as they stand.
std::string unknown_name(std::string_view source, std::string_view translation) {
  const std::set<std::string> known = names_in(source);
  for (const std::string& name : names_in(translation)) {
    if (!known.contains(name) && name != "n") return name;
  }
  return {};
}

std::string problem(const std::string& file, const std::string& key, const std::string& expected,
                    const std::string& found) {
  return file + ":/" + key + ": expected " + expected + ", found " + found;
}

std::string take_plural(Catalogue& catalogue, const std::string& file, const std::string& key,
                        const json& forms) {
  const std::size_t wanted = plural_classes(catalogue.language);
  if (forms.size() != wanted) {
    return problem(file, key, std::to_string(wanted) + " plural forms", std::to_string(forms.size()));
  }
  std::vector<std::string> texts;
  for (const json& form : forms) {
    if (!form.is_string()) return problem(file, key, "texts only", form.type_name());
    texts.push_back(form.get<std::string>());
    if (const std::string name = unknown_name(key, texts.back()); !name.empty()) {
      return problem(file, key, "only the {names} of the source", "{" + name + "}");
    }
  }
  catalogue.plurals[key] = std::move(texts);
  return {};
}

std::string take_text(Catalogue& catalogue, const std::string& file, const std::string& key,
                      const json& value) {
  if (!value.is_string()) return problem(file, key, "a text or an array of plural forms", value.type_name());
  const auto translation = value.get<std::string>();
  if (const std::string name = unknown_name(key, translation); !name.empty()) {
    return problem(file, key, "only the {names} of the source", "{" + name + "}");
  }
  if (!translation.empty()) catalogue.texts[key] = translation;
  return {};
}

// A language subtag of two or three letters (BCP 47), more parts after a hyphen; "x-test" is the private one.
// Other texts lie in the same folder under longer names.
bool is_language_code(const std::string& text) {
  const std::size_t first = std::min(text.find('-'), text.size());
  if (text.size() > 12 || first > 3 || (first < 2 && !text.starts_with("x-"))) return false;
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-'; });
}

}  // namespace

CatalogueResult parse_catalogue(const std::string& text, const std::string& file,
                                const std::string& language) {
  CatalogueResult result;
  json root;
  try {
    root = json::parse(text);
  } catch (const json::parse_error& error) {
    const std::size_t end = std::min(static_cast<std::size_t>(error.byte), text.size());
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
    result.error = file + ":line " + std::to_string(line) + ": expected JSON, found a syntax error";
    return result;
  }
  if (!root.is_object()) {
    result.error = problem(file, "", "an object of source to translation", root.type_name());
    return result;
  }
  Catalogue catalogue;
  catalogue.language = language;
  for (const auto& [key, value] : root.items()) {
    result.error =
        value.is_array() ? take_plural(catalogue, file, key, value) : take_text(catalogue, file, key, value);
    if (!result.error.empty()) return result;
  }
  result.catalogue = std::move(catalogue);
  return result;
}

CatalogueResult load_catalogue(const std::string& content_dir, const std::string& language) {
  CatalogueResult result;
  if (language == "en" || language.empty()) return result;
  if (language == "x-test") {
    result.catalogue.language = language;
    return result;
  }
  const std::string file = (fs::path(content_dir) / "text" / (language + ".json")).string();
  std::ifstream in(file, std::ios::binary);
  if (!is_language_code(language) || !in) {
    result.error = file + ": expected a text file of this language, found none. English is shown.";
    return result;
  }
  const std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  return parse_catalogue(text, file, language);
}

std::vector<std::string> languages(const std::string& content_dir) {
  std::vector<std::string> found;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(fs::path(content_dir) / "text", failed)) {
    const std::string stem = entry.path().stem().string();
    if (entry.path().extension() == ".json" && stem != "en" && is_language_code(stem)) found.push_back(stem);
  }
  std::sort(found.begin(), found.end());
  found.insert(found.begin(), "en");
  return found;
}

// Unicode CLDR cardinal plural rules for whole numbers (cldr/common/supplemental/plurals.xml). Languages that
// are not named take the English rule.
std::size_t plural_classes(std::string_view language) {
  const std::string_view base = language.substr(0, language.find('-'));
  if (base == "ja" || base == "zh" || base == "ko" || base == "vi" || base == "th" || base == "id") return 1;
  if (base == "pl" || base == "cs" || base == "sk" || base == "ru" || base == "uk") return 3;
  return 2;
}

std::size_t plural_class(std::string_view language, long long n) {
  const std::string_view base = language.substr(0, language.find('-'));
  const long long i = n < 0 ? -n : n;
  if (plural_classes(language) == 1) return 0;
  if (base == "cs" || base == "sk") {
    if (i == 1) return 0;
    return i >= 2 && i <= 4 ? 1 : 2;
  }
  const bool few = i % 10 >= 2 && i % 10 <= 4 && !(i % 100 >= 12 && i % 100 <= 14);
  if (base == "pl") {
    if (i == 1) return 0;
    return few ? 1 : 2;
  }
  if (base == "ru" || base == "uk") {
    if (i % 10 == 1 && i % 100 != 11) return 0;
    return few ? 1 : 2;
  }
  if (base == "fr") return i <= 1 ? 0 : 1;
  return i == 1 ? 0 : 1;
}

}  // namespace stirbench::desk::kit
