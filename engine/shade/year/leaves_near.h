// In which states of the leaves what stands near a place passes the same light.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/shade/beam/casters.h"
#include "engine/shade/year/year_suns.h"

namespace hummock::shade {

class LeavesNear {
 public:
  // `states`: a day of each; `near`: indices into the casters.
  LeavesNear(const std::vector<Caster>& casters, const std::vector<int>& near,
             const std::vector<sun::Date>& states)
      : like_(states.size()) {
    for (std::size_t s = 0; s < states.size(); ++s) {
      like_[s] = s;
      for (std::size_t before = 0; before < s && like_[s] == s; ++before)
        if (alike(casters, near, states[before], states[s])) like_[s] = before;
    }
  }

  // Calls work(state, test) once for all hours whose states pass the same light as `state`:
  // test(hours) says which these are.
  template <class Work>
  void over_states(const std::vector<SunHours>& hours, const Work& work) const {
    for (std::size_t k = 0; k < hours.size(); ++k) {
      const std::size_t state = like_[hours[k].leaves];
      bool done = false;
      for (std::size_t before = 0; before < k && !done; ++before)
        done = like_[hours[before].leaves] == state;
      if (!done) work(state, [&](const SunHours& h) { return like_[h.leaves] == state; });
    }
  }

 private:
  static bool alike(const std::vector<Caster>& casters, const std::vector<int>& near,
                    const sun::Date& a, const sun::Date& b) {
    for (const int id : near) {
      const Caster& c = casters[static_cast<std::size_t>(id)];
      if (c.bare && sun::within(*c.bare, a) != sun::within(*c.bare, b)) return false;
    }
    return true;
  }
  std::vector<std::size_t> like_;  // the first state that is like it
};

}  // namespace hummock::shade
