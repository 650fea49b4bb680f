#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/diagnosis/bayes_network.h"
#include "sim_core/diagnosis/posterior.h"
#include "tests/reference/report.h"

// Exact inference against published networks.
using namespace stirbench::diagnosis;

namespace {

using stirbench::tests::absolute;
using stirbench::tests::own_arithmetic;
using stirbench::tests::reference_check;
using stirbench::tests::Source;
using stirbench::tests::worked_example;

constexpr const char* part = "Diagnosis";

void check(const std::string& what, double ours, double reference, const Source& source, double tolerance) {
  reference_check(part, what, ours, reference, absolute(tolerance), source);
}

std::vector<double> yes(const std::vector<double>& p) {
  std::vector<double> table;
  for (const double one : p) {
    table.push_back(1.0 - one);
    table.push_back(one);
  }
  return table;
}

struct Burglary {
  BayesNetwork net;
  std::size_t b, e, a, j, m;
  Burglary() {
    b = net.add(2, {}, yes({.001}));
    e = net.add(2, {}, yes({.002}));
    a = net.add(2, {b, e}, yes({.001, .29, .94, .95}));
    j = net.add(2, {a}, yes({.05, .90}));
    m = net.add(2, {a}, yes({.01, .70}));
  }
};

struct Asia {
  BayesNetwork net;
  std::size_t a, t, s, l, b, e, x, d;
  Asia() {
    a = net.add(2, {}, yes({.01}));
    t = net.add(2, {a}, yes({.01, .05}));
    s = net.add(2, {}, yes({.5}));
    l = net.add(2, {s}, yes({.01, .1}));
    b = net.add(2, {s}, yes({.3, .6}));
    e = net.add(2, {t, l}, yes({0, 1, 1, 1}));
    x = net.add(2, {e}, yes({.05, .98}));
    d = net.add(2, {b, e}, yes({.1, .7, .8, .9}));
  }
};

}  // namespace

TEST_CASE("noisy-OR: the fever table") {
  const Source source = worked_example("Russell & Norvig, fever example (from memory)", "exact products");
  // Inhibitions .6 .2 .1 are 1 - work.
  const std::vector<double> table = noisy_or({.4, .8, .9}, 0.0);
  const double expected[] = {0, .9, .8, .98, .4, .94, .88, .988};
  for (std::size_t row = 0; row < 8; ++row)
    check(stirbench::tests::at("P(fever), row", static_cast<double>(row)), table[2 * row + 1], expected[row],
          source, 1e-12);
}

TEST_CASE("noisy-OR with leak: posteriors of three causes") {
  const Source source = own_arithmetic("worked in the reference notes", "half of the last digit");
  BayesNetwork net;
  const std::size_t a = net.add(2, {}, yes({.02}));
  const std::size_t b = net.add(2, {}, yes({.05}));
  const std::size_t c = net.add(2, {}, yes({.01}));
  const std::size_t e = net.add(2, {a, b, c}, noisy_or({.9, .6, .8}, .01));
  check("noisy-OR P(e)", net.probability({{e, 1}}), .0645295168, source, 5e-11);
  check("noisy-OR P(cause 1 | e)", net.posterior(a, {{e, 1}})[1], .2804106663, source, 5e-11);
  check("noisy-OR P(cause 2 | e)", net.posterior(b, {{e, 1}})[1], .4759364446, source, 5e-11);
  check("noisy-OR P(cause 3 | e)", net.posterior(c, {{e, 1}})[1], .1257404549, source, 5e-11);
}

TEST_CASE("one fault of several, two symptoms") {
  const Source source = own_arithmetic("worked in the reference notes", "half of the last digit");
  Model model;
  model.smoothing = 0.0;
  model.unknown_norm = 0.0;
  model.pair_years = 0.0;
  model.symptoms.resize(2);
  const double rate[] = {.5, .3, .2};
  const double first[] = {.9, .4, .1};
  const double second[] = {.2, .7, .95};
  for (std::size_t c = 0; c < 3; ++c) {
    Cause cause;
    cause.id = "c" + std::to_string(c);
    cause.per_year = rate[c];
    model.causes.push_back(cause);
    model.profiles.push_back({c, "", 1.0, {{1.0 - first[c], first[c]}, {1.0 - second[c], second[c]}}});
  }
  const Posterior p = posterior(model, {{0, 1}, {1, 0}});
  const double expected[] = {.9068010076, .0906801008, .0025188917};
  for (std::size_t c = 0; c < 3; ++c)
    check(stirbench::tests::at("P(fault | s1, not s2), fault", static_cast<double>(c + 1)), p.cause_p[c],
          expected[c], source, 5e-11);
}

