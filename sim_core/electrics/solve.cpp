#include "sim_core/electrics/solve.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <utility>

#include "sim_core/electrics/assemble.h"

namespace stirbench::electrics {
namespace {

constexpr double leak_S = 1.0e-12;

struct Nodes {
  std::vector<std::uint16_t> parent;
  explicit Nodes(std::size_t terminals) : parent(terminals) {
    std::iota(parent.begin(), parent.end(), std::uint16_t{0});
  }
  std::uint16_t root(std::uint16_t t) {
    while (parent[t] != t) t = parent[t] = parent[parent[t]];
    return t;
  }
};

// Root and row of each terminal's node: -1 where a source gives the voltage.
struct Rows {
  std::vector<std::uint16_t> root;
  std::vector<int> row;
  int size = 0;
};
Rows number_rows(const NetworkBranches& from, Nodes& nodes, std::size_t terminals) {
  Rows out{std::vector<std::uint16_t>(terminals), std::vector<int>(terminals, -2), 0};
  for (const Source& s : from.sources) out.row[nodes.root(s.at)] = -1;
  for (std::size_t t = 0; t < terminals; ++t) {
    out.root[t] = nodes.root(static_cast<std::uint16_t>(t));
    int& row = out.row[out.root[t]];
    if (row == -2) row = out.size++;
  }
  for (std::size_t t = 0; t < terminals; ++t) out.row[t] = out.row[out.root[t]];
  return out;
}

// Voltages of all terminals. The number type is complex for phasors and plain for direct current.
template <typename Number>
void solve_nodes(const NetworkBranches& from, const InstrumentBranch* probe, Nodes& nodes,
                 std::vector<Phasor>& volt) {
  using Matrix = Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>;
  using Vector = Eigen::Matrix<Number, Eigen::Dynamic, 1>;
  const auto number = [](const Phasor& p) {
    if constexpr (std::is_same_v<Number, double>)
      return p.real();
    else
      return p;
  };
  const std::size_t n = volt.size();
  const Rows rows = number_rows(from, nodes, n);
  const std::vector<std::uint16_t>& root = rows.root;
  const std::vector<int>& row = rows.row;
  std::vector<Number> given(n, Number{});
  for (const Source& s : from.sources) given[root[s.at]] = number(s.volt);
  Matrix Y = Matrix::Zero(rows.size, rows.size);
  Vector I = Vector::Zero(rows.size);
  for (int i = 0; i < rows.size; ++i) Y(i, i) = leak_S;
  const auto stamp = [&](std::uint16_t at, std::uint16_t by, Number S) {
    const int r = row[at];
    if (r < 0) return;
    if (row[by] >= 0)
      Y(r, row[by]) += S;
    else
      I(r) -= S * given[root[by]];
  };
  const auto between = [&](std::uint16_t a, std::uint16_t b, Number S) {
    if (root[a] == root[b]) return;
    stamp(a, a, S);
    stamp(b, b, S);
    stamp(a, b, -S);
    stamp(b, a, -S);
  };
  for (const Branch& b : from.branches) {
    if (!b.joined) between(b.a, b.b, number(b.S));
  }
  for (const Stamp& s : from.stamps) {
    for (std::size_t r = 0; r < static_cast<std::size_t>(s.size); ++r) {
      for (std::size_t k = 0; k < static_cast<std::size_t>(s.size); ++k)
        stamp(s.at[r], s.at[k], number(s.S[r][k]));
    }
  }
  const auto inject = [&](std::uint16_t at, double A) {
    if (row[at] >= 0) I(row[at]) += A;
  };
  for (const Injection& j : from.injections) inject(j.at, j.A);
  if (probe != nullptr) {
    if (probe->S > 0.0) between(probe->a, probe->b, probe->S);
    inject(probe->a, probe->drive_A);
    inject(probe->b, -probe->drive_A);
  }
  const Vector V = Y.partialPivLu().solve(I);
  for (std::size_t t = 0; t < n; ++t) volt[t] = row[t] >= 0 ? Phasor(V(row[t])) : Phasor(given[root[t]]);
}

// What leaves each terminal into parts, from the voltages.
void leave(const NetworkBranches& from, const InstrumentBranch* probe, Solution& s) {
  const auto through = [&](std::uint16_t a, std::uint16_t b, const Phasor& A) {
    s.out_A[a] += A;
    s.out_A[b] -= A;
  };
  for (const Branch& b : from.branches) {
    if (b.joined) continue;
    const Phasor A = b.S * (s.volt[b.a] - s.volt[b.b]);
    if (b.wire >= 0) s.wire_A[static_cast<std::size_t>(b.wire)] = A;
    through(b.a, b.b, A);
  }
  for (const Stamp& one : from.stamps) {
    for (std::size_t r = 0; r < static_cast<std::size_t>(one.size); ++r) {
      for (std::size_t k = 0; k < static_cast<std::size_t>(one.size); ++k)
        s.out_A[one.at[r]] += one.S[r][k] * s.volt[one.at[k]];
    }
  }
  for (const Injection& j : from.injections) s.out_A[j.at] -= j.A;
  if (probe != nullptr) {
    through(probe->a, probe->b, probe->S * (s.volt[probe->a] - s.volt[probe->b]));
    through(probe->a, probe->b, -probe->drive_A);
  }
}

// Currents in resistance-free joints: leaves of the tree first, their need passed on towards a source. What
// is left are loops.
class Joints {
 public:
  Joints(const NetworkBranches& from, std::size_t terminals)
      : from_(from), first_(terminals + 1), open_(terminals), source_(terminals, false) {
    for (const Branch& b : from.branches) {
      if (!b.joined) continue;
      ++open_[b.a];
      ++open_[b.b];
    }
    for (std::size_t t = 0; t < terminals; ++t) first_[t + 1] = first_[t] + open_[t];
    ends_.resize(first_[terminals]);
    std::vector<std::uint32_t> next(first_.begin(), first_.end() - 1);
    for (std::size_t i = 0; i < from.branches.size(); ++i) {
      const Branch& b = from.branches[i];
      if (!b.joined) continue;
      ends_[next[b.a]++] = static_cast<std::uint32_t>(i);
      ends_[next[b.b]++] = static_cast<std::uint32_t>(i);
    }
    for (const Source& s : from.sources) source_[s.at] = true;
    flow_.resize(from.branches.size());
    done_.resize(from.branches.size(), false);
  }

