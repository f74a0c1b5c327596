#include "engine/report/setters/save_aside.h"

#include "engine/base/atomic_file.h"

namespace hummock::report {

void SaveAside::add(std::filesystem::path path, std::string_view bytes) {
  {
    const std::lock_guard lock(mutex_);
    waiting_.emplace_back(std::move(path), bytes);
  }
  changed_.notify_one();
}

void SaveAside::finish() {
  end();
  if (error_) std::rethrow_exception(error_);
}

void SaveAside::work() {
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [&] { return ended_ || !waiting_.empty(); });
    if (waiting_.empty()) return;
    const auto [path, bytes] = std::move(waiting_.front());
    waiting_.pop_front();
    if (error_) continue;
    lock.unlock();
    std::exception_ptr error;
    try {
      save_bytes(path, bytes);
    } catch (...) {
      error = std::current_exception();
    }
    lock.lock();
    error_ = error;
  }
}

void SaveAside::end() {
  {
    const std::lock_guard lock(mutex_);
    ended_ = true;
  }
  changed_.notify_one();
  if (thread_.joinable()) thread_.join();
}

}  // namespace hummock::report
