// Results of the analyses that nothing else reads by name, each found by its type: so that such an
// analysis needs no member of CheckResults. A place is made for each before the check's jobs run
// side by side; a job then fills its own place only.
#pragma once

#include <map>
#include <memory>
#include <typeindex>
#include <utility>

namespace hummock {

class OtherResults {
 public:
  template <class T>
  void make_place() {
    kept_[typeid(T)];
  }
  // Its place must have been made.
  template <class T>
  void put(T result) {
    kept_.at(typeid(T)) = std::make_shared<const T>(std::move(result));
  }
  // Nothing when it was not run.
  template <class T>
  const T* find() const {
    const auto found = kept_.find(typeid(T));
    return found == kept_.end() ? nullptr : static_cast<const T*>(found->second.get());
  }
  template <class T>
  void take_over(const OtherResults& from) {
    kept_.erase(typeid(T));
    if (const auto found = from.kept_.find(typeid(T)); found != from.kept_.end())
      kept_.insert(*found);
  }

 private:
  std::map<std::type_index, std::shared_ptr<const void>> kept_;
};

}  // namespace hummock
