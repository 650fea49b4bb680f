#pragma once

#include <future>
#include <optional>
#include <string>
#include <vector>

#include "app/desk/ui/ui.h"
#include "app/library/recipe_store.h"

// The recipe bench's two halves: what is edited, and what follows from it. No files, no navigation: the screen does those.
namespace stirbench::desk {

// The recipe under the pen.
struct RecipeDraft {
  control::Recipe recipe;
  bool own = false;         // may be changed and saved; shipped recipes are read only
  bool changed = false;     // since it was opened or saved
  library::RecipeReport report;
  std::string batch_problem;
};

// Draws the editable half; true when something changed in this frame (the caller checks the recipe again).
bool draw_recipe_editor(Ui& ui, RecipeDraft& draft, const library::Library& library, const Rect& rect);

// Draws figures, heat-treatment rows, problems and cautions.
void draw_recipe_report(Ui& ui, const RecipeDraft& draft, const plant::MachineSpec& machine,
                        const std::optional<double>& finish_s, bool estimating, const Rect& rect);

// A problem in a person's words, with its place in the recipe.
std::string problem_words(const library::Problem& problem);

// Runs estimate_finish_s beside the drawing thread; at most one at a time, the newest request wins.
class FinishEstimate {
 public:
  void ask(const library::Library& library, const std::string& machine_id, const control::Recipe& recipe, bool sound);
  // True when a new answer has arrived in this call.
  bool poll();
  bool busy() const { return running_.valid(); }
  const std::optional<double>& seconds() const { return seconds_; }

 private:
  struct Question {
    library::Library library;
    std::string machine;
    control::Recipe recipe;
  };
  void start(Question question);

  std::future<double> running_;
  std::optional<Question> next_;
  std::optional<double> seconds_;
  bool stale_ = false;   // the running answer is for a recipe that has changed since
};

}  // namespace stirbench::desk
