#include "engine/cli/terminal.h"

#include <fmt/core.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <memory>

#include "engine/base/atomic_file.h"
#include "engine/base/free_memory.h"
#include "engine/base/resource_error.h"
#include "engine/cli/plain_output.h"
#include "engine/site/read_site.h"
#include "engine/usable/kept_answers.h"

namespace hummock::cli {
namespace {

// The only globals: a signal handler can reach nothing else.
std::atomic<bool> asked_to_stop{false};
std::atomic<std::int64_t> asked_at{0};  // ms

// What is sent to a whole group comes twice, the second time handed on by the supervisor.
constexpr std::int64_t kSameRequest = 300;  // ms

std::int64_t now_in_ms() {
  timespec now{};
  ::clock_gettime(CLOCK_MONOTONIC, &now);
  return static_cast<std::int64_t>(now.tv_sec) * 1000 + now.tv_nsec / 1'000'000;
}

void on_signal(int number) {
  if (!asked_to_stop.exchange(true)) {
    asked_at.store(now_in_ms());
  } else if (now_in_ms() - asked_at.load() > kSameRequest) {
    std::signal(number, SIG_DFL);
    std::raise(number);
  }
}

using Clock = std::chrono::steady_clock;

// Redraws one line, at most ten times a second.
class ProgressLine {
 public:
  void show(std::string_view stage, double done) {
    const auto now = Clock::now();
    if (done < 1.0 && now - last_ < std::chrono::milliseconds(100)) return;
    last_ = now;
    if (stage != stage_) {
      stage_ = stage;
      start_ = now;
      at_start_ = done;
    }
    const double took = std::chrono::duration<double>(now - start_).count();
    std::string left;
    if (done > at_start_ && took > 1.0) {
      left = fmt::format(", {:.0f} s left", took * (1.0 - done) / (done - at_start_));
    }
    std::string line = fmt::format("\r\033[K{}: {:.0f} %{}", stage, 100.0 * done, left);
    if (done >= 1.0) line += "\r\033[K";
    draw_on_terminal(line);
  }

 private:
  std::string stage_;
  Clock::time_point start_;
  Clock::time_point last_;
  double at_start_ = 0.0;
};

}  // namespace

TerminalProgress::TerminalProgress() {
  progress_.cancel = &asked_to_stop;
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) std::signal(s, on_signal);
  if (::isatty(STDERR_FILENO) == 0) return;
  const auto line = std::make_shared<ProgressLine>();
  progress_.report = [line](std::string_view stage, double done) { line->show(stage, done); };
}

TerminalProgress::~TerminalProgress() {
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) std::signal(s, SIG_DFL);
}

namespace {

void foresee(const Site& site, const foresight::Asked& asked, bool all_the_same) {
  const double peak = foresight::foreseen_peak(site, asked);
  const auto word = foresight::word_on(peak, free_memory());
  if (!word) return;
  if (word->refuse && !all_the_same) throw ResourceError(word->line);
  fmt::print(stderr, "memory: {}\n", word->line);
}

}  // namespace

Model load(const std::filesystem::path& file, const BuildFlags& build,
           const foresight::Asked& asked, const Progress& progress) {
  const Site site = read_site(file);
  for (const std::string& w : site.warnings) fmt::print(stderr, "warning: {}\n", w);
  foresee(site, asked, build.all_the_same);
  Model model = build_model(site, build.options(), progress);
  usable::keep_answers(model);
  for (const std::string& n : model.notes) fmt::print(stderr, "note: {}\n", n);
  return model;
}

int tell_foreseen(const std::filesystem::path& file, const foresight::Asked& asked) {
  const double peak = foresight::foreseen_peak(read_site(file), asked);
  fmt::print("foreseen_mb {:.0f}\n", peak / 1e6);
  if (const auto free = free_memory())
    fmt::print("free_mb {:.0f}\n", static_cast<double>(*free) / 1e6);
  return 0;
}

void need_folder(const std::filesystem::path& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (!std::filesystem::is_directory(folder)) {
    throw InputError({"", 0, "-o"}, "\"" + folder.string() + "\"",
                     "a folder that exists or can be made");
  }
}

void save_or_print(const std::string& path, const std::string& text) {
  if (path == "-") {
    print_json(text);
  } else {
    save_bytes(path, text);
  }
}

}  // namespace hummock::cli
