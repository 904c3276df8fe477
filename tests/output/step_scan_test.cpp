// The scan of STEP files: strings after ISO 10303-21, and faults in what the solid stage writes.
#include <gtest/gtest.h>

#include "output/part21.h"
#include "output/paths.h"
#include "output/read_back.h"
#include "output/sample.h"
#include "output/step_scan.h"

namespace fitup::output {
namespace {

std::string bytes_of(const std::string& path) {
  for (const JobFile& file : sample::files()) {
    if (file.path == path) return file.bytes;
  }
  ADD_FAILURE() << path;
  return {};
}

std::string flaw_of(const std::string& text) {
  const auto scanned = scan_step(text);
  const auto* flaw = std::get_if<std::string>(&scanned);
  return flaw ? *flaw : "";
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

// ISO 10303-21, 6.4.3: the apostrophe and the reverse solidus are doubled; \X2\ carries 4 digits a character,
// \X4\ 8, each closed by \X0\. The example \X2\03B103B203B3\X0\ (Greek alpha beta gamma) is the standard's.
TEST(Part21, DecodesStrings) {
  EXPECT_EQ(decoded_step_string("plain"), "plain");
  EXPECT_EQ(decoded_step_string("don''t \\\\ do"), "don't \\ do");
  EXPECT_EQ(decoded_step_string("\\X2\\03B103B203B3\\X0\\!"), "\xCE\xB1\xCE\xB2\xCE\xB3!");
  EXPECT_EQ(decoded_step_string("\\X4\\0001F529\\X0\\"), "\xF0\x9F\x94\xA9");
}

TEST(Part21, ReadsInstancesStringsNumbersAndReferences) {
  const StepData data = read_part21(
      "ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\n#1=POINT('a;''b',(1.,-2.5E1,3.));\n#2 = "
      "(A()B('x',#1)C(#1,#3));\n#3=D($,*,.T.,#2);\n"
      "ENDSEC;\nEND-ISO-10303-21;\n");
  EXPECT_EQ(data.flaw, "");
  ASSERT_EQ(data.order.size(), 3U);
  EXPECT_EQ(data.find(1)->strings(), std::vector<std::string>{"a;'b"});
  EXPECT_EQ(data.find(1)->numbers(), (std::vector<double>{1, -25, 3}));
  EXPECT_EQ(data.find(2)->references(), (std::vector<int>{1, 1, 3}));
  EXPECT_EQ(data.find(2)->references_of("C"), (std::vector<int>{1, 3}));
  EXPECT_EQ(data.find(3)->type, "D");
}

TEST(StepScan, FindsProductsTreeAndVolumes) {
  const auto scanned = scan_step(bytes_of(assembly_step));
  ASSERT_TRUE(std::holds_alternative<StepFacts>(scanned)) << std::get<std::string>(scanned);
  const StepFacts& facts = std::get<StepFacts>(scanned);
  EXPECT_EQ(facts.solids, 4U);            // the spacer stands nowhere
  EXPECT_EQ(facts.products.size(), 7U);   // four parts, two groups, the whole
  EXPECT_EQ(facts.uses.size(), 7U + 2U);  // seven instances, two groups
  EXPECT_EQ(facts.products.at("PLT02").name, "PLT02 Auflage, \"hinten\" \xC3\xBC");
  EXPECT_NEAR(facts.products.at("ITM01").volume_mm3.value_or(0), 100 * 80 * 60, 0.5);
  EXPECT_NEAR(facts.products.at("PLT02").volume_mm3.value_or(0), 400 * 50 * 5, 0.1);
}

TEST(StepScan, SeesATextThatIsCutOff) {
  const std::string good = bytes_of(assembly_step);
  EXPECT_EQ(flaw_of(good), "");
  EXPECT_NE(flaw_of(good.substr(0, good.size() / 2)), "");
  EXPECT_NE(flaw_of(good.substr(0, good.rfind("END-ISO"))), "");
  EXPECT_NE(flaw_of("solid"), "");
}

TEST(StepScan, SeesAReferenceThatLeadsNowhere) {
  const std::string text = bytes_of(assembly_step);
  const std::size_t at = text.find("ITEM_DEFINED_TRANSFORMATION('");
  const std::size_t reference = text.find('#', at);
  EXPECT_NE(
      flaw_of(text.substr(0, reference + 1) + "999999" + text.substr(text.find(',', reference))).find("not there"),
      std::string::npos);
}

TEST(StepScan, SurvivesATextThatEndsAnywhere) {
  const std::string part = bytes_of("parts/PLT02_auflage-hinten.step");
  for (std::size_t length = 0; length + 20 < part.size(); length += 13)
    EXPECT_NE(flaw_of(part.substr(0, length)), "") << length;
}

TEST(StepReadBack, ComparesPlacesNamesAndVolumes) {
  const std::string good = bytes_of(assembly_step);
  const Plan plan = sample::plan();
  EXPECT_EQ(flaw_in_assembly_step(good, plan, sample::model(), sample::info()), std::nullopt);
  Plan moved = plan;
  moved.instances[1].pose = moved.instances[1].pose.moved({0, 0, 0.00001});
  EXPECT_EQ(flaw_in_assembly_step(good, moved, sample::model(), sample::info()), "ITM01 'block 1' stands elsewhere");
  Plan turned = plan;
  turned.instances[3].pose = Pose::at({700, 200, 0}, axis::y, axis::z);
  EXPECT_EQ(flaw_in_assembly_step(good, turned, sample::model(), sample::info()),
            "PLT01 'right plate' stands elsewhere");
  Plan fewer = plan;
  fewer.instances.pop_back();
  EXPECT_EQ(flaw_in_assembly_step(good, fewer, sample::model(), sample::info()), "it places 7 parts, the plan 6");
  Model heavier = sample::model();
  heavier.parts[2].volume_mm3 *= 1.00001;
  EXPECT_NE(flaw_in_assembly_step(good, plan, heavier, sample::info()).value_or("").find("the volume of PLT01 is"),
            std::string::npos);
  EXPECT_EQ(flaw_in_assembly_step(replaced(good, "'PLT01 left plate'", "'PLT01 left plane'"), plan, sample::model(),
                                  sample::info()),
            "the product PLT01 is called 'PLT01 left plane'");
}

TEST(StepReadBack, ComparesAPartsFile) {
  const Part part = sample::plan().parts[2];
  const PartSolid& solid = sample::model().parts[2];
  EXPECT_EQ(flaw_in_part_step(bytes_of(step_path(part)), part, solid, sample::info()), std::nullopt);
  EXPECT_EQ(flaw_in_part_step(bytes_of(assembly_step), part, solid, sample::info()), "it has 7 products");
}

}  // namespace
}  // namespace fitup::output
