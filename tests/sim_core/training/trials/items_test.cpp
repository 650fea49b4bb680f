#include "sim_core/training/trials/items.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace stirbench;
using training::Play;

namespace {

const std::vector<double> test_points{10.0, 20.0, 5.0, 0.0};

std::vector<Play> six_plays() {
  return {{true, {1, 1, 1, 1}},  {true, {1, 1, 0, 1}},    {true, {1, 0.5, 1, 0}},
          {false, {1, 0, 0, 1}}, {false, {0, 0.5, 0, 0}}, {false, {0, 0, 1, 0}}};
}

}  // namespace

TEST_CASE("item figures are those of numpy 1.24.2 (corrcoef against the rest, means, var with n - 1)") {
  const auto figures = training::item_figures(test_points, six_plays());
  REQUIRE(figures.size() == 4);
  const double difficulty[] = {2.0 / 3.0, 0.5, 0.5, 0.5};
  const double discrimination[] = {0.41403933560541256, 0.38254602783800296, 0.0, 0.5146502354656654};
  const double gain[] = {2.0 / 3.0, 2.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0};
  for (std::size_t i = 0; i < figures.size(); ++i) {
    CAPTURE(i);
    CHECK(figures[i].difficulty == doctest::Approx(difficulty[i]).epsilon(1e-12));
    CHECK(figures[i].discrimination == doctest::Approx(discrimination[i]).epsilon(1e-9).scale(1.0));
    CHECK(figures[i].gain == doctest::Approx(gain[i]).epsilon(1e-12));
    CHECK(figures[i].tells());
  }
  CHECK(training::alpha_of(test_points, six_plays()) == doctest::Approx(0.3891891891891892).epsilon(1e-12));
}

TEST_CASE("an item that everybody earns tells nothing, nor does one that goes against the rest") {
  const auto figures = training::item_figures(
      {1.0, 1.0, 1.0}, {{true, {1, 1, 0}}, {true, {1, 1, 0}}, {false, {1, 0, 1}}, {false, {1, 0, 1}}});
  CHECK_FALSE(figures[0].tells());
  CHECK(figures[0].discrimination == 0.0);
  CHECK(figures[2].discrimination == doctest::Approx(-1.0));
  CHECK_FALSE(figures[2].tells());
}

// Spearman and Brown 1910: k parallel items that correlate by r have the reliability k r / (1 + (k - 1) r).
TEST_CASE("alpha of parallel items is what Spearman and Brown foretell") {
  // Two items over eight plays: same means and variances, correlation 0.5.
  std::vector<Play> plays;
  for (const auto& [a, b] :
       std::vector<std::pair<double, double>>{{1, 1}, {1, 1}, {1, 1}, {1, 0}, {0, 1}, {0, 0}, {0, 0}, {0, 0}})
    plays.push_back({false, {a, b}});
  CHECK(training::alpha_of({3.0, 3.0}, plays) == doctest::Approx(2.0 * 0.5 / 1.5).epsilon(1e-12));
  CHECK(training::alpha_of({3.0}, {{false, {1}}, {false, {0}}}) == 0.0);
}

TEST_CASE("a play of another test is refused") {
  CHECK_THROWS_AS(training::item_figures({1.0, 2.0}, {{true, {1.0}}}), std::invalid_argument);
}
