// Files saved beside the drawing: all of them, whoever adds them; the first fault is told, and
// nothing is saved after it.
#include "engine/report/setters/save_aside.h"

#include <gtest/gtest.h>
#include <tbb/parallel_for.h>

#include <string>
#include <vector>

#include "engine/base/input_error.h"
#include "tests/support/run_program.h"

namespace hummock::report {
namespace {

std::string name_of(std::size_t k) {
  return "file-" + std::to_string(k) + ".txt";
}

TEST(SaveAside, AllThatIsAddedByAnyThreadIsThereWhenItHasFinished) {
  const hummock::testing::ScratchFolder folder;
  std::vector<std::string> texts;
  for (std::size_t k = 0; k < 60; ++k) texts.push_back(std::string(k * 700, 'a') + "end");
  SaveAside save;
  tbb::parallel_for(std::size_t{0}, texts.size(),
                    [&](std::size_t k) { save.add(folder / name_of(k), texts[k]); });
  save.finish();
  EXPECT_EQ(folder.files(), 60);
  for (std::size_t k = 0; k < texts.size(); ++k)
    EXPECT_EQ(hummock::testing::text_of(folder / name_of(k)), texts[k]) << k;
}

TEST(SaveAside, TheFirstThatCannotBeSavedIsToldAndNoneIsSavedAfterIt) {
  const hummock::testing::ScratchFolder folder;
  SaveAside save;
  save.add(folder / name_of(0), "whole");
  save.add(folder.path() / "no-such-folder" / "lost.txt", "lost");
  for (std::size_t k = 1; k < 20; ++k) save.add(folder / name_of(k), "late");
  EXPECT_THROW(save.finish(), InputError);
  EXPECT_EQ(folder.files(), 1);
  EXPECT_EQ(hummock::testing::text_of(folder / name_of(0)), "whole");
}

TEST(SaveAside, WhatWasAddedIsSavedEvenWhereNobodyWaits) {
  const hummock::testing::ScratchFolder folder;
  {
    SaveAside save;
    for (std::size_t k = 0; k < 10; ++k) save.add(folder / name_of(k), "text");
  }
  EXPECT_EQ(folder.files(), 10);
}

}  // namespace
}  // namespace hummock::report
