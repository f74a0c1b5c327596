#include "tests/site/good_site.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "tests/support/paths.h"

namespace hummock {
namespace {

std::string whole_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_TRUE(in) << path;
  return text.str();
}

}  // namespace

std::filesystem::path good_site_file() {
  return std::filesystem::path(tests::test_data()) / "site" / "good.site.toml";
}

const std::string& good_site_text() {
  static const std::string text = whole_text(good_site_file());
  return text;
}

const std::string& good_species_text() {
  static const std::string text = whole_text(good_site_file().parent_path() / "good.species.toml");
  return text;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << "not in the text: " << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

int line_with(const std::string& text, const std::string& part) {
  const std::size_t at = text.find(part);
  EXPECT_NE(at, std::string::npos) << "not in the text: " << part;
  if (at == std::string::npos) return 0;
  return 1 + static_cast<int>(
                 std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

int line_with(const std::string& part) {
  return line_with(good_site_text(), part);
}

ScratchFolder::ScratchFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "hummock-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder");
  folder_ = name;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

void ScratchFolder::write(const std::string& name, const std::string& text) const {
  std::filesystem::create_directories((folder_ / name).parent_path());
  std::ofstream(folder_ / name, std::ios::binary) << text;
}

}  // namespace hummock
