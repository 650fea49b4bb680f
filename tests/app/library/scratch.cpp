#include "tests/app/library/scratch.h"

#include <doctest/doctest.h>

#include <filesystem>

namespace fs = std::filesystem;

namespace stirbench::library_test {

std::string content_dir() { return (test_support::source_root() / "content").string(); }

Scratch::Scratch(const std::string& purpose) : folder_(purpose) {
  fs::create_directories(fs::path(dir()) / "text");
  for (const char* part :
       {"machines", "circuits", "faults", "ingredients", "recipes", "rules", "skills", "assessments"})
    fs::copy(fs::path(content_dir()) / part, fs::path(dir()) / part, fs::copy_options::recursive);
  for (const char* name : {"text/cautions.json", "text/alarms.json"})
    fs::copy(fs::path(content_dir()) / name, fs::path(dir()) / name);
}

void Scratch::write(const std::string& name, const std::string& text) const {
  test_support::write_file(file(name), text);
}
std::string Scratch::read(const std::string& name) const { return test_support::read_file(file(name)); }
void Scratch::remove(const std::string& name) const { fs::remove_all(file(name)); }

void Scratch::change(const std::string& name, const std::string& from, const std::string& to) const {
  std::string text = read(name);
  const std::size_t at = text.find(from);
  CAPTURE(name);
  CAPTURE(from);
  REQUIRE(at != std::string::npos);
  write(name, text.replace(at, from.size(), to));
}

std::string joined(const std::vector<library::Problem>& problems) {
  std::string out;
  for (const auto& one : problems) out += (out.empty() ? "" : "\n") + one.text();
  return out;
}

std::string Scratch::problems() const { return joined(library::load(dir(), own()).problems); }

const library::Library& shipped() {
  static const library::LoadResult loaded = library::load(content_dir(), "");
  return loaded.library;
}

std::string small_lesson() {
  return R"({
  "format": 1,
  "id": "small",
  "title": "Small",
  "minutes": 5,
  "skills": ["run-a-recipe"],
  "machine": "hm-45",
  "summary": "A lesson for tests.",
  "cautions": ["hot_product"],
  "start": {"ambient_degC": 22, "humidity_norm": 0.5, "supply_norm": 1, "seed": 7, "loaded": [{"ingredient": "water", "kg": 20, "degC": 10}], "recipe": ""},
  "at_hand": ["whole_milk"],
  "steps": [
    {"id": "open", "now": "Open the lid.", "why": "To see.", "hint": "Press it.", "point_at": "hand.open_lid", "done": {"signal": "lid_open", "is": true}, "skippable": true},
    {"id": "pour", "now": "Pour.", "why": "It is a batch.", "hint": "", "point_at": "", "done": {"event": "acted", "name": "pour", "of": "whole_milk", "at_least": 1}}
  ],
  "criteria": [
    {"id": "poured", "title": "Milk poured", "points": 2, "must_pass": true, "monitor": {"kind": "happens", "what": {"all": [{"event": "acted", "name": "pour"}, {"not": {"signal": "mode", "is": "running"}}]}, "within_s": 600}, "met_text": "Done at {time}.", "missed_text": "No milk."},
    {"id": "amount", "title": "Amount", "points": 1, "monitor": {"kind": "total", "what": {"event": "acted", "name": "pour"}, "low": 1, "high": 2}, "met_text": "{value}.", "missed_text": "{value}, {low} to {high} asked."}
  ],
  "pass_norm": 0.8,
  "end": {"any": [{"signal": "phase", "is": "keep"}, {"event": "harm", "name": "boil_over"}]},
  "limit_s": 600
})";
}

void put_small_lesson(const Scratch& scratch) {
  scratch.write("lessons/small/lesson.json", small_lesson());
  scratch.write("lessons/small/page.md", "# Small\nWhat and why.\n");
  scratch.write("lessons/small/right.jsonl", "{\"at_s\": 1, \"do\": \"open_lid\"}\n");
  scratch.write("lessons/small/wrong-nothing.jsonl", "{\"at_s\": 1, \"do\": \"take_sample\"}\n");
}

}  // namespace stirbench::library_test
