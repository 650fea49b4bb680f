#include "app/library/loading.h"
#include "app/library/tables.h"

// What certificates ask for: content/assessments/ID.json, and what managers changed in the records.
namespace stirbench::library {

namespace {

using training::Demand;

Object<Demand> make_table() {
  using S = Demand;
  using P = training::SequentialPlan;
  Object<S> t;
  t.format(1)
      .need("id", &S::id, slug(), "The file's name without .json.")
      .need("title", &S::title, text(3, 80), "What the certificate says the person is.")
      .may("note", &S::note, text(0, 400), "For people.")
      .need("skills", &S::skills,
            list(one_of("a known skill", [](const Names& names) { return names.skills; }), 1, 40, true),
            "Each of them is tested.")
      .need("tests_each", &S::tests_each, whole(1, 50),
            "Sealed tests passed for each skill at the least, besides the sequential rule.")
      .may("lessons_each", &S::lessons_each, whole(1, 20),
           "Different lessons among them; as many as there are for the skill, when there are fewer. 3 when "
           "left out.")
      .may("days_apart", &S::days_apart, whole(0, 90),
           "From one of these passes to the next at the least; 2 when left out.");
  const auto plan = [&t](const char* key, double P::*member, const Shape<double>& shape, const char* doc) {
    t.field({key, doc, shape.expected, true, shape.schema,
             [member, read = shape.read](Reader& reader, const Json& json, S& out) {
               read(reader, json, out.plan.*member);
             }});
  };
  plan("p_not", &P::p_not, number(0.01, 0.98, ""),
       "Somebody who passes a test with this chance is not competent.");
  plan("p_competent", &P::p_competent, number(0.02, 0.99, ""),
       "Somebody who passes a test with this chance is.");
  plan("alpha", &P::alpha, number(0.0001, 0.49, ""), "Chance to certify the first one.");
  plan("beta", &P::beta, number(0.0001, 0.49, ""), "Chance to turn the second one away.");
  const Shape<int> most = whole(1, 200);
  t.field(
       {"most", "Tests in a series; undecided then means not yet.", most.expected, true, most.schema,
        [read = most.read](Reader& reader, const Json& json, S& out) { read(reader, json, out.plan.most); }})
      .need("must_pass_all", &S::must_pass_all, flag(),
            "One missed must-pass item ends a series with not yet.")
      .need("seen_tasks", &S::seen_tasks, list(text(3, 200), 0, 20, true),
            "Seen at the real machine, each signed by a named person.")
      .need("valid_days", &S::valid_days, whole(1, 1826), "How long the evidence carries.")
      .check([](Reader& reader, const S& one) {
        if (!(one.plan.p_competent > one.plan.p_not))
          reader.problem("more than p_not", number_text(one.plan.p_competent), "/p_competent");
        if (one.plan.most < one.tests_each)
          reader.problem("at least tests_each (" + std::to_string(one.tests_each) + ")",
                         std::to_string(one.plan.most), "/most");
      });
  return t;
}

}  // namespace

const Object<Demand>& demand_table() {
  static const Object<Demand> table = make_table();
  return table;
}

void load_demands(Loading& loading, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/assessments", "assessments")) {
    Demand one;
    read_text(loading, demand_table(), source, one);
    if (!one.id.empty() && one.id != source.stem)
      loading.problem(source.shown, "/id", "the file's name (" + in_quotes(source.stem) + ")",
                      in_quotes(one.id));
    hashed[source.shown] = source.bytes;
    loading.library.demands[source.stem] = std::move(one);
  }
}

DemandResult parse_demand(const std::string& text, const std::string& file, const Library& library) {
  DemandResult result;
  Names names;
  for (const auto& [id, skill] : library.skills) names.skills.push_back(id);
  const std::optional<Json> json = parse_json(text, file, result.problems);
  if (!json) return result;
  Reader reader(file, result.problems, names);
  demand_table().read(reader, *json, result.demand);
  return result;
}

std::string demand_text(const Demand& d) {
  return pretty(Json{{"format", 1},
                     {"id", d.id},
                     {"title", d.title},
                     {"note", d.note},
                     {"skills", d.skills},
                     {"tests_each", d.tests_each},
                     {"lessons_each", d.lessons_each},
                     {"days_apart", d.days_apart},
                     {"p_not", d.plan.p_not},
                     {"p_competent", d.plan.p_competent},
                     {"alpha", d.plan.alpha},
                     {"beta", d.plan.beta},
                     {"most", d.plan.most},
                     {"must_pass_all", d.must_pass_all},
                     {"seen_tasks", d.seen_tasks},
                     {"valid_days", d.valid_days}});
}

}  // namespace stirbench::library
