#include "sim_core/training/assessment.h"

#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>

#include "sim_core/training/mastery.h"
#include "sim_core/training/sequential.h"
#include "sim_core/training/spacing.h"
#include "tests/reference/report.h"

using namespace stirbench::training;
using stirbench::tests::absolute;
using stirbench::tests::at;
using stirbench::tests::reference_check;
using stirbench::tests::Source;
using stirbench::tests::worked_example;

namespace {

constexpr const char* part = "Training";

// Half a unit of the last digit given.
bool near(double value, double published, double unit) {
  return std::abs(value - published) <= 0.5 * unit + 1e-12;
}

}  // namespace

// Arithmetic of the binomial; the run count is the zero-failure test plan of reliability engineering
// (success-run theorem).
TEST_CASE("must-pass items stacked, and runs without a failure") {
  CHECK(all_met_norm(0.98, 5) == doctest::Approx(0.9039207968).epsilon(1e-10));
  CHECK(all_met_norm(0.99, 5) == doctest::Approx(0.9509900499).epsilon(1e-10));
  CHECK(all_met_norm(0.95, 5) == doctest::Approx(0.7737809375).epsilon(1e-10));
  CHECK(runs_without_failure(0.95, 0.95) == 59);
  CHECK(near(all_met_norm(0.95, 59), 0.0484945, 1e-7));
  CHECK(all_met_norm(0.95, 58) > 0.05);  // 58 would not do
  CHECK_THROWS_AS(runs_without_failure(1.0, 0.95), std::invalid_argument);
}

// Angoff's panel cut: worked by hand from his definition (W. H. Angoff 1971, in Educational Measurement, 2nd
// ed.).
TEST_CASE("a panel's cut score") {
  const PanelCut cut =
      panel_cut({{0.9, 0.8, 0.7, 0.6, 0.95}, {0.85, 0.75, 0.8, 0.5, 0.9}, {0.95, 0.7, 0.65, 0.55, 1.0}});
  CHECK(cut.by_judge[0] == doctest::Approx(3.95));
  CHECK(cut.by_judge[1] == doctest::Approx(3.80));
  CHECK(cut.by_judge[2] == doctest::Approx(3.85));
  CHECK(near(cut.cut, 3.8666666667, 1e-10));
  CHECK(near(cut.cut_norm, 0.77333, 1e-5));
  CHECK(near(cut.deviation, 0.0763762616, 1e-10));
  CHECK(near(cut.error, 0.0440958552, 1e-10));
  CHECK_THROWS_AS(panel_cut({}), std::invalid_argument);
  CHECK_THROWS_AS(panel_cut({{0.5, 0.5}, {0.5}}), std::invalid_argument);
}

// Cohen's kappa (Educational and Psychological Measurement 20, 1960); Subkoviak, Journal of Educational
// Measurement 13, 1976.
TEST_CASE("the same verdict twice") {
  CHECK(consistency(0.92, 0.5).kappa == doctest::Approx(0.84));
  CHECK(near(consistency(0.92, 0.9).kappa, 0.5555555556, 1e-10));
  const std::vector<double> shares = {0.95, 0.9, 0.85, 0.8, 0.7, 0.5};
  const std::vector<double> chances = {0.988496, 0.929809, 0.820196, 0.6778, 0.382783, 0.054688};
  for (std::size_t i = 0; i < shares.size(); ++i)
    CHECK(near(chance_to_pass(shares[i], 10, 8), chances[i], 1e-6));
  const Consistency c = one_form_consistency(shares, 10, 8);
  CHECK(near(c.same_norm, 0.7565154185, 1e-10));
  CHECK(near(c.chance_norm, 0.5404959152, 1e-10));
  CHECK(near(c.kappa, 0.4701144353, 1e-10));
}

