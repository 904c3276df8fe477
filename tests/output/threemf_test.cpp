// The 3MF of a printed part: its names, its mesh against closed form, every fault, the same bytes each time.
#include <gtest/gtest.h>

#include "output/read_back.h"
#include "output/sample.h"
#include "output/threemf.h"

namespace fitup::output {
namespace {

Mesh tetrahedron() {
  return {{{-1, 0, 0}, {2, 0, 0}, {-1, 3, 0}, {-1, 0, 4}}, {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {0, 3, 2}}};
}

Part aid() {
  Part part;
  part.mark = "PRT01";
  part.name = "spacer \"A\" & more";
  return part;
}

// A sixth of 3 x 3 x 4.
TEST(Threemf, HoldsTheMeshInMillimetresWithItsNames) {
  const auto bytes = write_3mf(tetrahedron(), aid(), sample::info());
  ASSERT_TRUE(bytes);
  const auto facts = read_3mf(*bytes);
  ASSERT_TRUE(facts);
  EXPECT_TRUE(facts->in_millimetres);
  EXPECT_EQ(facts->triangles, 4U);
  EXPECT_EQ(facts->open_edges, 0U);
  EXPECT_NEAR(facts->volume_mm3, 3.0 * 3 * 4 / 6, 1e-12);
  EXPECT_EQ(facts->part_number, "PRT01");
  EXPECT_EQ(facts->title, "PRT01 spacer \"A\" &amp; more") << "metadata is read as it stands in the XML";
  EXPECT_EQ(facts->name, "PRT01 spacer \"A\" & more");
  EXPECT_EQ(facts->description, "small-box, revision B, spec aaaaaaaaaaaa");
  EXPECT_NEAR(facts->lowest, 0, 1e-12) << "moved to where nothing is negative";
}

TEST(Threemf, IsTheSameForTheSameSpecAndAnotherForAnother) {
  const auto write = [](const JobInfo& info) { return *write_3mf(tetrahedron(), aid(), info); };
  EXPECT_EQ(write(sample::info()), write(sample::info()));
  JobInfo other = sample::info();
  other.spec_hash[0] = other.spec_hash[0] == '0' ? '1' : '0';
  EXPECT_NE(write(sample::info()), write(other));
}

TEST(Threemf, SeesAnOpenMeshAndADamagedFile) {
  const auto open_edges = [](const Mesh& mesh) {
    return read_3mf(*write_3mf(mesh, aid(), sample::info())).value_or(ThreemfFacts{}).open_edges;
  };
  Mesh open = tetrahedron();
  open.triangles.pop_back();
  EXPECT_EQ(open_edges(open), 3U);
  Mesh turned = tetrahedron();
  std::swap(turned.triangles[0][0], turned.triangles[0][1]);
  EXPECT_GT(open_edges(turned), 0U);
  const std::string bytes = *write_3mf(tetrahedron(), aid(), sample::info());
  for (const std::size_t length : {std::size_t{0}, std::size_t{2}, bytes.size() / 2, bytes.size() - 1}) {
    EXPECT_EQ(read_3mf(bytes.substr(0, length)), std::nullopt) << length;
  }
  for (std::size_t at = 60; at < 100; ++at) {  // within the compressed model
    std::string damaged = bytes;
    damaged[at] = static_cast<char>(~damaged[at]);
    EXPECT_EQ(read_3mf(damaged), std::nullopt) << at;
  }
}

TEST(Threemf, SaysWhatTheLibraryRefuses) {
  Mesh flat = tetrahedron();
  flat.triangles[0] = {0, 0, 1};
  const auto refused = write_3mf(flat, aid(), sample::info());
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().operation, "write the 3MF of PRT01");
  EXPECT_NE(refused.error().reason.find("the mesh"), std::string::npos) << refused.error().reason;
}

TEST(ThreemfReadBack, ComparesWithThePart) {
  const Plan plan = sample::plan();
  const PartId id = plan.parts.size() - 1;
  const Part& part = plan.parts[id];
  const PartSolid& solid = sample::model().parts.at(id);
  const auto mesh = solid::triangulate(solid.solid, 0.02);
  ASSERT_TRUE(mesh);
  const std::string bytes = *write_3mf(*mesh, part, sample::info());
  EXPECT_EQ(flaw_in_3mf(bytes, part, solid, sample::info()), std::nullopt);
  Part other = part;
  other.mark = "SPC02";
  EXPECT_NE(flaw_in_3mf(bytes, other, solid, sample::info()), std::nullopt);
  JobInfo later = sample::info();
  later.revision = "C";
  EXPECT_EQ(flaw_in_3mf(bytes, part, solid, later), "it is of another job");
  PartSolid larger = solid;
  larger.volume_mm3 *= 1.2;
  EXPECT_NE(flaw_in_3mf(bytes, part, larger, sample::info()).value_or("").find("its volume is"), std::string::npos);
}

}  // namespace
}  // namespace fitup::output
