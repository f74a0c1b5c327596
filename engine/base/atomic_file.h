// Saving a file so that a crash or a full disk never leaves half of one.
//
// A link is followed: what it points at is replaced (by rename, beside the target), the link stays.
// A pipe or a device is written to as it is, once all bytes are known. Permissions of the file
// replaced are kept. Where the file system can (O_TMPFILE) the bytes have no name until they are
// whole, so that even kill -9 leaves nothing beside; else a ".NAME.PID.part" may stay behind.
#pragma once

#include <filesystem>
#include <functional>
#include <string_view>

namespace hummock {

// Writes `bytes` whole, flushes them to disk, then puts them in the place of `path`. Throws
// InputError naming the path when the place cannot be written, ResourceError when the disk or the
// reader of a pipe gave out; a file at `path` is then as it was.
void save_bytes(const std::filesystem::path& path, std::string_view bytes);

// The same for a library that wants a file name: `write` is called with a temporary's path (same
// folder, or a scratch folder for a pipe; same extension) and must create it. If it throws, the
// temporary is removed.
void save_through(const std::filesystem::path& path,
                  const std::function<void(const std::filesystem::path&)>& write);

// Is it a pipe, a device or a socket, or a link to one: something bytes go into one after another?
bool is_stream(const std::filesystem::path& path);

// What `path` stands for when it is a link (of links), the path itself otherwise; what the last
// link names need not exist. Throws InputError for links in a circle.
std::filesystem::path followed(const std::filesystem::path& path);

}  // namespace hummock