// Source: A. Wald, Sequential Analysis (1947), equations 3:10..3:30; the first row's plan is that of T. W.
// Frick's and R. E. Welch's studies of computer-adaptive mastery tests; the numbers follow from the
// equations.
TEST_CASE("sequential test: bounds, lines and mean numbers of tests") {
  struct Row {
    SequentialPlan plan;
    double right, wrong, a, b, slope, over, under, mean_yes, mean_no;
    int passes, fails;
  };
  const Row rows[] = {
      {{0.40, 0.85, 0.025, 0.025, 0},
       0.7538,
       -1.3863,
       3.6636,
       -3.6636,
       0.6478,
       1.7119,
       -1.7119,
       8.04,
       6.56,
       5,
       3},
      {{0.60, 0.85, 0.05, 0.05, 0},
       0.3483,
       -0.9808,
       2.9444,
       -2.9444,
       0.7379,
       2.2153,
       -2.2153,
       17.79,
       14.45,
       9,
       4},
      {{0.70, 0.90, 0.05, 0.10, 0},
       0.2513,
       -1.0986,
       2.8904,
       -2.2513,
       0.8138,
       2.1411,
       -1.6677,
       20.43,
       12.98,
       12,
       3},
      {{0.50, 0.80, 0.10, 0.10, 0},
       0.4700,
       -0.9163,
       2.1972,
       -2.1972,
       0.6610,
       1.5850,
       -1.5850,
       9.12,
       7.88,
       5,
       3},
  };
  for (const Row& row : rows) {
    CAPTURE(row.plan.p_not);
    const SequentialBounds b = bounds(row.plan);
    CHECK(near(b.per_pass, row.right, 1e-4));
    CHECK(near(b.per_fail, row.wrong, 1e-4));
    CHECK(near(b.competent, row.a, 1e-4));
    CHECK(near(b.not_yet, row.b, 1e-4));
    CHECK(near(b.slope, row.slope, 1e-4));
    CHECK(near(b.over, row.over, 1e-4));
    CHECK(near(b.under, row.under, 1e-4));
    CHECK(near(b.mean_tests_competent, row.mean_yes, 1e-2));
    CHECK(near(b.mean_tests_not, row.mean_no, 1e-2));
    CHECK(b.fewest_to_competent == row.passes);
    CHECK(b.fewest_to_not_yet == row.fails);
  }
}

// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section on sequential sampling plans: p1 = 0.01,
// p2 = 0.10, alpha = 0.05, beta = 0.10; accept x <= -0.939 + 0.0397 n, reject x >= 1.205 + 0.0397 n; first
// acceptance at n = 24, first rejection at n = 2. The handbook counts defects, we count passes: passed = n -
// x turns one line into the other.
TEST_CASE("sequential test: the handbook's plan for defects") {
  // Here a defect is a fail: p_not = 0.90 passes for the bad lot, p_competent = 0.99 for the good one. The
  // handbook's alpha (rejecting a good lot) is our beta.
  const SequentialPlan plan{0.90, 0.99, 0.10, 0.05, 0};
  const SequentialBounds b = bounds(plan);
  // x = n - passed: competent when x <= (1 - slope) n - over; not yet when x >= (1 - slope) n - under.
  const Source nist =
      worked_example("NIST/SEMATECH e-Handbook, sequential sampling plan, p1 0.01, p2 0.10 (from memory)",
                     "half of the last digit");
  reference_check(part, "slope of the sequential lines", 1.0 - b.slope, 0.0397, absolute(0.00005), nist);
  reference_check(part, "intercept of acceptance", -b.over, -0.939, absolute(0.0005), nist);
  reference_check(part, "intercept of rejection", -b.under, 1.205, absolute(0.0005), nist);
  reference_check(part, "first acceptance after", b.fewest_to_competent, 24.0, absolute(0.5), nist);
  reference_check(part, "first rejection after", b.fewest_to_not_yet, 2.0, absolute(0.5), nist);
  CHECK(near(1.0 - b.slope, 0.0397474, 1e-7));
  CHECK(near(-b.over, -0.9388616, 1e-7));
  CHECK(near(-b.under, 1.2053786, 1e-7));
  // Wald's own example: p0 = 0.1, p1 = 0.3, alpha = 0.02, beta = 0.03.
  const SequentialBounds w = bounds({0.7, 0.9, 0.03, 0.02, 0});
  CHECK(near(1.0 - w.slope, 0.1862, 1e-4));
  CHECK(near(-w.over, -2.5826, 1e-4));
  CHECK(near(-w.under, 2.8754, 1e-4));
}

TEST_CASE("sequential test: runs from start to verdict") {
  const SequentialPlan first{0.40, 0.85, 0.025, 0.025, 0};
  SequentialResult r = judge(first, {true, true, true, true, true});
  CHECK(r.answer == SequentialAnswer::competent);
  CHECK(r.decided_after == 5);
  CHECK(near(r.llr, 3.7689, 1e-4));
  r = judge(first, {false, false, false});
  CHECK(r.answer == SequentialAnswer::not_yet);
  CHECK(near(r.llr, -4.1589, 1e-4));
  r = judge(first, {true, false, true, true, true, true, true, true, false});
  CHECK(r.answer == SequentialAnswer::competent);
  CHECK(r.decided_after == 8);  // the ninth is not looked at
  CHECK(near(r.llr, 3.8901, 1e-4));
  const SequentialPlan second{0.60, 0.85, 0.05, 0.05, 0};
  std::vector<bool> tests = {true, true, true, false};
  CHECK(near(judge(second, tests).llr, 0.0641, 1e-4));
  CHECK(judge(second, tests).answer == SequentialAnswer::go_on);
  tests.resize(20, true);
  r = judge(second, tests);
  CHECK(r.decided_after == 13);
  CHECK(near(r.llr, 3.1989, 1e-4));
}

