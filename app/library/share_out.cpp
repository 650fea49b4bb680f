#include "app/library/share_out.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace stirbench::library {

void share_out(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work) {
  if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
  std::atomic<std::size_t> next{0};
  std::mutex guard;
  std::exception_ptr failure;
  const auto loop = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(guard);
        if (!failure) failure = std::current_exception();
        next = count;
      }
    }
  };
  std::vector<std::thread> pool;
  for (unsigned t = 1; t < threads; ++t) pool.emplace_back(loop);
  loop();
  for (std::thread& one : pool) one.join();
  if (failure) std::rethrow_exception(failure);
}

}  // namespace stirbench::library
