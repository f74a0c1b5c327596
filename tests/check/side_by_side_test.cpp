// Jobs run side by side: order of needs, and the same error for any number of threads.
#include "engine/check/side_by_side.h"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>

namespace hummock {
namespace {

TEST(SideBySide, AJobStartsOnlyWhenAllItWaitsForHaveEnded) {
  for (const unsigned threads : {1U, 2U, 7U}) {
    constexpr std::size_t kJobs = 40;
    std::vector<std::atomic<bool>> ended(kJobs);
    std::atomic<int> early{0};
    std::vector<Job> jobs(kJobs);
    for (std::size_t k = 0; k < kJobs; ++k) {
      if (k >= 3) jobs[k].after = {k - 3, k / 2};
      jobs[k].run = [&, k] {
        for (const std::size_t a : jobs[k].after) early += ended[a] ? 0 : 1;
        ended[k] = true;
      };
    }
    run_side_by_side(jobs, threads);
    EXPECT_EQ(early, 0);
    for (const auto& e : ended) EXPECT_TRUE(e);
  }
}

TEST(SideBySide, TheEarliestErrorInTheListIsToldForAnyNumberOfThreads) {
  for (int round = 0; round < 50; ++round) {
    for (const unsigned threads : {1U, 2U, 8U}) {
      std::vector<Job> jobs(12);
      std::atomic<bool> followed{false};
      for (std::size_t k = 0; k < jobs.size(); ++k) {
        jobs[k].run = [k] {
          if (k == 4 || k == 5 || k == 9) throw std::runtime_error(std::to_string(k));
        };
      }
      jobs[11].after = {4};
      jobs[11].run = [&] { followed = true; };
      try {
        run_side_by_side(jobs, threads);
        FAIL();
      } catch (const std::runtime_error& error) {
        EXPECT_STREQ(error.what(), "4");
      }
      EXPECT_FALSE(followed) << "a job ran on a result that is not there";
    }
  }
}

TEST(SideBySide, TheOneWithTheMostAheadOfItIsBegunFirst) {
  std::vector<std::size_t> order;
  std::vector<Job> jobs(5);
  for (std::size_t k = 0; k < jobs.size(); ++k) jobs[k].run = [&, k] { order.push_back(k); };
  jobs[1].work = 3.0;
  jobs[2].work = 2.0;  // and what waits for it
  jobs[4] = {{2}, jobs[4].run, 2.0};
  run_side_by_side(jobs, 1);
  EXPECT_EQ(order, (std::vector<std::size_t>{2, 1, 4, 0, 3}));
}

TEST(SideBySide, NothingToDoIsDone) {
  EXPECT_NO_THROW(run_side_by_side({}, 3));
}

}  // namespace
}  // namespace hummock
