#include <algorithm>

#include "app/library/loading.h"
#include "app/library/tables.h"
#include "sim_core/training/monitors.h"
#include "sim_core/training/words.h"

// What every lesson asks (content/conduct/*.json).
namespace stirbench::library {

namespace {

Shape<Conduct::Exception> exception_shape() {
  using S = Conduct::Exception;
  Object<S> t;
  t.need("lesson", &S::lesson, slug(), "The lesson's id.")
      .need("why", &S::why, text(1, 300), "Why it cannot be asked there.");
  return t.shape();
}

// A field of the criterion inside.
template <class V>
Object<Conduct>::Field of_criterion(const char* key, V training::Criterion::*member, const Shape<V>& shape,
                                    const char* doc) {
  return {key,
          doc,
          shape.expected,
          true,
          shape.schema,
          [member, read = shape.read](Reader& reader, const Json& json, Conduct& out) {
            read(reader, json, out.criterion.*member);
          }};
}

Shape<Conduct> one_conduct() {
  const Shape<training::Condition> condition = condition_shape();
  Object<Conduct> t;
  t.field(of_criterion("id", &training::Criterion::id, slug(), "Unique among all lessons' criteria."))
      .field(
          of_criterion("title", &training::Criterion::title, text(1, 100), "What is asked, in a few words."))
      .field({"never", "What may not be true for longer than a flicker.", condition.expected, true,
              condition.schema,
              [read = condition.read](Reader& reader, const Json& json, Conduct& out) {
                read(reader, json, out.criterion.monitor.what);
              }})
      .field({"grace_s", "How long it may be true [s].", "a number", false, number(0.5, 3600.0, "s").schema,
              [](Reader& reader, const Json& json, Conduct& out) {
                number(0.5, 3600.0, "s").read(reader, json, out.criterion.monitor.grace_s);
              }})
      .field(of_criterion("missed_text", &training::Criterion::missed_text, verdict_text(),
                          "What went wrong and what it costs."))
      .may("except", &Conduct::except, list(exception_shape(), 0, 100), "Lessons whose very subject it is.")
      .may("tried_by", &Conduct::tried_by, list(hand_shape(true), 0, 20),
           "Hands that do it, two seconds apart, for proving that no lesson lets it pass.");
  return t.shape();
}

Shape<CarefulHabit> careful_shape() {
  using S = CarefulHabit;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique in its list.")
      .need("title", &S::title, text(1, 100), "What is done.")
      .need("hands", &S::hands, list(hand_shape(true), 1, 20), "The hands, two seconds apart.")
      .may("except", &S::except, list(exception_shape(), 0, 100), "Lessons in which it is no care.");
  return t.shape();
}

}  // namespace

const Object<ConductFile>& conduct_table() {
  static const Object<ConductFile> table = [] {
    Object<ConductFile> t;
    t.format(1)
        .need("conduct", &ConductFile::conduct, list(one_conduct(), 0, 100), "What no lesson lets pass.")
        .may("careful", &ConductFile::careful, list(careful_shape(), 0, 100),
             "What no lesson may be failed by: `stirbench check --habits` plays it.");
    return t;
  }();
  return table;
}

void load_conduct(Loading& loading, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/conduct", "conduct")) {
    ConductFile file;
    read_text(loading, conduct_table(), source, file);
    hashed[source.shown] = source.bytes;
    std::move(file.careful.begin(), file.careful.end(), std::back_inserter(loading.library.careful));
    for (Conduct& one : file.conduct) {
      training::Criterion& asked = one.criterion;
      asked.must_pass = true;
      asked.everywhere = true;
      asked.chance.emplace();
      asked.monitor.kind = training::MonitorKind::never;
      asked.monitor.grace_s = training::needs_event(asked.monitor.what)
                                  ? 0.0
                                  : std::max(asked.monitor.grace_s, training::must_pass_grace_s);
      asked.met_text = "It was kept to.";
      loading.library.conduct.push_back(std::move(one));
    }
  }
}

}  // namespace stirbench::library
