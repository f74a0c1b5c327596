// Slips in a site file, and the one line that each gets.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace hummock::tests {

// What is said of tests/data/site/good.site.toml with more at its end; "taken" when it is read.
inline std::string line_of(const std::string& more) {
  const std::string file = test_data() + "/site/good.site.toml";
  std::ifstream in(file);
  std::ostringstream text;
  text << in.rdbuf() << "\n" << more;
  try {
    read_site_text(text.str(), file);
  } catch (const InputError& error) {
    return error.what();
  }
  return "taken";
}

struct Slip {
  std::string text, key, found, allowed;
};

inline void each_gets_its_line(const std::vector<Slip>& slips) {
  for (const Slip& slip : slips) {
    const std::string line = line_of(slip.text);
    for (const std::string& part : {slip.key, slip.found, slip.allowed})
      EXPECT_NE(line.find(part), std::string::npos) << part << "\n" << line;
    EXPECT_EQ(line.find('\n'), std::string::npos) << line;
  }
}

}  // namespace hummock::tests
