#include "viewer/work/worker.h"

#include <gtest/gtest.h>

#include <chrono>

namespace hummock::viewer {
namespace {

template <class Done>
void wait_for(Inbox& inbox, Done done) {
  const auto start = std::chrono::steady_clock::now();
  while (!done() && std::chrono::steady_clock::now() - start < std::chrono::seconds(10)) {
    inbox.open();
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
}

TEST(Worker, a_job_runs_and_its_news_arrives_on_the_asking_thread) {
  Inbox inbox;
  Worker worker;
  bool arrived = false;
  std::thread::id where;
  worker.ask([&](const Progress&) {
    inbox.post([&] {
      arrived = true;
      where = std::this_thread::get_id();
    });
  });
  wait_for(inbox, [&] { return arrived; });
  EXPECT_TRUE(arrived);
  EXPECT_EQ(where, std::this_thread::get_id());
}

TEST(Worker, a_newer_job_stops_the_older_and_only_the_newest_finishes) {
  Inbox inbox;
  Worker worker;
  std::atomic<int> finished{0};
  std::atomic<int> last{-1};
  for (int k = 0; k < 20; ++k)
    worker.ask([&, k](const Progress& progress) {
      for (int i = 0; i < 200; ++i) {
        progress.step("counting", i / 200.0);
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
      }
      ++finished;
      last = k;
    });
  wait_for(inbox, [&] { return !worker.busy(); });
  EXPECT_EQ(finished, 1);
  EXPECT_EQ(last, 19);
}

TEST(Worker, a_job_cancelled_before_it_began_finds_itself_cancelled) {
  Inbox inbox;
  Worker worker;
  std::atomic<bool> began{false};
  std::atomic<bool> release{false};
  worker.ask([&](const Progress&) {
    began = true;
    while (!release) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  });
  while (!began) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  std::atomic<int> outcome{0};
  worker.ask([&](const Progress& progress) {
    try {
      progress.step("anything", 0.0);
      outcome = 1;
    } catch (const Cancelled&) {
      outcome = 2;
      throw;
    }
  });
  worker.cancel();
  release = true;
  wait_for(inbox, [&] { return !worker.busy(); });
  EXPECT_EQ(outcome, 2);
}

TEST(Worker, ends_at_once_when_it_is_in_the_midst_of_something) {
  const auto start = std::chrono::steady_clock::now();
  {
    Worker worker;
    worker.ask([](const Progress& progress) {
      while (true) {
        progress.step("for ever", 0.5);
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
      }
    });
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(5));
}

}  // namespace
}  // namespace hummock::viewer
