// Files made to bring the program down: cut short, with changed bytes, endless blocks, huge numbers and counts.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include "fuzz/any_file.h"
#include "inspect/cases.h"
#include "inspect/dxf_maker.h"
#include "solid/step_measure.h"

namespace fitup::test {
namespace {

/// Of a processor: other programs do not count. Without its bounds such a file takes hours; slow machines are none.
constexpr double most_seconds = 60;

double seconds_of(const std::string& bytes, Inspection& inspection) {
  const std::clock_t start = std::clock();
  inspection = inspect_file(bytes, {{}, {}, false});
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  testing::Test::RecordProperty("seconds", std::to_string(seconds));
  return seconds;
}

void any(const FileCase& file, const std::string& bytes) {
  if (file.name.starts_with("Stl")) return any_stl(bytes);
  if (file.name.starts_with("Step")) return any_step(bytes);
  any_dxf(bytes);
}

TEST(Hostile, EveryFileCutShortOrWithAChangedByteKeepsEveryPromise) {
  for (const FileCase& file : all_cases()) {
    for (std::size_t at = 0; at < file.bytes.size(); at += 1 + file.bytes.size() / 7) {
      SCOPED_TRACE(file.name + " at byte " + std::to_string(at));
      any(file, file.bytes.substr(0, at));
      for (const char byte : {'\0', '9', '\n', '\xFF'}) {
        std::string damaged = file.bytes;
        damaged[at] = byte;
        any(file, damaged);
      }
    }
  }
}

TEST(Hostile, WhatTheFuzzersBeganWithAndFound) {
  const std::filesystem::path fuzz = std::filesystem::path(FITUP_TESTS) / "fuzz";
  const std::pair<const char*, void (*)(std::string_view)> kinds[] = {
      {"corpus-dxf", any_dxf}, {"corpus-stl", any_stl}, {"corpus-step", any_step}};
  for (const auto& [folder, any_of_kind] : kinds) {
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(fuzz / folder)) {
      SCOPED_TRACE(entry.path().string());
      std::ifstream file(entry.path(), std::ios::binary);
      const std::string bytes{std::istreambuf_iterator<char>(file), {}};
      any_of_kind(bytes);
      ++files;
    }
    EXPECT_GT(files, 1U) << folder;
  }
}

void expect_bounded(const std::string& bytes, const std::string& says) {
  Inspection inspection;
  EXPECT_LT(seconds_of(bytes, inspection), most_seconds);
  EXPECT_TRUE(inspection.findings.failed());
  std::string all;
  for (const Finding& f : inspection.findings.all) all += f.message + "\n";
  EXPECT_THAT(all, testing::HasSubstr(says));
}

TEST(Hostile, BlocksThatDoubleFortyTimes) {
  DxfMaker dxf;
  dxf.begin_block("b0").circle({0, 0}, 1).end_block();
  for (int i = 1; i <= 15; ++i) {
    const std::string inner = "b" + std::to_string(i - 1);
    dxf.begin_block("b" + std::to_string(i));
    for (int k = 0; k < 8; ++k) dxf.insert(inner, {10.0 * k, 3.0 * i});
    dxf.end_block();
  }
  dxf.insert("b15", {0, 0});
  expect_bounded(dxf.text(), "more than a million entities");
}

TEST(Hostile, ABlockInABillionRowsAndColumns) {
  DxfMaker dxf;
  dxf.begin_block("a").end_block().insert("a", {0, 0}).pair(70, "2000000000").pair(71, "2000000000");
  expect_bounded(dxf.text(), "more than a million entities");
}

TEST(Hostile, BlocksNestedAHundredDeep) {
  DxfMaker dxf;
  dxf.begin_block("b0").circle({0, 0}, 10).end_block();
  for (int i = 1; i <= 100; ++i) {
    dxf.begin_block("b" + std::to_string(i)).insert("b" + std::to_string(i - 1), {0, 0}).end_block();
  }
  dxf.insert("b100", {0, 0});
  expect_bounded(dxf.text(), "nested deeper than 16");
}

TEST(Hostile, ALongPolylineInManyPlaces) {
  std::vector<Vertex> corners;
  for (int i = 0; i < 20'000; ++i) corners.push_back({{i * 0.1, std::sin(i * 0.1)}, 0.1});
  DxfMaker dxf;
  dxf.begin_block("a").polyline(corners).end_block().insert("a", {0, 0}).pair(70, "30000").pair(71, "30000");
  expect_bounded(dxf.text(), "more than 2 million lines and arcs");
}

TEST(Hostile, ThousandsOfLinesOnOnePlace) {
  DxfMaker dxf = DxfMaker().units(4);
  for (int i = 0; i < 20'000; ++i) dxf.line({0, 0.0001 * i}, {300, 200 - 0.0001 * i});
  expect_bounded(dxf.text(), "cross");
}

TEST(Hostile, NumbersBeyondEverything) {
  for (const char* number : {"1e300", "-1e308", "nan", "inf", "1e-320", "99999999999999999999", "0x10", ""}) {
    SCOPED_TRACE(number);
    DxfMaker dxf = DxfMaker().units(4);
    dxf.rectangle({0, 0}, {300, 200});
    for (const int code : {10, 20, 11, 21})
      dxf.pair(0, "LINE").pair(10, "1").pair(20, "1").pair(11, "2").pair(21, "2").pair(code, number);
    dxf.pair(0, "CIRCLE").pair(10, "1").pair(20, "1").pair(40, number);
    dxf.pair(0, "ARC").pair(10, "1").pair(20, "1").pair(40, "3").pair(50, number).pair(51, "90");
    dxf.pair(0, "LWPOLYLINE").pair(70, "1").pair(10, "1").pair(20, "1").pair(42, number).pair(10, "5").pair(20, "9");
    dxf.pair(0, "INSERT").pair(2, "x").pair(10, number).pair(20, "1");
    any_dxf(dxf.text());
  }
}

TEST(Hostile, AMeshWithACountBeyondItsSize) {
  std::string bytes(84 + 50 * 3, '\0');
  for (std::size_t i = 80; i < 84; ++i) bytes[i] = '\xFF';
  any_stl(bytes);
  EXPECT_TRUE(inspect_file(bytes).findings.failed());
}

TEST(Hostile, TheKernelIsKeptWithinItsTime) {
  const auto none = solid::measure_step("ISO-10303-21;\nno STEP file at all");
  EXPECT_FALSE(none);
  const auto late = solid::measure_step(std::string(1000, ' '), 0);
  EXPECT_FALSE(late);
  EXPECT_THAT(late.error().reason, testing::HasSubstr("seconds"));
}

}  // namespace
}  // namespace fitup::test
