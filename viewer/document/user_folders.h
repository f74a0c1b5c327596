// Where the viewer keeps what is the user's and not the site's (XDG base directories).
#pragma once

#include <filesystem>

namespace hummock::viewer {

// $XDG_CONFIG_HOME/hummock or ~/.config/hummock: the window's layout. Not created.
std::filesystem::path config_folder();
// $XDG_STATE_HOME/hummock or ~/.local/state/hummock: unsaved work. Not created.
std::filesystem::path state_folder();

}  // namespace hummock::viewer