TEST_CASE("sequential test: stopped at its greatest length it says not yet") {
  const SequentialPlan plan{0.60, 0.85, 0.05, 0.05, 6};
  const SequentialResult r = judge(plan, {true, true, false, true, true, true, true});
  CHECK(r.answer == SequentialAnswer::not_yet);
  CHECK(r.truncated);
  CHECK(r.decided_after == 6);
  CHECK_THROWS_AS(check(SequentialPlan{0.9, 0.8, 0.05, 0.05, 0}), std::invalid_argument);
}

// The stated error rates hold: the exact chance of a wrong verdict, by carrying the whole distribution of the
// LLR forward (no sampling). Wald's inequalities: alpha' <= alpha / (1 - beta), beta' <= beta / (1 - alpha).
TEST_CASE("sequential test: the exact error rates keep Wald's inequalities") {
  for (const SequentialPlan& plan :
       {SequentialPlan{0.60, 0.85, 0.05, 0.05, 0}, SequentialPlan{0.40, 0.85, 0.025, 0.025, 0},
        SequentialPlan{0.70, 0.90, 0.05, 0.10, 0}}) {
    const SequentialBounds b = bounds(plan);
    for (const bool competent : {false, true}) {
      const double p = competent ? plan.p_competent : plan.p_not;
      std::vector<double> by_passes = {1.0};
      double yes = 0.0;
      double no = 0.0;
      for (int n = 1; n <= 600; ++n) {
        std::vector<double> next(by_passes.size() + 1, 0.0);
        for (std::size_t k = 0; k < by_passes.size(); ++k) {
          next[k] += by_passes[k] * (1.0 - p);
          next[k + 1] += by_passes[k] * p;
        }
        for (std::size_t k = 0; k < next.size(); ++k) {
          const double llr =
              static_cast<double>(k) * b.per_pass + static_cast<double>(n - static_cast<int>(k)) * b.per_fail;
          if (llr >= b.competent)
            yes += next[k], next[k] = 0.0;
          else if (llr <= b.not_yet)
            no += next[k], next[k] = 0.0;
        }
        by_passes = next;
      }
      CHECK(yes + no == doctest::Approx(1.0).epsilon(1e-6));
      if (competent)
        CHECK(no <= plan.beta / (1.0 - plan.alpha));
      else
        CHECK(yes <= plan.alpha / (1.0 - plan.beta));
    }
  }
}

// Source: Corbett and Anderson 1995, the equations; the numbers of A start from the parameters of a public
// tutorial on the model (0.5, 0.4, 0.2, 0.2), both worked by hand.
TEST_CASE("mastery model: two worked rows") {
  const MasteryModel a{0.5, 0.4, 0.2, 0.2, 0.0};
  const bool seen_a[] = {false, false, true, true, true, false, true, true, false, true};
  const double known_a[] = {0.52,     0.527869, 0.890355, 0.98208,  0.997275,
                            0.993514, 0.999022, 0.999853, 0.999648, 0.999947};
  const double right_a[] = {0.5,      0.512,    0.516721, 0.734213, 0.789248,
                            0.798365, 0.796108, 0.799413, 0.799912, 0.799789};
  double known = a.prior_norm;
  for (int i = 0; i < 10; ++i) {
    CHECK(near(chance_right(a, known), right_a[i], 1e-6));
    known = after_attempt(a, known, seen_a[i]);
    CHECK(near(known, known_a[i], 1e-6));
  }
  const MasteryModel b{0.3, 0.1, 0.1, 0.2, 0.0};
  const bool seen_b[] = {true, true, false, true, true, true};
  const double known_b[] = {0.692683, 0.919231, 0.628501, 0.895508, 0.977253, 0.995369};
  const double right_b[] = {0.41, 0.684878, 0.843462, 0.639951, 0.826856, 0.884077};
  known = b.prior_norm;
  for (int i = 0; i < 6; ++i) {
    CHECK(near(chance_right(b, known), right_b[i], 1e-6));
    known = after_attempt(b, known, seen_b[i]);
    CHECK(near(known, known_b[i], 1e-6));
  }
  CHECK(known_after(b, {true, true, false, true, true, true}) == known);
  CHECK_THROWS_AS(check(MasteryModel{0.3, 0.1, 0.5, 0.2, 0.0}), std::invalid_argument);
  CHECK_THROWS_AS(check(MasteryModel{0.3, 0.1, 0.1, 0.6, 0.0}), std::invalid_argument);
}

