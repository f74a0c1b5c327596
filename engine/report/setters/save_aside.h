// Files saved by a thread of their own while others are still drawn: a save mostly waits for the
// disk.
#pragma once

#include <condition_variable>
#include <deque>
#include <exception>
#include <filesystem>
#include <mutex>
#include <string_view>
#include <thread>
#include <utility>

namespace hummock::report {

class SaveAside {
 public:
  SaveAside() : thread_([this] { work(); }) {}
  ~SaveAside() { end(); }
  SaveAside(const SaveAside&) = delete;
  SaveAside& operator=(const SaveAside&) = delete;

  // In this order, from any thread. The bytes must stay until `finish`, or the end.
  void add(std::filesystem::path path, std::string_view bytes);
  // Waits until all are saved. Throws what the first that could not be saved threw; none after it
  // was.
  void finish();

 private:
  void work();
  void end();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<std::pair<std::filesystem::path, std::string_view>> waiting_;
  bool ended_ = false;
  std::exception_ptr error_;
  std::thread thread_;  // last: it reads the others
};

}  // namespace hummock::report
