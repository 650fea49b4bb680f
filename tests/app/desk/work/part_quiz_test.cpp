#include <doctest/doctest.h>

#include <set>

#include "app/desk/work/parts/part_quiz.h"
#include "app/library/library.h"
#include "app/library/reading/paths.h"

using namespace stirbench;
using desk::work::PartQuiz;

namespace {

const library::Library& content() {
  static const library::Library loaded = library::load(library::content_dir(), "").library;
  return loaded;
}

}  // namespace

TEST_CASE(
    "the quiz asks for every part that can be seen once, and goes on at the right one or one of its name") {
  for (const auto& [id, body] : content().bodies) {
    CAPTURE(id);
    PartQuiz quiz(body.parts, 7);
    CHECK(quiz.count() + 2 == body.parts.size());  // not the pail and its hose
    std::set<std::string> asked;
    while (!quiz.over()) {
      const std::string part = quiz.asked().id;
      CHECK(asked.insert(part).second);
      CHECK(quiz.answer(part));
    }
    CHECK(asked.size() == quiz.count());
    CHECK(quiz.right() == static_cast<int>(quiz.count()));
    CHECK(quiz.wrong() == 0);
    CHECK_FALSE(quiz.answer("vat"));
  }
}

TEST_CASE("a wrong pointing is counted, the question stays, and the part no longer counts as found at once") {
  const auto& parts = content().bodies.at("hm-45").parts;
  PartQuiz quiz(parts, 3);
  const std::string asked = quiz.asked().id;
  const std::string other = asked == "vat" ? "well" : "vat";
  CHECK_FALSE(quiz.answer(other));
  CHECK_FALSE(quiz.answer("no_such_part"));
  CHECK(quiz.asked().id == asked);
  CHECK(quiz.answer(asked));
  CHECK(quiz.right() == 0);
  CHECK(quiz.wrong() == 2);
  quiz.skip();
  CHECK(quiz.done() == 2);
  CHECK(quiz.right() == 0);
  // Another seed, another order.
  bool differs = false;
  PartQuiz a(parts, 1);
  PartQuiz b(parts, 2);
  for (; !a.over() && !b.over(); a.skip(), b.skip()) differs = differs || a.asked().id != b.asked().id;
  CHECK(differs);
}
