#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "app/library/body.h"

// Asks for the parts of a body by what they are for, one after another in an order of its own, each once.
// Nothing is kept or scored.
namespace stirbench::desk::work {

class PartQuiz {
 public:
  // Asks for those parts that can be seen beside the freezer: not for the pail and its hose.
  PartQuiz(const std::vector<library::BodyPart>& parts, std::uint64_t seed);

  bool over() const { return next_ >= order_.size(); }
  // What is asked for now; only while not over.
  const library::BodyPart& asked() const { return order_[next_]; }
  std::size_t count() const { return order_.size(); }
  std::size_t done() const { return next_; }
  int right() const { return right_; }  // at the first pointing
  int wrong() const { return wrong_; }  // pointings

  // True: it is the part that is asked for, or one of the same name; goes on to the next.
  bool answer(const std::string& part_id);
  // Goes on without an answer.
  void skip();

 private:
  std::vector<library::BodyPart> order_;
  std::size_t next_ = 0;
  int right_ = 0;
  int wrong_ = 0;
  bool tried_ = false;
};

}  // namespace stirbench::desk::work