  // Current in each joined branch, a -> b.
  std::vector<Phasor> solve(const std::vector<Phasor>& out_A) {
    need_ = out_A;
    std::vector<std::uint16_t> leaves;
    for (std::size_t t = 0; t < open_.size(); ++t) {
      if (open_[t] == 1 && !source_[t]) leaves.push_back(static_cast<std::uint16_t>(t));
    }
    while (!leaves.empty()) {
      const std::uint16_t t = leaves.back();
      leaves.pop_back();
      if (open_[t] != 1 || source_[t]) continue;
      for (std::uint32_t k = first_[t]; k < first_[t + 1U]; ++k) {
        const std::uint32_t i = ends_[k];
        if (done_[i]) continue;
        const Branch& b = from_.branches[i];
        const std::uint16_t other = b.a == t ? b.b : b.a;
        flow_[i] = b.a == t ? -need_[t] : need_[t];
        need_[other] += need_[t];
        need_[t] = {};
        done_[i] = true;
        --open_[t];
        --open_[other];
        if (open_[other] == 1 && !source_[other]) leaves.push_back(other);
      }
    }
    loops();
    return flow_;
  }

 private:
  // Equal resistances: Laplacian over the terminals that still have joints; sources hold theirs at zero.
  void loops() {
    std::vector<std::size_t> left;
    for (std::size_t i = 0; i < from_.branches.size(); ++i) {
      if (from_.branches[i].joined && !done_[i]) left.push_back(i);
    }
    if (left.empty()) return;
    std::vector<int> row(open_.size(), -1);
    int size = 0;
    for (const std::size_t i : left) {
      for (const std::uint16_t t : {from_.branches[i].a, from_.branches[i].b}) {
        if (row[t] < 0 && !source_[t]) row[t] = size++;
      }
    }
    Eigen::MatrixXcd L = Eigen::MatrixXcd::Identity(size, size) * 1.0e-9;
    Eigen::VectorXcd I = Eigen::VectorXcd::Zero(size);
    for (const std::size_t i : left) {
      const int a = row[from_.branches[i].a];
      const int b = row[from_.branches[i].b];
      if (a >= 0) L(a, a) += 1.0;
      if (b >= 0) L(b, b) += 1.0;
      if (a >= 0 && b >= 0) L(a, b) = L(b, a) = L(a, b) - 1.0;
    }
    for (std::size_t t = 0; t < row.size(); ++t) {
      if (row[t] >= 0) I(row[t]) = -need_[t];
    }
    const Eigen::VectorXcd V = L.partialPivLu().solve(I);
    for (const std::size_t i : left) {
      const int a = row[from_.branches[i].a];
      const int b = row[from_.branches[i].b];
      flow_[i] = (a >= 0 ? V(a) : Phasor{}) - (b >= 0 ? V(b) : Phasor{});
    }
  }

