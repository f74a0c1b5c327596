// How much memory the machine has left for this program.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>

namespace hummock {

// Bytes: what the kernel thinks can be had without swapping (MemAvailable of /proc/meminfo, see
// proc(5)), or, where that is less, what is left below the limit of a control group this process is
// in (memory.max less memory.current of version 2, memory.limit_in_bytes less memory.usage_in_bytes
// of version 1; less pages of files that would be dropped first).
// Nothing where the system does not say. Address space that a shell has limited (ulimit -v) is not
// looked at: it is no memory. `root`: where proc and sys are; another for tests.
std::optional<std::uint64_t> free_memory(const std::filesystem::path& root = "/");

}  // namespace hummock
