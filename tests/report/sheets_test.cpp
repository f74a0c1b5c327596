// The sheets of A4, turned into pictures by poppler and measured.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "tests/report/written_yard.h"

namespace hummock::report {
namespace {

using hummock::testing::ScratchFolder;
using hummock::testing::text_of;

std::string shell(const std::string& command) {
  std::string out;
  FILE* pipe = popen((command + " 2>/dev/null").c_str(), "r");
  char buffer[4096];
  while (pipe != nullptr && fgets(buffer, sizeof buffer, pipe) != nullptr) out += buffer;
  if (pipe != nullptr) pclose(pipe);
  return out;
}

std::string pdf() {
  return "'" + (whole_yard().folder / "report.pdf").string() + "'";
}

int page_count() {
  const std::string info = shell("pdfinfo " + pdf());
  const std::size_t at = info.find("Pages:");
  return at == std::string::npos ? 0 : std::atoi(info.c_str() + at + 6);
}

int page_with(const std::string& words) {
  for (int k = 1; k <= page_count(); ++k) {
    if (shell(fmt::format("pdftotext -f {0} -l {0} {1} -", k, pdf())).find(words) !=
        std::string::npos) {
      return k;
    }
  }
  return 0;
}

struct Grey {
  int w = 0, h = 0;
  std::string dots;
  bool dark(int x, int y) const {
    return static_cast<unsigned char>(
               dots[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) +
                    static_cast<std::size_t>(x)]) < 70;
  }
};

constexpr int kDotsPerMm = 10;  // 254 dots an inch

Grey page_picture(int page) {
  const ScratchFolder folder;
  shell("pdftoppm -gray -r 254 -f " + std::to_string(page) + " -l " + std::to_string(page) +
        " -singlefile " + pdf() + " '" + (folder / "page").string() + "'");
  std::istringstream in(text_of(folder / "page.pgm"));
  std::string magic;
  int most = 0;
  Grey grey;
  in >> magic >> grey.w >> grey.h >> most;
  in.get();
  grey.dots.resize(static_cast<std::size_t>(grey.w) * static_cast<std::size_t>(grey.h));
  in.read(grey.dots.data(), static_cast<std::streamsize>(grey.dots.size()));
  return grey;
}

// Middles of the dark runs of a row that are about as wide as a wall's line (1 mm).
std::vector<double> wall_lines(const Grey& grey, int y, int x_end) {
  std::vector<double> middles;
  for (int x = 0; x < x_end; ++x) {
    int n = 0;
    while (x + n < x_end && grey.dark(x + n, y)) ++n;
    if (n >= 8 && n <= 12) middles.push_back(x + 0.5 * n);
    x += n;
  }
  return middles;
}

TEST(ReportSheets, the_paper_is_a4) {
  EXPECT_NE(shell("pdfinfo " + pdf()).find("595.276 x 841.89 pts (A4)"), std::string::npos);
  EXPECT_GE(page_count(), 10);
}

TEST(ReportSheets, ten_metres_measure_a_hundred_millimetres_at_one_to_a_hundred) {
  const int page = page_with("mesh fence") > 0 ? page_with("mesh fence") : page_with("solid wall");
  ASSERT_GT(page, 0);
  EXPECT_NE(shell(fmt::format("pdftotext -f {0} -l {0} {1} -", page, pdf())).find("1 : 100"),
            std::string::npos);
  const Grey grey = page_picture(page);
  ASSERT_NEAR(grey.w, 2100, 1);  // poppler rounds up
  std::vector<double> spans;
  for (int y = 300; y < 1600; ++y) {
    const auto lines = wall_lines(grey, y, 155 * kDotsPerMm);
    if (lines.size() == 2) spans.push_back((lines[1] - lines[0]) / kDotsPerMm);
  }
  ASSERT_GT(spans.size(), 200u);  // rows through the yard, 80 mm deep
  std::sort(spans.begin(), spans.end());
  EXPECT_NEAR(spans[spans.size() / 2], 100.0, 0.15);  // mm; a dot is 0.1
}

TEST(ReportSheets, page_one_has_verdict_findings_and_cautions) {
  const std::string words = shell("pdftotext -f 1 -l 1 " + pdf() + " -");
  EXPECT_NE(words.find("Cautions"), std::string::npos);
  EXPECT_NE(words.find("Limits of the models"), std::string::npos);
  EXPECT_NE(words.find("requirement"), std::string::npos);
  EXPECT_NE(words.find("way out"), std::string::npos);
}

TEST(ReportSheets, the_last_page_can_be_reached_and_words_can_be_searched) {
  EXPECT_GT(page_with("Models and their limits"), 1);
  EXPECT_GT(page_with("Schedule of quantities"), 1);
}

}  // namespace
}  // namespace hummock::report
