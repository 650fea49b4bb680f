#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "sim_core/training/guidance/follower.h"

// Lessons played by their guide alone from states that random hands have left.
namespace stirbench::golden_test {

struct FollowCount {
  std::uint64_t starts = 0;
  std::uint64_t passed = 0;
  std::uint64_t said_lost = 0;
  std::uint64_t ended = 0;  // the random hands themselves brought the lesson to its end
  std::uint64_t stranded = 0;
  std::string why;  // of the last stranding
};

class Course {
 public:
  // The lesson must outlive the course; its runs are read from content_dir.
  Course(const library::Library& library, const training::Lesson& lesson, const std::string& content_dir);

  FollowCount follow_from_start() const;
  // 0 to 40 random hands by `seed`, with 0.5 to 12 s after each, then the guide. Counts into `count`; the
  // answer is why it did not pass, empty when it did.
  std::string follow_after_hands(std::uint64_t seed, FollowCount& count) const;

 private:
  machine::Machine machine_;
  const training::Lesson& lesson_;
  std::vector<hands::Action> vocabulary_;
};

}  // namespace stirbench::golden_test
