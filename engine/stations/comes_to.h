// What an animal comes to.
#pragma once

#include <memory>

#include "engine/model/model.h"

namespace hummock::stations {

class ComesTo {
 public:
  explicit ComesTo(const Model& model);
  ~ComesTo();
  ComesTo(const ComesTo&) = delete;
  ComesTo& operator=(const ComesTo&) = delete;

  // From some place of its own within `reach` (m) of `at`; see stations.h.
  bool operator()(Vec3 at, double reach) const;

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace hummock::stations
