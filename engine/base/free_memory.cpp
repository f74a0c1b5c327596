#include "engine/base/free_memory.h"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

namespace hummock {
namespace {

namespace fs = std::filesystem;

std::optional<std::uint64_t> number_in(const fs::path& file) {
  std::ifstream in(file);
  std::uint64_t value = 0;  // the word "max" is no number: no limit
  if (!(in >> value)) return std::nullopt;
  return value;
}

// Inactive pages of files are dropped before anything is refused (the kernel's own documentation
// of memory.stat, Documentation/admin-guide/cgroup-v2.rst).
std::uint64_t droppable(const fs::path& stat, const std::string& key) {
  std::ifstream in(stat);
  std::string name;
  std::uint64_t value = 0;
  while (in >> name >> value)
    if (name == key) return value;
  return 0;
}

std::optional<std::uint64_t> available(const fs::path& root) {
  std::ifstream in(root / "proc/meminfo");
  std::string line;
  while (std::getline(in, line)) {
    if (line.rfind("MemAvailable:", 0) != 0) continue;
    std::istringstream words(line.substr(13));
    std::uint64_t kib = 0;
    if (words >> kib) return kib * 1024;
  }
  return std::nullopt;
}

struct GroupFiles {
  fs::path mount;
  const char *most, *used, *inactive;
};

void lower_by_group(const GroupFiles& files, const fs::path& group,
                    std::optional<std::uint64_t>& least) {
  const auto most = number_in(group / files.most), used = number_in(group / files.used);
  if (!most || !used) return;
  const std::uint64_t idle = std::min(*used, droppable(group / "memory.stat", files.inactive));
  const std::uint64_t taken = *used - idle;
  const std::uint64_t left = *most > taken ? *most - taken : 0;
  least = least ? std::min(*least, left) : left;
}

// The group and all above it, each of which may have a limit.
void lower_by_groups(const GroupFiles& files, const fs::path& group,
                     std::optional<std::uint64_t>& least) {
  fs::path at = group.relative_path();
  lower_by_group(files, files.mount, least);  // also where the group's own name is hidden
  for (; !at.empty(); at = at.parent_path()) lower_by_group(files, files.mount / at, least);
}

}  // namespace

std::optional<std::uint64_t> free_memory(const fs::path& root) {
  std::optional<std::uint64_t> least = available(root);
  const GroupFiles two{root / "sys/fs/cgroup", "memory.max", "memory.current", "inactive_file"};
  const GroupFiles one{root / "sys/fs/cgroup/memory", "memory.limit_in_bytes",
                       "memory.usage_in_bytes", "total_inactive_file"};
  std::ifstream in(root / "proc/self/cgroup");
  std::string line;
  while (std::getline(in, line)) {  // number:controllers:path
    const std::size_t first = line.find(':'), second = line.find(':', first + 1);
    if (first == std::string::npos || second == std::string::npos) continue;
    const std::string controllers = line.substr(first + 1, second - first - 1);
    const fs::path group = line.substr(second + 1);
    if (controllers.empty()) lower_by_groups(two, group, least);
    if (("," + controllers + ",").find(",memory,") != std::string::npos)
      lower_by_groups(one, group, least);
  }
  return least;
}

}  // namespace hummock