// Source: SM-2, P. A. Wozniak 1990: description and program differ in the easiness after a fail.
TEST_CASE("spacing: the easiness rule") {
  const int grades[] = {5, 4, 3, 5, 2, 5, 4};
  const int days[] = {1, 6, 16, 40, 1, 1, 6};
  const double by_text[] = {2.6, 2.6, 2.46, 2.56, 2.56, 2.66, 2.66};
  const double by_program[] = {2.6, 2.6, 2.46, 2.56, 2.24, 2.34, 2.34};
  EasinessState text;
  EasinessState program;
  for (int i = 0; i < 7; ++i) {
    text = after_grade(text, grades[i]);
    program = after_grade(program, grades[i], true);
    CHECK(text.interval_days == days[i]);
    CHECK(program.interval_days == days[i]);
    CHECK(text.easiness == doctest::Approx(by_text[i]));
    CHECK(program.easiness == doctest::Approx(by_program[i]));
  }
  const double change[] = {-0.80, -0.54, -0.32, -0.14, 0.0, 0.10};
  const Source sm2 = worked_example("SM-2, Wozniak 1990: change of the easiness by grade (secondary)",
                                    "half of the last digit");
  for (int grade = 0; grade <= 5; ++grade)
    reference_check(part, at("change of the easiness, grade", grade),
                    after_grade({}, grade, true).easiness - 2.5, change[grade], absolute(0.005), sm2);
  EasinessState low;
  for (int i = 0; i < 6; ++i) low = after_grade(low, 0, true);
  CHECK(low.easiness == 1.3);
}

// Source: the published tests of py-fsrs 6.3.1 (MIT), for the first two; the others follow from its
// equations.
TEST_CASE("spacing: memory model, published reviews") {
  const Source fsrs = worked_example("published tests of py-fsrs 6.3.1", "whole days; its tests allow 1e-4");
  const MemoryModel model;
  Memory memory;
  const int grades[] = {3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3};
  const int days[] = {0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21};
  std::int64_t elapsed_s = 0;
  for (int i = 0; i < 13; ++i) {
    CAPTURE(i);
    memory = after_review(model, memory, static_cast<Recall>(grades[i]), elapsed_s);
    reference_check(part, at("days until the next review, review", i + 1),
                    static_cast<double>(memory.due_s / 86400), days[i], absolute(0.5), fsrs);
    elapsed_s = memory.due_s;
  }
  Memory other;
  const int more[] = {1, 3, 3, 3, 3, 3};
  const int waits[] = {0, 0, 1, 3, 8, 21};
  for (int i = 0; i < 6; ++i)
    other = after_review(model, other, static_cast<Recall>(more[i]), 86400LL * waits[i]);
  reference_check(part, "stability after six reviews, days", other.stability_days, 53.62691, absolute(1e-4),
                  fsrs);
  reference_check(part, "difficulty after six reviews", other.difficulty, 6.3574867, absolute(1e-4), fsrs);
}

TEST_CASE("spacing: memory model, chance to recall, intervals, first difficulty") {
  const MemoryModel model;
  CHECK(recall_norm(model, 10.0, 10.0) == doctest::Approx(0.9));
  CHECK(near(recall_norm(model, 30.0, 10.0), 0.8093881036, 1e-10));
  CHECK(near(recall_norm(model, 100.0, 10.0), 0.6928266346, 1e-10));
  MemoryModel other = model;
  CHECK(interval_days(other, 10.0) == 10);
  other.wished_recall_norm = 0.8;
  CHECK(interval_days(other, 10.0) == 33);
  other.wished_recall_norm = 0.95;
  CHECK(interval_days(other, 10.0) == 4);
  const double first[] = {6.4133, 5.112171, 2.118104, 1.0};
  for (int g = 1; g <= 4; ++g)
    CHECK(near(after_review(model, {}, static_cast<Recall>(g), 0).difficulty, first[g - 1], 1e-6));
}
