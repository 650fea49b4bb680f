#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

// What a hand has to be told: how much of what, which one, which way. A parameter is a constant; its address
// is its identity, and an Action can only be read and set through it.
namespace stirbench::hands {

enum class Type : std::uint8_t { number, text, flag };

// What a text names: a word of the parameter's own list, or an entry of the machine or of its content.
enum class Catalogue : std::uint8_t {
  words,     // the parameter's own list
  anything,  // free text, not empty
  ingredient,
  recipe,
  chemical,
  fault,
  suspicion,  // a fault, or not_known
  check,
  body_part,
  terminal,
  wire,
  breaker
};

inline constexpr std::string_view not_known = "not_known";

using Words = std::span<const std::string_view>;

struct Parameter {
  std::string_view name;     // "kg"
  std::string_view meaning;  // one line for a person who writes actions files
  Type type = Type::number;
  bool required = true;
  double low = 0.0, high = 0.0;       // numbers: legal range, both ends included
  std::string_view unit{};            // "kg"; "-" for a share
  std::optional<double> otherwise{};  // a number that was left out; none: the hand finds its own
  Catalogue catalogue = Catalogue::words;
  Words (*words)() = nullptr;  // of a text whose catalogue is `words`
};

// The same by type, so that a hand is told what it takes and nothing else. Value: how it is given.
struct Number : Parameter {
  using Value = double;
  constexpr Number(std::string_view its_name, double its_low, double its_high, std::string_view its_unit,
                   std::string_view its_meaning)
      : Parameter{
            .name = its_name, .meaning = its_meaning, .low = its_low, .high = its_high, .unit = its_unit} {}
};

// May be left out.
struct OptionalNumber : Parameter {
  using Value = std::optional<double>;
  constexpr OptionalNumber(std::string_view its_name, double its_low, double its_high,
                           std::string_view its_unit, std::optional<double> its_default,
                           std::string_view its_meaning)
      : Parameter{.name = its_name,
                  .meaning = its_meaning,
                  .required = false,
                  .low = its_low,
                  .high = its_high,
                  .unit = its_unit,
                  .otherwise = its_default} {}
};

struct Text : Parameter {
  using Value = std::string_view;
  constexpr Text(std::string_view its_name, Catalogue its_catalogue, std::string_view its_meaning)
      : Parameter{.name = its_name, .meaning = its_meaning, .type = Type::text, .catalogue = its_catalogue} {}
  constexpr Text(std::string_view its_name, Words (*its_words)(), std::string_view its_meaning)
      : Parameter{.name = its_name, .meaning = its_meaning, .type = Type::text, .words = its_words} {}
};

struct Flag : Parameter {
  using Value = bool;
  constexpr Flag(std::string_view its_name, std::string_view its_meaning)
      : Parameter{.name = its_name, .meaning = its_meaning, .type = Type::flag} {}
};

// A list that stands in an array, as a parameter asks for it.
template <const auto& list>
Words listed() {
  return list;
}

// Place of a word in the parameter's own list; -1 when it is not there, or there is no list.
int index_of(const Parameter& parameter, std::string_view word);

}  // namespace stirbench::hands
