#include "engine/cli/plain_output.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <string>

#include "engine/base/printable.h"

namespace hummock::cli {
namespace {

constexpr std::size_t kMostLines = 6;
constexpr std::string_view kIndent = "      ";

// errno of the first write to standard output that failed.
int output_error = 0;

void write_out(int fd, std::string_view text) {
  while (!text.empty()) {
    const ssize_t wrote = ::write(fd, text.data(), text.size());
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) {
      if (fd == STDOUT_FILENO && output_error == 0) output_error = errno;
      return;
    }
    text.remove_prefix(static_cast<std::size_t>(wrote));
  }
}

// Where to break: after `most` characters, or at the last blank of their later half.
std::size_t break_in(std::string_view text, std::size_t most) {
  std::size_t at = 0;
  std::size_t blank = 0;
  for (std::size_t n = 0; n < most && at < text.size(); ++n) {
    if (text[at] == ' ' && n > most / 2) blank = at;
    next_character(text, at);
  }
  return at < text.size() && blank > 0 ? blank : at;
}

std::string wrapped(const std::string& line) {
  const std::string text = shortened(line, kMostLines * (kLongestLine - kIndent.size()));
  std::string out;
  std::string_view rest = text;
  for (std::size_t n = 0; n == 0 || !rest.empty(); ++n) {
    const std::size_t room = kLongestLine - (n == 0 ? 0 : kIndent.size());
    const std::size_t end = break_in(rest, room);
    if (n > 0) out.append("\n").append(kIndent);
    out += rest.substr(0, end);
    rest.remove_prefix(end);
    if (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
  }
  return out;
}

class Filter {
 public:
  Filter(int fd, bool wraps) : fd_(fd), wraps_(wraps) {}

  void add(std::string_view text) {
    std::string out;
    for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
      pending_ += text.substr(0, end);
      out += finished() + "\n";
      text.remove_prefix(end + 1);
    }
    pending_ += text;
    write_out(fd_, out);
  }
  void end() {
    if (!pending_.empty()) write_out(fd_, finished());
  }

 private:
  std::string finished() {
    std::string line = wraps_ ? wrapped(printable(pending_)) : printable_line(pending_);
    pending_.clear();
    return line;
  }

  int fd_;
  bool wraps_;
  std::string pending_;
};

Filter to_output(STDOUT_FILENO, true);
Filter to_error(STDERR_FILENO, false);

ssize_t take(void* filter, const char* text, size_t size) {
  static_cast<Filter*>(filter)->add({text, size});
  return static_cast<ssize_t>(size);
}

std::FILE* through(Filter& filter) {
  cookie_io_functions_t calls{};
  calls.write = take;
  return ::fopencookie(&filter, "w", calls);
}

std::string in_ascii(std::string_view json) {
  std::string out;
  for (std::size_t at = 0; at < json.size();) {
    const std::size_t from = at;
    const char32_t c = next_character(json, at);
    const auto unit = static_cast<std::uint32_t>(c);
    if (c < 0x80) {
      out += c == 0x7F ? "\\u007f" : std::string(json.substr(from, 1));
    } else if (c < 0x10000) {
      out += fmt::format("\\u{:04x}", unit);
    } else if (c == kNoCharacter) {
      out += "\\ufffd";
    } else {
      out += fmt::format("\\u{:04x}\\u{:04x}", 0xD800 + ((unit - 0x10000) >> 10),
                         0xDC00 + ((unit - 0x10000) & 0x3FF));
    }
  }
  return out;
}

}  // namespace

void guard_output() {
  std::signal(SIGPIPE, SIG_IGN);  // a lost output is told with a status of its own
  std::signal(SIGXFSZ, SIG_IGN);  // so is a file that may not grow
  if (std::FILE* out = through(to_output)) {
    std::setvbuf(out, nullptr, ::isatty(STDOUT_FILENO) != 0 ? _IOLBF : _IOFBF, 1U << 16U);
    stdout = out;
  }
  if (std::FILE* error = through(to_error)) {
    std::setvbuf(error, nullptr, _IONBF, 0);
    stderr = error;
  }
}

void print_json(std::string_view text) {
  std::fflush(stdout);
  if (::isatty(STDOUT_FILENO) != 0) {
    write_out(STDOUT_FILENO, in_ascii(text));
  } else {
    write_out(STDOUT_FILENO, text);
  }
}

void draw_on_terminal(std::string_view text) {
  write_out(STDERR_FILENO, text);
}

std::string_view lost_output() {
  std::fflush(stdout);
  to_output.end();
  std::cout.flush();
  if (output_error == 0 && !std::cout) output_error = EIO;
  return output_error == 0 ? std::string_view() : std::strerror(output_error);
}

}  // namespace hummock::cli
