#include "app/desk/kit/text/text.h"

#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"

using namespace stirbench::desk::kit;
using stirbench::test_support::TempFolder;
using stirbench::test_support::write_file;

namespace {

// English again after each case, whatever happened in it.
struct BackToEnglish {
  ~BackToEnglish() { use_catalogue({}); }
};

}  // namespace

TEST_CASE("text: without a catalogue the English source shows, with its names filled in") {
  const BackToEnglish guard;
  CHECK(tr("Settings") == "Settings");
  CHECK(tr("Good morning, {name}.", {{"name", "Leilani"}}) == "Good morning, Leilani.");
  CHECK(trn("{n} person", "{n} people", 1) == "1 person");
  CHECK(trn("{n} person", "{n} people", 14) == "14 people");
  CHECK(trn("{n} person", "{n} people", 0) == "0 people");
  CHECK(trc("verb", "Draw") == "Draw");
}

TEST_CASE("text: filling in leaves unknown names and doubled braces") {
  CHECK(fill_in("{a} and {b}", {{"a", "1"}}) == "1 and {b}");
  CHECK(fill_in("{{a} {a}", {{"a", "1"}}) == "{a} 1");
  CHECK(fill_in("open {a", {{"a", "1"}}) == "open {a");
  CHECK(fill_in("{a}{a}", {{"a", "{b}"}, {"b", "no"}}) == "{b}{b}");
}

TEST_CASE("text: a catalogue translates texts, contexts and plurals, and falls back to English") {
  const BackToEnglish guard;
  const CatalogueResult result = parse_catalogue(
      R"({"Settings": "Nastavení", "verb|Draw": "Odebrat", "{n} people": ["{n} osoba", "{n} osoby", "{n} osob"], "Good morning, {name}.": "Dobré ráno, {name}."})",
      "cs.json", "cs");
  REQUIRE(result.error.empty());
  use_catalogue(result.catalogue);
  CHECK(current_language() == "cs");
  CHECK(tr("Settings") == "Nastavení");
  CHECK(tr("Good morning, {name}.", {{"name", "Marek"}}) == "Dobré ráno, Marek.");
  CHECK(trc("verb", "Draw") == "Odebrat");
  CHECK(tr("Draw") == "Draw");
  CHECK(tr("Help") == "Help");
  CHECK(trn("{n} person", "{n} people", 1) == "1 osoba");
  CHECK(trn("{n} person", "{n} people", 3) == "3 osoby");
  CHECK(trn("{n} person", "{n} people", 5) == "5 osob");
}

// Unicode CLDR, cardinal plural rules for whole numbers: one / few / many (or other).
TEST_CASE("text: plural classes follow CLDR") {
  struct Row {
    const char* language;
    long long n;
    std::size_t wanted;
  };
  for (const Row& row :
       {Row{"en", 1, 0},    Row{"en", 2, 1},  Row{"en", 0, 1}, Row{"fr", 0, 0},  Row{"fr", 1, 0},
        Row{"fr", 2, 1},    Row{"ja", 7, 0},  Row{"pl", 1, 0}, Row{"pl", 2, 1},  Row{"pl", 12, 2},
        Row{"pl", 22, 1},   Row{"pl", 25, 2}, Row{"ru", 1, 0}, Row{"ru", 21, 0}, Row{"ru", 11, 2},
        Row{"ru", 3, 1},    Row{"ru", 14, 2}, Row{"cs", 4, 1}, Row{"cs", 5, 2},  Row{"cs", 22, 2},
        Row{"es-419", 1, 0}}) {
    INFO(row.language, " ", row.n);
    CHECK(plural_class(row.language, row.n) == row.wanted);
    CHECK(plural_class(row.language, row.n) < plural_classes(row.language));
  }
}

TEST_CASE("text: a bad catalogue is refused with its place") {
  struct Row {
    const char* json;
    const char* wanted;
  };
  for (const Row& row : {Row{"{\n\"Settings\": \n}", "xx.json:line 3"}, Row{"[]", "expected an object"},
                         Row{R"({"Settings": 3})", "xx.json:/Settings: expected a text"},
                         Row{R"({"Hello {name}": "Hallo {nam}"})", "found {nam}"},
                         Row{R"({"{n} people": ["only one"]})", "expected 2 plural forms, found 1"},
                         Row{R"({"{n} people": ["a", 2]})", "expected texts only"}}) {
    const CatalogueResult result = parse_catalogue(row.json, "xx.json", "xx");
    INFO(result.error);
    CHECK(result.error.find(row.wanted) != std::string::npos);
    CHECK(result.catalogue.texts.empty());
    CHECK(result.catalogue.language == "en");
  }
}

TEST_CASE("text: languages are found by their files, and an absent one says so") {
  const TempFolder folder("text");
  write_file(folder.path() / "text" / "fr.json", R"({"Settings": "Réglages"})");
  write_file(folder.path() / "text" / "cs.json", "{}");
  write_file(folder.path() / "text" / "alarms.json", "{}");  // texts of the program, no language
  write_file(folder.path() / "text" / "notes.txt", "");
  CHECK(languages(folder.path().string()) == std::vector<std::string>{"en", "cs", "fr"});
  CHECK(load_catalogue(folder.path().string(), "fr").catalogue.texts.size() == 1);
  CHECK(load_catalogue(folder.path().string(), "en").error.empty());
  CHECK(load_catalogue(folder.path().string(), "de").error.find("de.json") != std::string::npos);
  CHECK_FALSE(load_catalogue(folder.path().string(), "../../etc").error.empty());
}

TEST_CASE("text: the pseudo-language is 40 % longer, accented, and keeps names") {
  const BackToEnglish guard;
  use_catalogue(load_catalogue("", "x-test").catalogue);
  const std::string source = "Good morning, {name}. Open the lid.";
  const std::string pseudo = tr(source);
  CHECK(pseudo.find("{name}") != std::string::npos);
  CHECK(pseudo.find("Góód") != std::string::npos);
  CHECK(tr("Good morning, {name}.", {{"name", "Noor"}}).find("Noor") != std::string::npos);
  // Characters, not bytes: continuation bytes of UTF-8 do not count.
  std::size_t characters = 0;
  for (const char c : pseudo) characters += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  CHECK(static_cast<double>(characters) >= 1.3 * static_cast<double>(source.size()));
  CHECK(trn("{n} person", "{n} people", 2).substr(0, 2) == "2 ");
}
