#include "engine/base/replace_folder.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "engine/base/atomic_file.h"
#include "engine/base/input_file.h"
#include "engine/base/json_text.h"
#include "engine/base/resource_error.h"
#include "engine/base/temporaries.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr const char* kPart = ".part";

// Without links, without a slash at the end.
fs::path place_of(const fs::path& folder) {
  fs::path place = followed(fs::absolute(folder)).lexically_normal();
  if (!place.has_filename()) place = place.parent_path();
  std::error_code ignored;
  const fs::path real = fs::weakly_canonical(place, ignored);
  return real.empty() ? place : real;
}

// No such process, or one that has ended and only waits to be asked for its status.
bool is_gone(int pid) {
  if (::kill(pid, 0) != 0) return errno == ESRCH;
  std::ifstream in("/proc/" + std::to_string(pid) + "/stat");
  const std::string stat{std::istreambuf_iterator<char>(in), {}};
  const std::size_t name_ends = stat.rfind(')');
  return name_ends != std::string::npos && stat.compare(name_ends, 3, ") Z") == 0;
}

// Hidden folders of writers of this place that are no more.
void sweep(const fs::path& place) {
  std::error_code ignored;
  const std::string start = "." + place.filename().string() + ".";
  for (const auto& entry : fs::directory_iterator(place.parent_path(), ignored)) {
    const std::string name = entry.path().filename().string();
    if (!name.starts_with(start) || !name.ends_with(kPart)) continue;
    const std::string pid =
        name.substr(start.size(), name.size() - start.size() - std::string(kPart).size());
    const bool digits =
        !pid.empty() && pid.size() < 10 && pid.find_first_not_of("0123456789") == std::string::npos;
    if (digits && is_gone(std::stoi(pid))) fs::remove_all(entry.path(), ignored);
  }
}

class PartFolder {
 public:
  explicit PartFolder(fs::path path) : path_(std::move(path)) {
    std::error_code error;
    fs::remove_all(path_, error);
    remember_temporary(path_);
    fs::create_directories(path_, error);
    if (error) {
      forget_temporary(path_);
      refuse_place(path_.parent_path().string(), error.value());
    }
  }
  ~PartFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
    forget_temporary(path_);
  }
  PartFolder(const PartFolder&) = delete;
  PartFolder& operator=(const PartFolder&) = delete;
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

void save_manifest(const fs::path& folder, const std::vector<fs::path>& files) {
  json list = json::array();
  for (const fs::path& name : files) {
    const InputFile f = read_input(folder / name, "", {}, "").record;
    list.push_back({{"file", name.generic_string()}, {"bytes", f.bytes}, {"sha256", f.sha256}});
  }
  const json all{{"format", 1}, {"files", list}};
  save_bytes(folder / kManifest, json_text(all));
}

// What the folder's own manifest lists; `known` false when it has none that can be read.
std::set<std::string> listed_in(const fs::path& folder, bool& known) {
  std::set<std::string> names{kManifest};
  known = false;
  try {
    const std::string text = read_input(folder / kManifest, "", {}, "").bytes;
    const json all = json::parse(text);
    for (const json& f : all.at("files")) names.insert(f.at("file").get<std::string>());
    known = true;
  } catch (const InputError&) {
  } catch (const json::exception&) {
  }
  return names;
}

// The user's own files of the old folder, relative to it.
std::vector<fs::path> foreign_files(const fs::path& old, const IsOurs& is_ours) {
  bool known = false;
  const std::set<std::string> listed = listed_in(old, known);
  std::vector<fs::path> out;
  std::error_code error;
  for (fs::recursive_directory_iterator at(old, error), end; !error && at != end;
       at.increment(error)) {
    const fs::path name = at->path().lexically_relative(old);
    const bool ours =
        listed.contains(name.generic_string()) || (!known && is_ours && is_ours(name));
    const bool folder = at->is_directory(error) && !at->is_symlink(error);
    if (!ours && (!folder || fs::is_empty(at->path(), error))) out.push_back(name);
  }
  if (error) refuse_place(old.string(), error.value());
  return out;
}

