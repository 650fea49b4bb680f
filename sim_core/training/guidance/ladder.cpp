#include "sim_core/training/guidance/ladder.h"

#include <algorithm>
#include <array>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"

namespace stirbench::training {

namespace {

std::string sentence(std::string words) {
  if (words.empty()) return words;
  if (words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words + ".";
}

std::string_view bound_words(Op op) {
  return op == Op::at_least || op == Op::above ? ": at least " : ": at most ";
}

std::string in_the_vat(const machine::Machine& machine, const std::string& ingredient) {
  const int index = machine.ingredient_index(ingredient);
  if (index < 0) return {};
  return sentence(machine.ingredients[static_cast<std::size_t>(index)].title + " is in the vat");
}

// Ids of recipes and phases by their titles.
std::string title_of(const machine::Machine& machine, const std::string& id) {
  for (const control::Recipe& recipe : machine.recipes) {
    if (recipe.id == id) return recipe.title;
    for (const control::Phase& phase : recipe.phases) {
      if (phase.id == id) return phase.title;
    }
  }
  return id.empty() ? "none" : id;
}

// "id of the chosen recipe, empty when none" is for authors: "The chosen recipe: White base, high hold."
std::string text_goal(const machine::Machine& machine, const Condition& c) {
  constexpr std::string_view of = "id of ";
  std::string_view words = c.signal->meaning.substr(0, c.signal->meaning.find(','));
  if (words.starts_with(of)) words.remove_prefix(of.size());
  return sentence(std::string(words) + ": " + title_of(machine, c.text));
}

std::string goal_of(const machine::Machine& machine, const Condition& c) {
  switch (c.op) {
    case Op::is_flag: return sentence((c.flag ? "" : "No longer so: ") + std::string(c.signal->meaning));
    case Op::is_text: return text_goal(machine, c);
    case Op::at_least:
    case Op::at_most:
    case Op::above:
    case Op::below:
      return sentence(std::string(c.signal->meaning) + std::string(bound_words(c.op)) +
                      value_text(c.signal->name, c.number));
    case Op::event: return c.text == "pour" ? in_the_vat(machine, c.of) : std::string();
    case Op::all: {
      std::string out;
      for (const Condition& part : c.parts) {
        const std::string words = goal_of(machine, part);
        if (!words.empty()) out += (out.empty() ? "" : " ") + words;
      }
      return out;
    }
    case Op::any: return c.parts.empty() ? std::string() : goal_of(machine, c.parts.front());
    default: return {};
  }
}

}  // namespace

std::string_view rung_name(Rung rung) {
  constexpr std::array<std::string_view, rungs> names{"goal", "cue", "place", "step"};
  return names[static_cast<std::size_t>(rung)];
}

int grasp_of(const std::vector<std::string>& skills, const std::vector<ShownRun>& runs) {
  int weakest = 0;
  bool first = true;
  for (const std::string& skill : skills) {
    int alone = 0;
    bool with_help = false;
    for (const ShownRun& run : runs) {
      const auto mark = std::find_if(run.marks.begin(), run.marks.end(),
                                     [&skill](const SkillMark& one) { return one.skill == skill; });
      if (mark == run.marks.end()) continue;
      if (!mark->passed) {
        alone = 0;
        with_help = false;
      } else if (run.helped) {
        with_help = true;
      } else {
        ++alone;
      }
    }
    const int grasp = 2 * alone + (with_help ? 1 : 0);
    weakest = first ? grasp : std::min(weakest, grasp);
    first = false;
  }
  return weakest;
}

Rung first_rung(std::size_t step, std::size_t steps, int grasp) {
  const bool last_half = step >= steps - steps / 2;
  const int lost = std::clamp((std::max(grasp, 0) + (last_half ? 1 : 0)) / 2, 0, rungs - 1);
  return static_cast<Rung>(static_cast<int>(Rung::step) - lost);
}

std::string goal_words(const machine::Machine& machine, const Lesson& lesson, std::size_t step) {
  if (step >= lesson.steps.size()) return {};
  if (lesson.guide != nullptr) return "What is wrong is found on good grounds, made safe and put right.";
  const LessonStep& one = lesson.steps[step];
  if (one.means.hand && one.means.hand->is(hands::point_out)) return "The part that is asked for is shown.";
  std::string words;
  if (one.means.hand && one.means.hand->is(hands::pour))
    words = in_the_vat(machine, hands::first_text(*one.means.hand));
  if (words.empty()) words = goal_of(machine, one.done);
  return words.empty() ? "What comes next in the lesson is done." : words;
}

}  // namespace stirbench::training
