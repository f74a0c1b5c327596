// Keys: one table that does the work and is shown as the key list.
#pragma once

#include <string>
#include <vector>

#include "viewer/app/session.h"

namespace hummock::viewer {

struct KeyHelp {
  std::string keys;
  std::string does;
};
// For the help page: mouse first, then keys.
const std::vector<KeyHelp>& mouse_help();
std::vector<KeyHelp> key_help();

// Reads ImGui's keys of this frame.
void use_keys(Session& session);
// True while an arrow key walks.
bool walking_by_key(const Session& session);

void save(Session& session, bool over_changes);

}  // namespace hummock::viewer
