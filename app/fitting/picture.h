#pragma once

#include <string>

#include "sim_core/identification/fit.h"

namespace stirbench::fitting {

// Measured over simulated, and under it the residuals with what the model itself may be off as a band; an SVG
// document of one page's width.
std::string picture_of(const identification::Fit& fit, const std::string& title);

}  // namespace stirbench::fitting
