#include "app/desk/kit/text/text.h"

namespace stirbench::desk::kit {

namespace {

// The one catalogue of the process. Set at start and when the language changes, both on the drawing thread.
Catalogue& active() {
  static Catalogue catalogue;
  return catalogue;
}

bool is_pseudo() { return active().language == "x-test"; }

}  // namespace

std::string fill_in(std::string_view words, const TextArgs& args) {
  std::string out;
  out.reserve(words.size() + 16);
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] != '{') {
      out += words[i];
      continue;
    }
    if (i + 1 < words.size() && words[i + 1] == '{') {
      out += '{';
      ++i;
      continue;
    }
    const std::size_t end = words.find('}', i);
    if (end == std::string_view::npos) {
      out += words.substr(i);
      break;
    }
    const std::string_view name = words.substr(i + 1, end - i - 1);
    bool found = false;
    for (const auto& [key, value] : args) {
      if (key == name) {
        out += value;
        found = true;
        break;
      }
    }
    if (!found) out += words.substr(i, end - i + 1);
    i = end;
  }
  return out;
}

std::string tr(std::string_view english) {
  const Catalogue& catalogue = active();
  if (const auto found = catalogue.texts.find(english); found != catalogue.texts.end()) return found->second;
  return is_pseudo() ? pseudo_text(english) : std::string(english);
}

std::string tr(std::string_view english, const TextArgs& args) { return fill_in(tr(english), args); }

std::string trn(std::string_view one, std::string_view many, long long n, const TextArgs& args) {
  const Catalogue& catalogue = active();
  TextArgs with_n = args;
  with_n.emplace_back("n", std::to_string(n));
  const auto found = catalogue.plurals.find(many);
  if (found != catalogue.plurals.end())
    return fill_in(found->second[plural_class(catalogue.language, n)], with_n);
  const std::string_view english = n == 1 ? one : many;
  return fill_in(is_pseudo() ? pseudo_text(english) : std::string(english), with_n);
}

std::string trc(std::string_view context, std::string_view english) {
  const Catalogue& catalogue = active();
  const std::string key = std::string(context) + "|" + std::string(english);
  if (const auto found = catalogue.texts.find(key); found != catalogue.texts.end()) return found->second;
  return tr(english);
}

void use_catalogue(Catalogue catalogue) { active() = std::move(catalogue); }

const std::string& current_language() { return active().language; }

std::string pseudo_text(std::string_view english) {
  // Accented vowels show texts that missed the translation function; the padding shows rows that are too
  // tight.
  std::string out;
  std::size_t letters = 0;
  bool in_name = false;
  for (const char c : english) {
    if (c == '{') in_name = true;
    if (c == '}') in_name = false;
    if (!in_name) ++letters;
    const char* accented = nullptr;
    if (!in_name) {
      switch (c) {
        case 'a': accented = "á"; break;
        case 'e': accented = "é"; break;
        case 'i': accented = "í"; break;
        case 'o': accented = "ó"; break;
        case 'u': accented = "ú"; break;
        case 'A': accented = "Á"; break;
        case 'E': accented = "É"; break;
        case 'O': accented = "Ó"; break;
        default: break;
      }
    }
    if (accented != nullptr) {
      out += accented;
    } else {
      out += c;
    }
  }
  const std::size_t extra = (letters * 2 + 4) / 5;
  static constexpr std::string_view padding = " lorem ipsum dolor sit amet consectetur";
  for (std::size_t i = 0; i < extra; ++i) out += padding[i % padding.size()];
  return out;
}

}  // namespace stirbench::desk::kit