TEST_CASE("burglary") {
  const Source printed =
      worked_example("Pearl 1988; Russell & Norvig fig. 14.2, as printed", "half of the last digit");
  const Source source =
      own_arithmetic("Russell & Norvig fig. 14.2 (tables from the book's code), every state summed",
                     "half of the last digit");
  const Burglary n;
  check("P(B | j, m)", n.net.posterior(n.b, {{n.j, 1}, {n.m, 1}})[1], .2841718354, source, 5e-11);
  check("P(B | j, m) as printed", n.net.posterior(n.b, {{n.j, 1}, {n.m, 1}})[1], .284, printed, 5e-4);
  check("P(not B | j, m) as printed", n.net.posterior(n.b, {{n.j, 1}, {n.m, 1}})[0], .716, printed, 5e-4);
  check("P(j, m, a, not b, not e) as printed",
        n.net.probability({{n.j, 1}, {n.m, 1}, {n.a, 1}, {n.b, 0}, {n.e, 0}}), .000628, printed, 5e-7);
  check("P(E | j, m)", n.net.posterior(n.e, {{n.j, 1}, {n.m, 1}})[1], .1760668384, source, 5e-11);
  check("P(A | j, m)", n.net.posterior(n.a, {{n.j, 1}, {n.m, 1}})[1], .7606920389, source, 5e-11);
  check("P(j, m)", n.net.probability({{n.j, 1}, {n.m, 1}}), .002084100239, source, 5e-13);
  check("P(B | j)", n.net.posterior(n.b, {{n.j, 1}})[1], .0162837299, source, 5e-11);
  check("P(j, m, a, not b, not e)", n.net.probability({{n.j, 1}, {n.m, 1}, {n.a, 1}, {n.b, 0}, {n.e, 0}}),
        .00062811126, source, 5e-15);
  check("P(B | a)", n.net.posterior(n.b, {{n.a, 1}})[1], .3735512283, source, 5e-11);
  check("P(B | a, e): explained away", n.net.posterior(n.b, {{n.a, 1}, {n.e, 1}})[1], .0032684236, source,
        5e-11);
}

TEST_CASE("sprinkler") {
  const Source source = own_arithmetic(
      "Russell & Norvig, sprinkler (tables from the book's code), every state "
      "summed",
      "half of the last digit");
  BayesNetwork net;
  const std::size_t c = net.add(2, {}, yes({.5}));
  const std::size_t s = net.add(2, {c}, yes({.5, .1}));
  const std::size_t r = net.add(2, {c}, yes({.2, .8}));
  const std::size_t w = net.add(2, {s, r}, yes({0, .90, .90, .99}));
  check("P(R | w)", net.posterior(r, {{w, 1}})[1], .7079276773, source, 5e-11);
  check("P(S | w)", net.posterior(s, {{w, 1}})[1], .4297635605, source, 5e-11);
  check("P(S | w, r)", net.posterior(s, {{w, 1}, {r, 1}})[1], .1944990177, source, 5e-11);
}

TEST_CASE("chest clinic") {
  const Source source = worked_example(
      "Lauritzen & Spiegelhalter 1988, as an open package's own test asserts", "half of the last digit");
  const Source more =
      own_arithmetic("chest clinic, posteriors worked in the reference notes", "half of the last digit");
  const Asia n;
  check("chest clinic P(a, d)", n.net.probability({{n.a, 1}, {n.d, 1}}), .004501375, source, 5e-10);
  check("chest clinic P(D)", n.net.posterior(n.d, {})[1], .4359706, more, 5e-8);
  check("chest clinic P(d, x)", n.net.probability({{n.d, 1}, {n.x, 1}}), .070670104, more, 5e-10);
  check("chest clinic P(a, d, x)", n.net.probability({{n.a, 1}, {n.d, 1}, {n.x, 1}}), .000988227, more,
        5e-10);
  struct Row {
    const char* name;
    BayesNetwork::Evidence evidence;
    double t, l, b, e, x;
  };
  const Row rows[] = {{"none", {}, .0104, .055, .45, .064828, .11029},
                      {"a d", {{n.a, 1}, {n.d, 1}}, .087751, .099525, .811402, .1823, .219539},
                      {"d", {{n.d, 1}}, .018845, .102759, .833967, .120536, .162098},
                      {"d x", {{n.d, 1}, {n.x, 1}}, .113933, .621253, .681869, .728725, 1},
                      {"a d x", {{n.a, 1}, {n.d, 1}, {n.x, 1}}, .391712, .444271, .628822, .813769, 1},
                      {"a d not x", {{n.a, 1}, {n.d, 1}, {n.x, 0}}, .002249, .002550, .862761, .004672, 0}};
  for (const Row& row : rows) {
    const std::pair<const char*, std::pair<std::size_t, double>> asked[] = {{"T", {n.t, row.t}},
                                                                            {"L", {n.l, row.l}},
                                                                            {"B", {n.b, row.b}},
                                                                            {"E", {n.e, row.e}},
                                                                            {"X", {n.x, row.x}}};
    for (const auto& [name, value] : asked) {
      check(stirbench::tests::at(std::string("chest clinic ") + name, row.name),
            n.net.posterior(value.first, row.evidence)[1], value.second,
            row.evidence.empty() && *name != 'E' && *name != 'X' ? source : more, 5e-7);
    }
  }
}