void bring_over(const fs::path& from, const fs::path& to) {
  std::error_code error;
  if (fs::symlink_status(to, error).type() != fs::file_type::not_found) return;  // ours is newer
  fs::create_directories(to.parent_path(), error);
  if (fs::is_directory(fs::symlink_status(from, error))) {
    fs::create_directories(to, error);
  } else if (::linkat(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), 0) != 0) {
    fs::copy(from, to, fs::copy_options::copy_symlinks, error);
    if (error) refuse_place(from.string(), error.value());
  }
}

// False when the two names cannot be changed over here.
bool change_over(const fs::path& part, const fs::path& place) {
  std::error_code error;
  if (fs::equivalent(place, fs::current_path(error), error)) return false;
  if (!fs::exists(place, error)) return ::rename(part.c_str(), place.c_str()) == 0;
  return ::renameat2(AT_FDCWD, part.c_str(), AT_FDCWD, place.c_str(), RENAME_EXCHANGE) == 0;
}

void put_in_one_by_one(const fs::path& part, const fs::path& place,
                       const std::vector<fs::path>& files, const IsOurs& is_ours) {
  bool known = false;
  const std::set<std::string> old = listed_in(place, known);
  std::error_code error;
  fs::remove(place / kManifest, error);
  std::set<std::string> now;
  for (const fs::path& name : files) {
    now.insert(name.generic_string());
    fs::create_directories((place / name).parent_path(), error);
    save_bytes(place / name, read_input(part / name, "", {}, "").bytes);
  }
  std::vector<fs::path> gone;
  for (fs::recursive_directory_iterator at(place, error), end; !error && at != end;
       at.increment(error)) {
    const std::string name = at->path().lexically_relative(place).generic_string();
    const bool ours = old.contains(name) || (!known && is_ours && is_ours(name));
    if (ours && !now.contains(name) && at->is_regular_file(error)) gone.push_back(at->path());
  }
  for (const fs::path& path : gone) fs::remove(path, error);
  save_bytes(place / kManifest, read_input(part / kManifest, "", {}, "").bytes);
}

bool can_be_renamed(const fs::path& place) {
  std::error_code error;
  if (fs::equivalent(place, fs::current_path(error), error)) return false;
  return ::access(place.parent_path().c_str(), W_OK | X_OK) == 0;
}

// Beside the place; inside it when nothing can be put beside.
fs::path part_path(const fs::path& place) {
  const fs::path parent = can_be_renamed(place) ? place.parent_path() : place;
  return parent / ("." + place.filename().string() + "." + std::to_string(::getpid()) + kPart);
}

}  // namespace

void refuse_no_folder(const fs::path& folder) {
  std::error_code error;
  const fs::path place = place_of(folder);
  if (fs::exists(place, error) && !fs::is_directory(place, error)) {
    throw InputError({"", 0, "-o"}, "\"" + folder.string() + "\", which is no folder",
                     "a folder that exists or can be made");
  }
  fs::path above = place;
  while (!above.empty() && !fs::exists(above, error) && above != above.parent_path())
    above = above.parent_path();
  if (!fs::is_directory(above, error) || ::access(above.c_str(), W_OK | X_OK) != 0) {
    throw InputError({"", 0, "-o"}, "\"" + folder.string() + "\"",
                     "a folder that exists or can be made");
  }
}

std::vector<fs::path> replace_folder(
    const fs::path& folder, const IsOurs& is_ours,
    const std::function<std::vector<fs::path>(const fs::path&)>& write) {
  refuse_no_folder(folder);
  const fs::path place = place_of(folder);
  std::error_code error;
  fs::create_directories(place.parent_path(), error);
  sweep(place);
  const bool there = fs::exists(place, error);
  const PartFolder part(part_path(place));
  std::vector<fs::path> files = write(part.path());
  save_manifest(part.path(), files);
  files.emplace_back(kManifest);
  if (can_be_renamed(place)) {
    if (there) {
      fs::permissions(part.path(), fs::status(place, error).permissions(), error);
      for (const fs::path& name : foreign_files(place, is_ours))
        bring_over(place / name, part.path() / name);
    }
    if (change_over(part.path(), place)) return files;
  }
  fs::create_directories(place, error);
  put_in_one_by_one(part.path(), place, files, is_ours);
  return files;
}

}  // namespace hummock
