// One thread that does the newest job asked of it, and a tray for what it has to tell.
//
// A new job cancels the running one and replaces the waiting one: old work is never finished for
// nobody. A job gets a Progress to stop by. What it has found it posts to the Inbox as a function;
// the drawing thread runs those between frames, so no shared state needs a lock.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "engine/base/progress.h"

namespace hummock::viewer {

class Inbox {
 public:
  // From any thread. `wake` (set once, before any worker runs) is called after.
  void post(std::function<void()> news);
  // On the drawing thread: runs all that has come, in order. True when there was any.
  bool open();
  void on_news(std::function<void()> wake) { wake_ = std::move(wake); }

 private:
  std::mutex mutex_;
  std::vector<std::function<void()>> news_;
  std::function<void()> wake_;
};

using Job = std::function<void(const Progress&)>;

class Worker {
 public:
  Worker();
  ~Worker();  // cancels and waits
  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  void ask(Job job);
  // The running job is told to stop; one still waiting will find itself told so from the start, so
  // that every job asked for either runs or is replaced.
  void cancel();
  bool busy() const { return busy_.load(); }
  // What it is at, for the status line.
  std::string stage() const;

 private:
  void run();

  mutable std::mutex mutex_;
  std::condition_variable wake_;
  Job next_;
  bool ending_ = false;
  bool stillborn_ = false;
  std::atomic<bool> cancel_{false};
  std::atomic<bool> busy_{false};
  std::string stage_;
  std::thread thread_;
};

}  // namespace hummock::viewer
