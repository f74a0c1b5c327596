#include "tests/support/run_program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

#include "tests/support/paths.h"

namespace hummock::testing {

namespace fs = std::filesystem;

ScratchFolder::ScratchFolder() {
  std::string name = (fs::temp_directory_path() / "hummock-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder");
  path_ = name;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

int ScratchFolder::files() const {
  return static_cast<int>(
      std::distance(fs::recursive_directory_iterator(path_), fs::recursive_directory_iterator()));
}

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

void write_text(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

Said run_program(const std::string& arguments, const fs::path& folder) {
  const ScratchFolder words;
  const std::string command = "cd '" + folder.string() + "' && '" + tests::program() + "' " +
                              arguments + " >'" + (words / "out").string() + "' 2>'" +
                              (words / "err").string() + "'";
  const int raw = std::system(command.c_str());
  Said said;
  said.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
  said.out = text_of(words / "out");
  said.err = text_of(words / "err");
  return said;
}

}  // namespace hummock::testing
