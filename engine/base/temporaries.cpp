#include "engine/base/temporaries.h"

#include <sys/mman.h>

#include <array>
#include <atomic>
#include <cstring>
#include <string>

namespace hummock {
namespace {

constexpr std::size_t kPlaces = 16;
constexpr std::size_t kLongest = 1000;

enum class State : int { free, being_written, taken };

struct Place {
  std::atomic<State> state;
  std::array<char, kLongest + 1> path;
};

// A parent can see what its child began only through memory both have.
Place* shared_places = nullptr;

}  // namespace

void share_temporaries() {
  if (shared_places != nullptr) return;
  void* page = ::mmap(nullptr, kPlaces * sizeof(Place), PROT_READ | PROT_WRITE,
                      MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  if (page != MAP_FAILED) shared_places = static_cast<Place*>(page);  // zeroes: none is taken
}

void remember_temporary(const std::filesystem::path& path) {
  std::error_code ignored;
  const std::string full = std::filesystem::absolute(path, ignored).string();
  if (shared_places == nullptr || full.empty() || full.size() > kLongest) return;
  for (std::size_t k = 0; k < kPlaces; ++k) {
    Place& place = shared_places[k];
    State free = State::free;
    if (!place.state.compare_exchange_strong(free, State::being_written)) continue;
    std::memcpy(place.path.data(), full.c_str(), full.size() + 1);
    place.state.store(State::taken);
    return;
  }
}

void forget_temporary(const std::filesystem::path& path) {
  std::error_code ignored;
  const std::string full = std::filesystem::absolute(path, ignored).string();
  if (shared_places == nullptr) return;
  for (std::size_t k = 0; k < kPlaces; ++k) {
    Place& place = shared_places[k];
    if (place.state.load() == State::taken && full == place.path.data())
      place.state.store(State::free);
  }
}

void remove_temporaries() {
  if (shared_places == nullptr) return;
  for (std::size_t k = 0; k < kPlaces; ++k) {
    Place& place = shared_places[k];
    State taken = State::taken;
    if (!place.state.compare_exchange_strong(taken, State::free)) continue;
    std::error_code ignored;
    std::filesystem::remove_all(place.path.data(), ignored);
  }
}

}  // namespace hummock