  const NetworkBranches& from_;
  std::vector<std::uint32_t> first_;  // of a terminal's joined branches in ends_
  std::vector<std::uint32_t> ends_;
  std::vector<std::uint32_t> open_;  // joined branches at a terminal that have no current yet
  std::vector<Phasor> need_;
  std::vector<bool> source_;
  std::vector<Phasor> flow_;
  std::vector<bool> done_;
};

}  // namespace

namespace {

// Fills assembly and voltages.
void solve_volts(const Network& network, const InstrumentBranch* probe, Current current, Solved& out) {
  Solution& s = out.solution;
  s.volt.resize(network.terminals.size());
  Nodes nodes(network.terminals.size());
  for (const Branch& b : out.assembly.branches) {
    if (b.joined) nodes.parent[nodes.root(b.a)] = nodes.root(b.b);
  }
  if (current == Current::alternating)
    solve_nodes<Phasor>(out.assembly, probe, nodes, s.volt);
  else
    solve_nodes<double>(out.assembly, probe, nodes, s.volt);
}

}  // namespace

std::vector<Phasor> solve_volts(const Network& network, const CircuitInputs& conditions,
                                const Switchgear& gear, Current current) {
  Solved out;
  out.assembly = assemble(network, conditions, gear, current, true);
  solve_volts(network, nullptr, current, out);
  return std::move(out.solution.volt);
}

Solved solve_all(const Network& network, const CircuitInputs& now, const Switchgear& gear, Current current,
                 bool sources, const InstrumentBranch* probe) {
  Solved out;
  out.assembly = assemble(network, now, gear, current, sources);
  Solution& s = out.solution;
  const std::size_t n = network.terminals.size();
  solve_volts(network, probe, current, out);
  s.out_A.resize(n);
  s.wire_A.resize(network.wires.size());
  leave(out.assembly, probe, s);
  out.joint_A = Joints(out.assembly, n).solve(s.out_A);
  for (std::size_t i = 0; i < out.joint_A.size(); ++i) {
    const Branch& b = out.assembly.branches[i];
    if (b.joined && b.wire >= 0) s.wire_A[static_cast<std::size_t>(b.wire)] = out.joint_A[i];
  }
  return out;
}

Solution solve(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
               Current current, bool sources, const InstrumentBranch* probe) {
  return solve_all(network, conditions, gear, current, sources, probe).solution;
}

Sequence sequence_V(const Network& network, const Solution& solution, int part) {
  const Phasor a = std::polar(1.0, 2.0 * std::numbers::pi / 3.0);
  const Phasor u = solution.volt[network.at(part, 0)];
  const Phasor v = solution.volt[network.at(part, 1)];
  const Phasor w = solution.volt[network.at(part, 2)];
  return {(u + a * v + a * a * w) / 3.0, (u + a * a * v + a * w) / 3.0};
}

}  // namespace stirbench::electrics
