#include "viewer/work/worker.h"

#include <string>
#include <utility>

namespace hummock::viewer {

void Inbox::post(std::function<void()> news) {
  {
    const std::lock_guard lock(mutex_);
    news_.push_back(std::move(news));
  }
  if (wake_) wake_();
}

bool Inbox::open() {
  std::vector<std::function<void()>> come;
  {
    const std::lock_guard lock(mutex_);
    come.swap(news_);
  }
  for (const auto& news : come) news();
  return !come.empty();
}

Worker::Worker() : thread_([this] { run(); }) {}

Worker::~Worker() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    next_ = nullptr;
    cancel_ = true;
  }
  wake_.notify_one();
  thread_.join();
}

void Worker::ask(Job job) {
  {
    const std::lock_guard lock(mutex_);
    next_ = std::move(job);
    stillborn_ = false;
    cancel_ = true;
    busy_ = true;
  }
  wake_.notify_one();
}

void Worker::cancel() {
  const std::lock_guard lock(mutex_);
  cancel_ = true;
  stillborn_ = next_ != nullptr;
}

std::string Worker::stage() const {
  const std::lock_guard lock(mutex_);
  return stage_;
}

void Worker::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    wake_.wait(lock, [this] { return ending_ || next_; });
    if (ending_) return;
    const Job job = std::exchange(next_, nullptr);
    cancel_ = std::exchange(stillborn_, false);
    lock.unlock();
    Progress progress;
    progress.cancel = &cancel_;
    progress.report = [this](std::string_view stage, double) {
      const std::lock_guard inner(mutex_);
      stage_ = stage;
    };
    try {
      job(progress);
    } catch (const Cancelled&) {  // a newer job is waiting, or nobody wants this one
    }
    lock.lock();
    stage_.clear();
    if (!next_) busy_ = false;
  }
}

}  // namespace hummock::viewer
