// What has been begun beside an output and must go again if the program dies.
//
// A stopped command unwinds and takes its own away. A program that dies (out of memory inside a
// library) cannot; its supervisor (supervise.h) then removes what is listed here, in memory that
// both see. Without a supervisor nothing is listed and nothing is lost but tidiness.
#pragma once

#include <filesystem>

namespace hummock {

// Shared with processes forked after this; call once, before any fork.
void share_temporaries();

// At most 16 at a time; a path longer than 1000 bytes is not kept.
void remember_temporary(const std::filesystem::path& path);
void forget_temporary(const std::filesystem::path& path);
void remove_temporaries();

}  // namespace hummock
