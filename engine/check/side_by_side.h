// Runs jobs that wait for one another side by side on a few threads.
//
// A job starts when all it waits for has ended well: of those that may, the one with the most ahead
// of it, its own work and the longest of what waits for it; of equals the earliest in the list.
// Jobs must not touch each other's results but for those they wait for. When a job throws, none
// later in the list is started any more, those earlier still are, and of all that threw the
// earliest in the list is thrown again: the same error whatever the number of threads. The threads
// are plain ones and not tasks of the pool that the jobs themselves use, so that none of a job's
// own work is mixed with another's.
#pragma once

#include <functional>
#include <vector>

namespace hummock {

struct Job {
  std::vector<std::size_t> after;  // indices of jobs, all smaller than its own
  std::function<void()> run;
  double work = 1.0;  // about, in any unit; the answers are the same whatever is said
};

// `threads` >= 1; no more are started than there are jobs.
void run_side_by_side(const std::vector<Job>& jobs, unsigned threads);

}  // namespace hummock
