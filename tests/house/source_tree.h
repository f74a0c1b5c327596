// The source tree as text: what its files say, without building any of it.
#pragma once

#include <string>
#include <vector>

namespace hummock::house {

struct SourceFile {
  std::string path;  // from the top of the tree, with '/'
  std::vector<std::string> lines;
};

// Every .h and .cpp below `folder` (from the top of the tree), by path.
std::vector<SourceFile> sources_below(const std::string& folder);

// What a file includes of ours: "engine/site/site.h".
std::vector<std::string> includes_of(const SourceFile& file);

// The lines of a list beside these tests, without empty ones and those that begin with '#'.
std::vector<std::string> list_of(const std::string& name);

// What lies in the top folder but dot-files, build folders and what a build leaves (*.tmp), by
// name.
std::vector<std::string> top_level();

// Files below `folder` that are programs or compiled objects (they begin as ELF says, by path).
std::vector<std::string> programs_below(const std::string& folder);

}  // namespace hummock::house
