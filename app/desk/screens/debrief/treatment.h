#pragma once

#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/training/batch_judge.h"

namespace stirbench::desk::screens {

// Heat treatment and cooling of a run at its end: rows of the chosen jurisdiction (empty: all) with why,
// lethality of the chosen organism (0: all) with its caution, cooling, storage, growth, quality. Returns the
// moment [s] of a pressed row, negative when none was pressed.
double draw_treatment(kit::Ui& ui, const training::BatchJudge& judge, const machine::State& end,
                      const std::string& rules_of, int& organism, const kit::Rect& rect);

}  // namespace stirbench::desk::screens
