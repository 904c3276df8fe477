// Every STEP file that the demo writes, by two readers that share no code: the kernel's, and the tests' own of
// ISO 10303-21 text with volumes by the divergence theorem.
// Entry: gtest.
#include <gtest/gtest.h>

#include <map>

#include "end_to_end/program.h"
#include "fitup/tolerances.h"
#include "judges/part21_assembly.h"
#include "judges/part21_volume.h"
#include "solid/read_step.h"

namespace fitup::test {
namespace {

std::map<std::string, std::string> step_files(const std::filesystem::path& job) {
  std::map<std::string, std::string> found;
  for (auto& [name, bytes] : files_in(job)) {
    if (name.ends_with(".step")) found[name] = bytes;
  }
  return found;
}

struct Seen {
  double volume_mm3 = 0;
  std::size_t placements = 0;
};
using Parts = std::map<std::string, Seen>;

Parts by_our_reader(const std::string& name, const std::string& bytes) {
  Parts parts;
  const auto file = judges::read_part21(bytes);
  if (!file) {
    ADD_FAILURE() << name << ": " << file.error().reason;
    return parts;
  }
  EXPECT_TRUE(file->dangling().empty()) << name;
  const auto assembly = judges::assembly_of(*file);
  EXPECT_EQ(assembly.length_unit, "MILLI METRE") << name;
  // ISO 10303-242: the object identifier of the second edition's schema family begins so.
  EXPECT_EQ(assembly.schema.rfind("AP242_MANAGED_MODEL_BASED_3D_ENGINEERING", 0), 0U) << assembly.schema;
  for (const auto& product : assembly.products) {
    EXPECT_FALSE(product.name.empty()) << name << ": independent readers refuse empty names";
    if (product.solids.empty()) continue;
    EXPECT_EQ(product.solids.size(), 1U) << product.name;
    EXPECT_EQ(product.coloured, 1U) << product.name;
    const auto volume = judges::volume_of_solid(*file, product.solids.front());
    if (!volume) ADD_FAILURE() << product.name << ": " << volume.error().reason;
    parts[product.name].volume_mm3 = volume ? *volume : 0;
    EXPECT_NEAR(product.stated_volume_mm3.value_or(0), parts[product.name].volume_mm3,
                tolerance::volume_relative * parts[product.name].volume_mm3);
  }
  for (const auto& one : assembly.placements()) ++parts[assembly.products[one.product].name].placements;
  return parts;
}

Parts by_the_kernel(const std::string& name, const std::string& bytes) {
  Parts parts;
  const auto read = solid::read_step(bytes);
  if (!read) ADD_FAILURE() << name << ": " << read.error().reason;
  if (!read) return parts;
  for (const auto& part : read->parts) parts[part.name] = {part.volume_mm3, part.placements};
  return parts;
}

void expect_agreement(const std::filesystem::path& job) {
  const auto files = step_files(job);
  ASSERT_TRUE(files.contains("assembly.step"));
  const Parts whole = by_our_reader("assembly.step", files.at("assembly.step"));
  std::size_t alone = 0;
  for (const auto& [name, bytes] : files) {
    const Parts ours = by_our_reader(name, bytes);
    const Parts kernels = by_the_kernel(name, bytes);
    ASSERT_EQ(ours.size(), kernels.size()) << name;
    for (const auto& [part, seen] : ours) {
      ASSERT_TRUE(kernels.contains(part)) << name << ": " << part;
      EXPECT_NEAR(kernels.at(part).volume_mm3, seen.volume_mm3, tolerance::volume_relative * seen.volume_mm3) << part;
      EXPECT_EQ(kernels.at(part).placements, seen.placements) << part;
      if (name == "assembly.step" || !whole.contains(part)) continue;  // printed aids stand in no assembly
      EXPECT_NEAR(whole.at(part).volume_mm3, seen.volume_mm3, tolerance::volume_relative * seen.volume_mm3) << part;
      ++alone;
    }
  }
  EXPECT_EQ(alone, whole.size()) << "every part of the assembly has a file of its own";
}

TEST(StepJudges, AgreeOnNamesCountsAndVolumesOfEveryFile) {
  ASSERT_EQ(demo_job().run.status, 0) << demo_job().run.errors;
  expect_agreement(demo_job().folder);
}

TEST(StepJudges, AgreeOnBoxesUnderOneAnotherAndOnLugs) {
  const ScratchFolder scratch;
  for (const char* spec : {"park-locomotive/front-box-with-lower.toml", "cabin-inverter/cabinet.toml"}) {
    const auto path = std::filesystem::path(FITUP_EXAMPLES) / spec;
    const auto job = scratch.path() / path.stem();
    const RunResult made = fitup({"make", path.string(), "-o", job.string(), "--only", "step", "--quiet"});
    ASSERT_EQ(made.status, 0) << spec << made.output << made.errors;
    expect_agreement(job);
  }
}

}  // namespace
}  // namespace fitup::test
