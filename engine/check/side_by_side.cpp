#include "engine/check/side_by_side.h"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>

namespace hummock {
namespace {

enum class State { waiting, running, done, failed };

// Of each its own work and the longest chain of what waits for it.
std::vector<double> work_ahead(const std::vector<Job>& jobs) {
  std::vector<double> ahead(jobs.size());
  for (std::size_t k = jobs.size(); k-- > 0;) {
    ahead[k] += jobs[k].work;
    for (const std::size_t before : jobs[k].after)
      ahead[before] = std::max(ahead[before], ahead[k]);
  }
  return ahead;
}

class Board {
 public:
  explicit Board(const std::vector<Job>& jobs)
      : jobs_(jobs),
        ahead_(work_ahead(jobs)),
        states_(jobs.size(), State::waiting),
        errors_(jobs.size()) {}

  // Takes jobs until none is left that can start now or later.
  void work() {
    std::unique_lock lock(mutex_);
    while (true) {
      const std::size_t job = next();
      if (job < jobs_.size()) {
        states_[job] = State::running;
        lock.unlock();
        std::exception_ptr error = run(job);
        lock.lock();
        states_[job] = error ? State::failed : State::done;
        errors_[job] = error;
        if (error) first_failed_ = std::min(first_failed_, job);
        changed_.notify_all();
      } else if (running()) {
        changed_.wait(lock);
      } else {
        return;
      }
    }
  }

  void throw_first() const {
    if (first_failed_ < jobs_.size()) std::rethrow_exception(errors_[first_failed_]);
  }

 private:
  std::exception_ptr run(std::size_t job) const {
    try {
      jobs_[job].run();
    } catch (...) {
      return std::current_exception();
    }
    return nullptr;
  }
  bool ready(std::size_t job) const {
    return states_[job] == State::waiting &&
           std::all_of(jobs_[job].after.begin(), jobs_[job].after.end(),
                       [&](std::size_t a) { return states_[a] == State::done; });
  }
  std::size_t next() const {
    const std::size_t end = std::min(jobs_.size(), first_failed_);
    std::size_t best = jobs_.size();
    for (std::size_t k = 0; k < end; ++k)
      if (ready(k) && (best == jobs_.size() || ahead_[k] > ahead_[best])) best = k;
    return best;
  }
  bool running() const {
    return std::find(states_.begin(), states_.end(), State::running) != states_.end();
  }

  const std::vector<Job>& jobs_;
  std::vector<double> ahead_;
  std::vector<State> states_;
  std::vector<std::exception_ptr> errors_;
  std::size_t first_failed_ = static_cast<std::size_t>(-1);
  std::mutex mutex_;
  std::condition_variable changed_;
};

}  // namespace

void run_side_by_side(const std::vector<Job>& jobs, unsigned threads) {
  Board board(jobs);
  std::vector<std::thread> others;
  const std::size_t most = std::min<std::size_t>(std::max(1U, threads), jobs.size());
  for (std::size_t k = 1; k < most; ++k) others.emplace_back([&] { board.work(); });
  board.work();
  for (std::thread& t : others) t.join();
  board.throw_first();
}

}  // namespace hummock
