#include <filesystem>
#include "app/cli/diagnosis.h"

#include "app/cli/diagnosis_internal.h"
#include "app/library/reading/paths.h"
#include "app/reports/guide_card.h"
#include "sim_core/diagnosis/overview.h"
#include "sim_core/diagnosis/tree.h"

namespace stirbench::cli {

using namespace diagnosis;
using nlohmann::json;

namespace {

json node_json(const Model& model, const Tree& tree, std::size_t index) {
  const TreeNode& node = tree.nodes[index];
  json out = {{"node", index}, {"p", node.p}, {"expected_min", node.expected_min}};
  if (node.unusual) out["unusual"] = true;
  if (node.question == Model::npos) {
    json repairs = json::array();
    for (const RepairAdvice& one : node.repairs) repairs.push_back(repair_json(model, one));
    out["repairs"] = repairs;
    return out;
  }
  const Check& check = model.check(node.question);
  out["check"] = check.id;
  out["title"] = check.title;
  out["minutes"] = node.minutes;
  json answers = json::array();
  for (std::size_t o = 0; o < node.child.size(); ++o) {
    json answer = {{"outcome", check.outcomes[o].id}, {"title", check.outcomes[o].title}};
    answer["next"] = node.child[o] == Model::npos ? json(nullptr) : node_json(model, tree, node.child[o]);
    answers.push_back(std::move(answer));
  }
  out["answers"] = answers;
  return out;
}

void print_node(const Model& model, const Tree& tree, std::size_t index, const std::string& indent) {
  const TreeNode& node = tree.nodes[index];
  if (node.question == Model::npos) {
    std::string line = indent + "end: ";
    for (std::size_t i = 0; i < node.repairs.size() && i < 3; ++i) {
      if (i > 0 && node.repairs[i].p < 0.05) break;
      line += (i == 0 ? "" : "; else ") + model.causes[node.repairs[i].cause].title + " (" +
              percent(node.repairs[i].p) + ")";
    }
    if (node.repairs.empty() || !node.repairs.front().before_call)
      line += node.repairs.empty() ? "call service" : ": call service";
    return print(line);
  }
  const Check& check = model.check(node.question);
  print(indent + check.title + (check.title.ends_with('?') ? " (" : "? (") + fixed(node.minutes, 1) +
        " min, " + std::string(access_state_title(check.needs)) + ")");
  bool others = false;
  for (std::size_t o = 0; o < node.child.size(); ++o) {
    if (node.child[o] == Model::npos) continue;
    if (tree.nodes[node.child[o]].unusual) {
      others = true;
      continue;
    }
    print(indent + "  " + check.outcomes[o].title + ":");
    print_node(model, tree, node.child[o], indent + "    ");
  }
  if (others)
    print(indent +
          "  Any other answer: does not fit what was said; give the guide all answers (causes --finding), or "
          "call service");
}

std::string quoted(std::string text) {
  for (std::size_t at = 0; (at = text.find('"', at)) != std::string::npos; at += 2) text.insert(at, "\\");
  return '"' + text + '"';
}

std::string dot_text(const Model& model, const Tree& tree) {
  std::string out = "digraph guide {\n  node [shape=box, fontname=\"B612\"];\n";
  for (std::size_t i = 0; i < tree.nodes.size(); ++i) {
    const TreeNode& node = tree.nodes[i];
    const bool end = node.question == Model::npos;
    std::string label = "call service";
    if (!end)
      label = model.check(node.question).title;
    else if (node.unusual)
      label = "does not fit: ask the guide";
    else if (!node.repairs.empty())
      label = model.causes[node.repairs.front().cause].title;
    out += "  n" + std::to_string(i) + " [label=" + quoted(label) + (end ? ", style=rounded" : "") + "];\n";
    for (std::size_t o = 0; o < node.child.size(); ++o) {
      if (node.child[o] == Model::npos) continue;
      out += "  n" + std::to_string(i) + " -> n" + std::to_string(node.child[o]) +
             " [label=" + quoted(model.check(node.question).outcomes[o].title) + "];\n";
    }
  }
  return out + "}\n";
}

}  // namespace

namespace {

// All symptoms with their trees in a line each, and how well causes can be told apart.
int overview(const CommonOptions& common, const library::GuideModel& found, const Constraints& situation) {
  const Model& model = found.model;
  const Testability t = testability_of(model);
  json symptoms = json::array();
  for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
    const Tree tree = compile_tree(model, {{s, 1}}, situation);
    symptoms.push_back({{"id", model.symptoms[s].id},
                        {"expected_min", tree.expected_min},
                        {"at_least_min", tree.at_least_min},
                        {"exact", tree.exact},
                        {"nodes", tree.nodes.size()},
                        {"depth", tree.depth}});
    if (!common.json)
      print(model.symptoms[s].title + ": " + fixed(tree.expected_min, 0) + " min (no tree under " +
            fixed(tree.at_least_min, 0) + "), " + std::to_string(tree.depth) + " checks at most");
  }
  json unused = json::array();
  const TreeCoverage use = tree_coverage(model);
  for (const std::size_t q : use.unused) unused.push_back(model.check(q).id);
  if (!common.json && !unused.empty()) print("checks that no tree asks: " + unused.dump());
  json groups = json::array();
  for (const auto& group : ambiguity_groups(model)) {
    json ids = json::array();
    for (const std::size_t c : group) ids.push_back(model.causes[c].id);
    if (!common.json) print("cannot be told apart: " + ids.dump());
    groups.push_back(ids);
  }
  if (common.json) {
    print_json({{"machine", model.machine},
                {"symptoms", symptoms},
                {"cannot_be_told_apart", groups},
                {"unused_checks", unused},
                {"trees", use.trees},
                {"tree_nodes", use.nodes},
                {"tree_problems", use.problems},
                {"testability",
                 {{"detected_norm", t.detected_norm},
                  {"detected_unweighted_norm", t.detected_unweighted_norm},
                  {"isolated_norm", t.isolated_norm},
                  {"mean_group", t.mean_group}}}});
    return exit_done;
  }
  print("detected " + percent(t.detected_norm) + " of faults by rate, told apart to one " +
        percent(t.isolated_norm.empty() ? 0.0 : t.isolated_norm[0]) + ", mean group " +
        fixed(t.mean_group, 2));
  return exit_done;
}

}  // namespace

