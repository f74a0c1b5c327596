#include "engine/cli/outcome.h"

#include <fmt/format.h>

#include <filesystem>
#include <new>
#include <string>
#include <system_error>

#include "engine/base/input_error.h"
#include "engine/base/progress.h"
#include "engine/base/resource_error.h"
#include "engine/base/supervise.h"
#include "engine/cli/commands.h"
#include "engine/cli/plain_output.h"

namespace hummock::cli {
namespace {

int tell(const std::string& line, int status) {
  fmt::print(stderr, "{}\n", line);
  return status;
}

int tell_fault(const std::string& what) {
  return tell(fmt::format("{} ({})", kFaultLine, what), kFaultStatus);
}

int tell_system(const std::system_error& error) {
  const int code = error.code().value();
  const bool gave_out = means_no_room(code) || code == EAGAIN;  // EAGAIN: no thread to be had
  return gave_out ? tell(error.what(), kResourceStatus) : tell_fault(error.what());
}

// What TBB says, also through Embree, when no thread can be started: no memory, or too many run.
bool wants_a_thread(const std::string& what) {
  return what.find("pthread_create") != std::string::npos;
}

int tell_other(const std::string& what) {
  if (!wants_a_thread(what)) return tell_fault(what);
  return tell(fmt::format("out of memory or of threads ({}); nothing was replaced", what),
              kResourceStatus);
}

int run_and_tell(const std::function<int()>& run) {
  try {
    return run();
  } catch (const InputError& error) {
    return tell(error.what(), kBadInput);
  } catch (const Cancelled&) {
    return tell("stopped; nothing half-written is left", kStoppedStatus);
  } catch (const ResourceError& error) {
    return tell(error.what(), kResourceStatus);
  } catch (const std::bad_alloc&) {
    return tell(kNoMemoryLine, kResourceStatus);
  } catch (const std::length_error&) {  // more than any memory holds
    return tell(kNoMemoryLine, kResourceStatus);
  } catch (const std::filesystem::filesystem_error& error) {
    const bool gave_out = means_no_room(error.code().value());
    return tell(error.what(), gave_out ? kResourceStatus : kBadInput);
  } catch (const std::system_error& error) {
    return tell_system(error);
  } catch (const std::exception& error) {
    return tell_other(error.what());
  } catch (...) {
    return tell_fault("of no known kind");
  }
}

}  // namespace

int told_outcome(const std::function<int()>& run) {
  const int status = run_and_tell(run);
  const std::string_view lost = lost_output();
  if (lost.empty() || status > kSomethingShort) return status;
  return tell(fmt::format("standard output was lost ({})", lost), kResourceStatus);
}

}  // namespace hummock::cli
