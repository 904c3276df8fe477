// The 3MF of a printed part: its package against a published checksum, its mesh against closed form, every fault.
#include <gtest/gtest.h>

#include "output/read_back.h"
#include "output/sample.h"
#include "output/threemf.h"
#include "output/zip.h"

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

// The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms: "123456789" gives CBF43926.
TEST(Zip, HasThePublishedChecksum) { EXPECT_EQ(crc32("123456789"), 0xcbf43926UL); }

TEST(Zip, ReadsBackWhatItWroteAndSeesADamagedByte) {
  const std::vector<ZipEntry> entries{{"a.txt", "hello"}, {"b/c.txt", std::string("\0x", 2)}, {"empty", ""}};
  const std::string bytes = write_zip(entries);
  EXPECT_EQ(read_zip(bytes), entries);
  EXPECT_EQ(write_zip(entries), bytes);
  for (std::size_t at = 30 + 5; at < 30 + 10; ++at) {
    std::string damaged = bytes;
    damaged[at] = '?';
    EXPECT_EQ(read_zip(damaged), std::nullopt) << at;
  }
  for (std::size_t length = 0; length < bytes.size(); ++length)
    EXPECT_EQ(read_zip(bytes.substr(0, length)), std::nullopt);
}

// A sixth of 3 x 3 x 4.
TEST(Threemf, HoldsTheMeshInMillimetresWithItsNames) {
  const std::string bytes = write_3mf(tetrahedron(), aid(), sample::info());
  const auto facts = read_3mf(bytes);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->unit, "millimeter");
  EXPECT_EQ(facts->triangles, 4U);
  EXPECT_EQ(facts->open_edges, 0U);
  EXPECT_NEAR(facts->volume_mm3, 3.0 * 3 * 4 / 6, 1e-12);
  EXPECT_EQ(facts->part_number, "PRT01");
  EXPECT_EQ(facts->title, "PRT01 spacer \"A\" &amp; more");
  EXPECT_EQ(facts->description, "small-box, revision B, spec aaaaaaaaaaaa");
  EXPECT_NE(bytes.find("<vertex x=\"0\" y=\"0\" z=\"0\"/>"), std::string::npos) << "moved to where nothing is negative";
  EXPECT_NE(bytes.find("name=\"PRT01 spacer &quot;A&quot; &amp; more\""), std::string::npos);
  EXPECT_EQ(bytes, write_3mf(tetrahedron(), aid(), sample::info()));
}

TEST(Threemf, SeesAnOpenMesh) {
  Mesh open = tetrahedron();
  open.triangles.pop_back();
  EXPECT_EQ(read_3mf(write_3mf(open, aid(), sample::info()))->open_edges, 3U);
  Mesh turned = tetrahedron();
  std::swap(turned.triangles[0][0], turned.triangles[0][1]);
  EXPECT_GT(read_3mf(write_3mf(turned, aid(), sample::info()))->open_edges, 0U);
  EXPECT_EQ(read_3mf("PK"), std::nullopt);
}

TEST(ThreemfReadBack, ComparesWithThePart) {
  const Plan plan = sample::plan();
  const PartId id = plan.parts.size() - 1;
  const Part& part = plan.parts[id];
  const PartSolid& solid = sample::model().parts.at(id);
  const auto mesh = solid::triangulate(solid.solid, 0.02);
  ASSERT_TRUE(mesh);
  const std::string bytes = write_3mf(*mesh, part, sample::info());
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