namespace {

// A PDF card for each of these symptoms.
int write_cards(const CommonOptions& common, const GuideOptions& options, const library::Library& library,
                const Model& model, const Constraints& situation, const std::vector<std::size_t>& symptoms) {
  if (options.paper != "a4" && options.paper != "letter")
    throw Refusal("--paper: expected a4 or letter, found \"" + options.paper + "\"");
  std::error_code error;
  std::filesystem::create_directories(options.cards, error);
  if (error) throw Refusal("--cards: " + options.cards + ": " + error.message());
  json files = json::array();
  for (const std::size_t s : symptoms) {
    const Tree tree = compile_tree(model, {{s, 1}}, situation);
    const reports::GuideCard card{model,
                                  tree,
                                  library.machines.at(options.machine).title,
                                  model.symptoms[s].title,
                                  std::string(who_title(situation.who)),
                                  library.cautions};
    const std::string file =
        options.cards + "/" + options.machine + "-" + model.symptoms[s].id + "-" + options.paper + ".pdf";
    const std::string failed = library::write_atomically(
        file,
        reports::guide_card_pdf(card, options.paper == "a4" ? reports::Sheet::a4 : reports::Sheet::letter));
    if (!failed.empty()) throw Refusal(failed);
    files.push_back(file);
    if (!common.json) print(file);
  }
  if (common.json) print_json({{"machine", options.machine}, {"files", files}});
  return exit_done;
}

}  // namespace

int guide(const CommonOptions& common, const GuideOptions& options) {
  const library::Library library = guide_library_or_refuse(common);
  const library::GuideModel found = model_or_refuse(common, library, options.machine);
  const Model& model = found.model;
  const Constraints situation{who_or_refuse(options.who), AccessState::standing, {}};
  if (options.symptom.empty()) {
    say_state(found);
    if (!options.cards.empty()) {
      std::vector<std::size_t> all(model.symptoms.size());
      for (std::size_t s = 0; s < all.size(); ++s) all[s] = s;
      return write_cards(common, options, library, model, situation, all);
    }
    return overview(common, found, situation);
  }
  const std::size_t symptom = symptom_or_refuse(model, options.symptom);
  say_state(found);
  if (!options.cards.empty()) return write_cards(common, options, library, model, situation, {symptom});
  const Tree tree = compile_tree(model, {{symptom, 1}}, situation);
  if (!options.dot.empty()) {
    const std::string failed = library::write_atomically(options.dot, dot_text(model, tree));
    if (!failed.empty()) throw Refusal(failed);
  }
  if (common.json) {
    print_json({{"machine", model.machine},
                {"symptom", model.symptoms[symptom].id},
                {"expected_min", tree.expected_min},
                {"at_least_min", tree.at_least_min},
                {"exact", tree.exact},
                {"nodes", tree.nodes.size()},
                {"depth", tree.depth},
                {"tree", node_json(model, tree, 0)}});
    return exit_done;
  }
  print(model.symptoms[symptom].title + ": " + fixed(tree.expected_min, 0) +
        " min on average, no tree is under " + fixed(tree.at_least_min, 0) + " min");
  print_node(model, tree, 0, "");
  print(
      "Usual cautions hold: isolate, lock, prove dead. Electrical and refrigerant work is for licensed "
      "people; local codes come first.");
  return exit_done;
}

}  // namespace stirbench::cli
