#pragma once

#include <cstddef>
#include <string>
#include <vector>

// What each item of a test tells: classical item statistics over a number of plays.
//
// An item's share in a play is points earned / points of the item, 0 .. 1; of an item without points 1 when
// it was met, else 0. A play's total is the sum of its items' points.
//   difficulty      mean share over all plays ("p value": 1 is earned by everybody, 0 by nobody)
//   discrimination  Pearson correlation of the share with the total of the other items (corrected item-total
//                   correlation); 0 where either does not vary
//   gain            mean share of those who know minus that of those who do not (Brennan's index, R. L.
//                   Brennan 1972, from memory): what counts where a test divides and does not rank
//   reliability     Cronbach's alpha, k / (k - 1) (1 - sum of item variances / variance of the total), of the
//                   items' points (L. J. Cronbach 1951)
// R. L. Ebel's reading of discrimination (from memory): from 0.40 very good, from 0.20 to be improved, below
// to be rewritten or dropped. Correlation and gain must both stay below `tells_norm` for an item to be named
// as one that tells nothing (a choice); a must-pass item that guards against a rare harm may well do so.
namespace stirbench::training {

inline constexpr double tells_norm = 0.10;

struct Play {
  bool knows = false;          // played by one who knows the work
  std::vector<double> shares;  // one for each item, 0 .. 1
};

struct ItemFigures {
  double difficulty = 0.0;
  double discrimination = 0.0;
  double gain = 0.0;
  bool tells() const { return discrimination >= tells_norm || gain >= tells_norm; }
};

// `points`: of each item, >= 0. Each play has one share for each; std::invalid_argument else.
std::vector<ItemFigures> item_figures(const std::vector<double>& points, const std::vector<Play>& plays);

// 0 for fewer than two items with points, or when all totals are the same.
double alpha_of(const std::vector<double>& points, const std::vector<Play>& plays);

}  // namespace stirbench::training
