// Unsaved work kept apart from the site, so that a crash or a kill loses nothing done.
//
// One file for each site path, in the user's state folder, so that a site in a read-only or shared
// folder is never littered. Written whole and renamed (atomic_file.h) after every finished change:
// what a kill can lose is the stroke in hand.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace hummock::viewer {

struct Recovered {
  std::string text;
  std::string base_hash;  // of the file's text the work was begun on
};

// 64-bit FNV-1a of the bytes, 16 hex digits. For telling texts apart, not for safety.
std::string text_hash(std::string_view text);

std::filesystem::path recovery_file(const std::filesystem::path& site);

// Throws InputError when the state folder cannot be written.
void keep_for_recovery(const std::filesystem::path& site, std::string_view text,
                       std::string_view base_hash);
// Nothing when there is none, or it is not whole.
std::optional<Recovered> find_recovery(const std::filesystem::path& site);
void forget_recovery(const std::filesystem::path& site);

}  // namespace hummock::viewer
