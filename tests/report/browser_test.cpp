// The page in headless Chromium, from disk: nothing leaves, nothing runs that is not its own, and
// the model turns. Skipped where there is no Chromium.
#include <gtest/gtest.h>

#include <cstdlib>
#include <sstream>

#include "engine/report/setters/html_page.h"
#include "tests/report/written_yard.h"

namespace hummock::report {
namespace {

using hummock::testing::ScratchFolder;
using hummock::testing::text_of;
using hummock::testing::write_text;

struct Seen {
  std::string document;  // as it stands after the scripts
  std::string net;       // Chromium's own log of its network
};

Seen open_page(const std::filesystem::path& page, const std::string& more = "") {
  const ScratchFolder profile;
  const std::string out = (profile / "dom.html").string();
  const std::string log = (profile / "net.json").string();
  const std::string command =
      "timeout 60 chromium --headless --no-sandbox --disable-quic --no-first-run "
      "--disable-background-networking --disable-component-update --disable-sync "
      "--use-angle=swiftshader --enable-unsafe-swiftshader --ignore-gpu-blocklist "
      "--virtual-time-budget=15000 --user-data-dir='" +
      (profile / "data").string() + "' --log-net-log='" + log + "' " + more +
      " --dump-dom 'file://" + page.string() + "' >'" + out + "' 2>/dev/null";
  EXPECT_EQ(std::system(command.c_str()), 0);
  return {text_of(out), text_of(log)};
}

bool has_browser() {
  return std::system("command -v chromium >/dev/null 2>&1") == 0;
}

// Addresses asked for by a page, not by the browser for itself.
// Chromium writes its log an event a line.
int requests_of_pages(const std::string& net) {
  std::istringstream lines(net);
  int n = 0;
  for (std::string line; std::getline(lines, line);) {
    const bool asked = line.find("\"initiator\":") != std::string::npos;
    const bool by_browser = line.find("\"initiator\":\"not an origin\"") != std::string::npos;
    const bool outside = line.find("\"url\":\"http") != std::string::npos ||
                         line.find("\"url\":\"ws") != std::string::npos;
    n += asked && outside && !by_browser ? 1 : 0;
  }
  return n;
}

TEST(ReportBrowser, the_watch_sees_a_request_when_there_is_one) {
  if (!has_browser()) GTEST_SKIP() << "no chromium";
  const ScratchFolder folder;
  write_text(folder / "asks.html",
             "<!DOCTYPE html><title>asks</title><img src=\"http://127.0.0.1:9/x.png\">");
  EXPECT_GT(requests_of_pages(open_page(folder / "asks.html").net), 0);
}

TEST(ReportBrowser, the_model_turns_nothing_leaves_and_no_name_runs) {
  if (!has_browser()) GTEST_SKIP() << "no chromium";
  const Seen seen = open_page(whole_yard().folder / "report.html");
  EXPECT_GT(seen.net.size(), 1000u);
  EXPECT_EQ(requests_of_pages(seen.net), 0);
  EXPECT_NE(seen.document.find("data-ready=\"yes\""), std::string::npos);
  EXPECT_NE(seen.document.find("<canvas"), std::string::npos);
  EXPECT_NE(seen.document.find("turn-layer-0"), std::string::npos);
  EXPECT_EQ(seen.document.find("<title>run</title>"), std::string::npos);
  EXPECT_NE(seen.document.find("&lt;img src=x onerror="), std::string::npos);
}

TEST(ReportBrowser, without_webgl_the_still_picture_stays) {
  if (!has_browser()) GTEST_SKIP() << "no chromium";
  const Seen seen =
      open_page(half_yard().folder / "report.html", "--disable-gpu --disable-3d-apis");
  EXPECT_EQ(seen.document.find("data-ready"), std::string::npos);
  EXPECT_NE(seen.document.find("<div id=\"still\">"), std::string::npos);
  EXPECT_NE(seen.document.find("shows a still picture"), std::string::npos);
}

}  // namespace
}  // namespace hummock::report
