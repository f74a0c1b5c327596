#include "engine/site/doubtful.h"

#include <algorithm>

namespace hummock {

const std::vector<std::string>& doubt_ids() {
  static const std::vector<std::string> ids{"projection-scale", "heights",       "survey-coarse",
                                            "survey-hole",      "climate-times", "climate-step",
                                            "climate-year",     "mesh-large",    "place-survey"};
  return ids;
}

bool accepted(const std::vector<std::string>& accept, const char* id) {
  return std::find(accept.begin(), accept.end(), id) != accept.end();
}

void refuse_unless_accepted(const std::vector<std::string>& accept, const char* id,
                            const Where& where, const std::string& found,
                            const std::string& allowed) {
  if (accepted(accept, id)) return;
  throw InputError(where, found,
                   allowed + " (or, if it is meant, accept = [\"" + id + "\"] in the site file)");
}

}  // namespace hummock
