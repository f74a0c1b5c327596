// What the commands share of the terminal: a progress line with time left, Ctrl-C, loading a site.
#pragma once

#include <filesystem>
#include <string>

#include "engine/base/progress.h"
#include "engine/cli/build_flags.h"
#include "engine/foresight/foresight.h"
#include "engine/model/model.h"

namespace hummock::cli {

// Shows stage, share done and time left on standard error when that is a terminal, nothing
// otherwise. While it lives, the first Ctrl-C (SIGINT), SIGTERM or SIGHUP asks the work to stop;
// the second ends the program.
class TerminalProgress {
 public:
  TerminalProgress();
  ~TerminalProgress();
  TerminalProgress(const TerminalProgress&) = delete;
  TerminalProgress& operator=(const TerminalProgress&) = delete;
  const Progress& progress() const { return progress_; }

 private:
  Progress progress_;
};

// Reads and builds; warnings and notes go to standard error. Throws ResourceError when `asked` is
// foreseen to take more memory than is free, unless that was allowed; says so from half of it on.
Model load(const std::filesystem::path& site, const BuildFlags& build,
           const foresight::Asked& asked, const Progress& progress);

// With --foresee: what `asked` would take and what is free, on standard output. The exit status.
int tell_foreseen(const std::filesystem::path& site, const foresight::Asked& asked);

// Makes the folder if need be. Throws InputError when it cannot.
void need_folder(const std::filesystem::path& folder);

// Saves `text`, or prints it when the path is "-".
void save_or_print(const std::string& path, const std::string& text);

}  // namespace hummock::cli
