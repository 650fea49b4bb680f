#include <algorithm>

#include "app/library/loading.h"
#include "app/library/tables.h"

// Ways: means that all lessons' advice may use (content/ways/*.json), and those of a lesson alone.
namespace stirbench::library {

namespace {

using training::Condition;
using training::HandNeeds;
using training::Means;
using training::Way;
using training::Ways;

bool has_event(const Condition& c) {
  return c.op == training::Op::event || std::any_of(c.parts.begin(), c.parts.end(), has_event);
}

}  // namespace

Shape<Condition> state_condition() {
  Shape<Condition> shape = condition_shape();
  shape.read = [read = shape.read](Reader& reader, const Json& json, Condition& out) {
    const std::size_t before = reader.count();
    read(reader, json, out);
    if (reader.count() == before && has_event(out))
      reader.problem("a condition of states: an event is over before one can act on it", "an event");
  };
  return shape;
}

Shape<training::Amount> amount_shape() {
  using A = training::Amount;
  return choice<A>(
      {{"given", A::given}, {"rest_of_vat", A::rest_of_vat}, {"rest_of_poured", A::rest_of_poured}});
}

Shape<Way> way_shape() {
  using S = Way;
  Object<S> t;
  const auto of_means = [&t]<class V>(const char* key, V Means::*member, const Shape<V>& shape,
                                      const char* doc) {
    t.field({key, doc, shape.expected, false, shape.schema,
             [member, read = shape.read](Reader& reader, const Json& json, S& out) {
               read(reader, json, out.means.*member);
             }});
  };
  t.need("id", &S::id, slug(), "Unique in its list.")
      .need("reaches", &S::reaches, state_condition(), "What it brings about.")
      .need("now", &S::now, text(1, 200), "The one thing to do.")
      .need("why", &S::why, text(0, 300), "Why, in one line.")
      .may("hint", &S::hint, text(0, 400), "Shown on request.")
      .may("point_at", &S::point_at, text(0, 80), "Id of the control that does it.");
  t.field({"hand", "The hand that does it; without one it is a wait.", "a hand", false,
           hand_shape(true).schema, [](Reader& reader, const Json& json, S& out) {
             hand_shape(true).read(reader, json, out.means.hand.emplace());
           }});
  of_means("in_vain", &Means::in_vain, flag(), "A key that is meant to be refused.");
  of_means("amount", &Means::amount, amount_shape(), "How much a pouring hand pours of its kg.");
  of_means("needs", &Means::needs, list(state_condition(), 0, 20), "What has to hold before it, in order.");
  return t.shape();
}

const Object<Ways>& ways_table() {
  static const Object<Ways> table = [] {
    Object<HandNeeds> of_hand;
    of_hand.need("hand", &HandNeeds::hand, hand_shape(false), "The hand; what is left out may be anything.")
        .need("needs", &HandNeeds::needs, list(state_condition(), 1, 20),
              "What has to hold before it, in order.");
    Object<Ways> t;
    t.format(1)
        .need("ways", &Ways::ways, list(way_shape(), 0, 200), "Means, the better ones first.")
        .need("hands", &Ways::hands, list(of_hand.shape(), 0, 200), "What hands need in every lesson.");
    return t;
  }();
  return table;
}

void load_ways(Loading& loading, std::map<std::string, std::string>& hashed) {
  auto ways = std::make_shared<Ways>();
  for (const SourceText& source : json_files(loading, loading.content_dir + "/ways", "ways")) {
    Ways one;
    read_text(loading, ways_table(), source, one);
    hashed[source.shown] = source.bytes;
    std::move(one.ways.begin(), one.ways.end(), std::back_inserter(ways->ways));
    std::move(one.hands.begin(), one.hands.end(), std::back_inserter(ways->hands));
  }
  loading.library.ways = std::move(ways);
}

}  // namespace stirbench::library
