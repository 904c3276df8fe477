// Every STEP file of every example, after both protocols, by two readers that share no code: the kernel's, and the
// tests' own of ISO 10303-21 text with volumes by the divergence theorem. Entry: gtest.
#include <gtest/gtest.h>

#include <map>

#include "end_to_end/program.h"
#include "fitup/tolerances.h"
#include "judges/part21_assembly.h"
#include "judges/part21_volume.h"
#include "solid/read_step.h"

namespace fitup::test {
namespace {

std::map<std::string, std::string> step_files(const std::filesystem::path& folder) {
  std::map<std::string, std::string> found;
  for (auto& [name, bytes] : files_in(folder)) {
    if (name.ends_with(".step")) found[name] = bytes;
  }
  return found;
}

struct Seen {
  double volume_mm3 = 0;
  std::size_t placements = 0;
};
using Parts = std::map<std::string, Seen>;

/// ISO 10303-242: the object identifier of the second edition's schema family begins so; ISO 10303-214: likewise.
std::string schema_of(const std::string& protocol) {
  return protocol == "ap242" ? "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING" : "AUTOMOTIVE_DESIGN { 1 0 10303 214";
}

Parts by_our_reader(const std::string& name, const std::string& bytes, const std::string& protocol) {
  Parts parts;
  const auto file = judges::read_part21(bytes);
  if (!file) {
    ADD_FAILURE() << name << ": " << file.error().reason;
    return parts;
  }
  EXPECT_TRUE(file->dangling().empty()) << name;
  const auto assembly = judges::assembly_of(*file);
  EXPECT_EQ(assembly.length_unit, "MILLI METRE") << name;
  EXPECT_EQ(assembly.schema.rfind(schema_of(protocol), 0), 0U) << assembly.schema;
  EXPECT_NE(bytes.find(protocol == "ap242" ? "'ap242_managed_model" : "'automotive_design'"), std::string::npos)
      << name;
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

using SpecAndProtocol = std::tuple<std::filesystem::path, std::string>;
class StepJudges : public testing::TestWithParam<SpecAndProtocol> {};

TEST_P(StepJudges, AgreeOnNamesCountsAndVolumesOfEveryFile) {
  const auto& [spec, protocol] = GetParam();
  const DemoJob& job = example_job(spec, {"--step", protocol, "--only", "step"});
  ASSERT_EQ(job.run.status, 0) << job.run.errors;
  const auto files = step_files(job.folder);
  ASSERT_TRUE(files.contains("assembly.step"));
  const Parts whole = by_our_reader("assembly.step", files.at("assembly.step"), protocol);
  std::size_t alone = 0;
  for (const auto& [name, bytes] : files) {
    const Parts ours = by_our_reader(name, bytes, protocol);
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

INSTANTIATE_TEST_SUITE_P(Examples, StepJudges,
                         testing::Combine(testing::ValuesIn(example_specs()), testing::Values("ap242", "ap214")),
                         [](const auto& tested) {
                           return plain_word(std::get<0>(tested.param).stem().string()) + "_" +
                                  std::get<1>(tested.param);
                         });

}  // namespace
}  // namespace fitup::test
