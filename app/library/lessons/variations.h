#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "app/library/reading/shape.h"

// What a lesson draws for each run, so that no two runs ask for the same. `varies` in lesson.json names the
// draws; any other value of the file may then be {"drawn": NAME}, with "times" and "plus" for a number and
// "of" for one entry of a drawn object, be it a number, a word, a condition, a hand or a list; texts and the
// page hold "{NAME}" or "{NAME.ENTRY}". A draw is a function of the run's seed alone. The lesson's own seed
// (start.seed) gives the usual values: what the shipped runs are made for.
namespace stirbench::library {

struct Variation {
  std::string name;
  double from = 0.0, to = 0.0;  // bounds of a number, both included
  double step = 0.0;            // of its grid from `from` on
  std::vector<Json> one_of;     // or one of these: numbers, texts, objects
  Json usual;                   // what the lesson's own seed gives; one of the possible values
  std::string says;             // one line for who looks back, with placeholders; empty: nothing is told
};

// Reader and schema of `varies`.
Shape<std::vector<Variation>> variations_shape();

// The values of one run by name. `seed` differs from the lesson's own.
std::map<std::string, Json> draw(const std::vector<Variation>& variations, std::uint64_t seed);
std::map<std::string, Json> usual_values(const std::vector<Variation>& variations);
// Ends of all bounds together, then each alternative in turn: what a loader tries.
std::vector<std::map<std::string, Json>> extreme_values(const std::vector<Variation>& variations);

// Puts the values in for each {"drawn": ...} and each placeholder below `json`. A name that is not drawn, or
// an entry that is not there, is a problem at its place.
void put_in(Reader& reader, const std::map<std::string, Json>& values, Json& json);
std::string put_in_text(const std::map<std::string, Json>& values, const std::string& text);

}  // namespace stirbench::library
