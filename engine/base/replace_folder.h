// Putting a folder of files in place as one thing: all of the new, or all of the old.
//
// The files are written into a hidden folder beside (".NAME.PID.part"), with a manifest.json that
// lists each with its size and SHA-256; then the two folders change names in one step
// (renameat2 with RENAME_EXCHANGE). Whatever else lay in the old folder (a user's own files) is
// linked into the new one first; what an older manifest lists is not, so that nothing of another
// design stays. Of two writers at once the last to end has the folder, whole. After kill -9 the
// hidden folder is swept away by the next writer of the same place.
//
// Where the names cannot be changed (a mount point, the current folder, a parent that cannot be
// written) the files are put in one by one, the old manifest removed first and the new one last: a
// folder without a manifest, or whose files differ from it, is not whole.
#pragma once

#include <filesystem>
#include <functional>
#include <vector>

namespace hummock {

inline constexpr const char* kManifest = "manifest.json";

// What of an older folder goes when there is no manifest to tell; paths relative to the folder.
using IsOurs = std::function<bool(const std::filesystem::path&)>;

// `write` fills the empty folder it is given and returns its files' names, relative to it. A link
// to a folder is followed. Throws InputError when `folder` is a file, a pipe, or cannot be made;
// ResourceError when the disk is full; what `write` throws. The old folder is then as it was.
std::vector<std::filesystem::path> replace_folder(
    const std::filesystem::path& folder, const IsOurs& is_ours,
    const std::function<std::vector<std::filesystem::path>(const std::filesystem::path&)>& write);

// Throws as above when a folder cannot come to be there; makes nothing. For asking early.
void refuse_no_folder(const std::filesystem::path& folder);

}  // namespace hummock
