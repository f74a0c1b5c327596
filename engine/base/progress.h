// How long work tells how far it is, and how it is told to stop.
#pragma once

#include <atomic>
#include <exception>
#include <functional>
#include <string_view>

namespace hummock {

// Thrown by `Progress::step` when the caller asked to stop; an analysis lets it pass through.
class Cancelled : public std::exception {
 public:
  const char* what() const noexcept override { return "cancelled"; }
};

// Given by the caller, const for the analysis. Both members may be empty. `report` may be called
// from any one thread at a time; `cancel` is read from many.
struct Progress {
  std::function<void(std::string_view stage, double done)> report;  // done in 0..1
  const std::atomic<bool>* cancel = nullptr;
  bool stopped() const { return cancel != nullptr && cancel->load(std::memory_order_relaxed); }
  void step(std::string_view stage, double done) const {
    if (stopped()) throw Cancelled();
    if (report) report(stage, done);
  }
};

}  // namespace hummock
