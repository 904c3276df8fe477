// STEP files: what was planned is what two readers find, and the same plan gives the same bytes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <locale>
#include <thread>

#include "fitup/tolerances.h"
#include "judges/part21.h"
#include "judges/part21_assembly.h"
#include "judges/part21_volume.h"
#include "sample_plan.h"
#include "solid/read_step.h"

namespace fitup {
namespace {

std::string must(const Result<std::string>& text) {
  if (!text) ADD_FAILURE() << text.error().operation << ": " << text.error().reason;
  return text ? *text : std::string();
}

std::string written(int cores = 1) {
  const Plan plan = sample::plan();
  const auto model = build_model(plan, cores);
  if (!model) {
    ADD_FAILURE() << model.error().operation << ": " << model.error().reason;
    return {};
  }
  return must(write_assembly_step(plan, *model, sample::job()));
}

judges::Part21File parsed(const std::string& text) {
  auto file = judges::read_part21(text);
  EXPECT_TRUE(file) << file.error().reason;
  return file ? std::move(file).value() : judges::Part21File();
}

double apart(Vec3 a, Vec3 b) { return norm(a - b); }
void expect_same(const Pose& a, const Pose& b, const std::string& what) {
  EXPECT_LT(apart(a.origin(), b.origin()), 1e-9) << what;
  EXPECT_LT(apart(a.x(), b.x()), 1e-9) << what;
  EXPECT_LT(apart(a.y(), b.y()), 1e-9) << what;
}

std::string full_name(const Part& part) { return part.mark + " " + part.name; }

TEST(StepFile, is_framed_and_names_the_registered_schema) {
  const std::string text = written();
  EXPECT_TRUE(text.starts_with("ISO-10303-21;\n"));
  EXPECT_TRUE(text.ends_with("ENDSEC;\nEND-ISO-10303-21;\n") || text.ends_with("ENDSEC;\nEND-ISO-10303-21;"));
  const auto file = parsed(text);
  // ISO 10303-442 is AP242's module; the identifier as registered has no dot after LF.
  EXPECT_EQ(judges::assembly_of(file).schema,
            "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }");
  ASSERT_EQ(file.all("APPLICATION_PROTOCOL_DEFINITION").size(), 1U);
  EXPECT_EQ(file.record(file.all("APPLICATION_PROTOCOL_DEFINITION")[0]).text(1),
            "ap242_managed_model_based_3d_engineering");
  EXPECT_TRUE(file.dangling().empty());
  EXPECT_EQ(file.header_record("FILE_NAME")->text(1), sample::job().timestamp);
  EXPECT_EQ(file.header_record("FILE_NAME")->text(0), "sample");
  EXPECT_EQ(file.header_record("FILE_DESCRIPTION")->at(0).at(0).text, sample::job().description);
}

TEST(StepFile, holds_only_characters_that_the_standard_allows) {
  for (const char c : written()) EXPECT_TRUE(c == '\n' || (c >= 32 && c <= 126)) << static_cast<int>(c);
}

TEST(StepFile, has_one_named_product_for_each_part_and_group) {
  const Plan plan = sample::plan();
  const auto assembly = judges::assembly_of(parsed(written()));
  std::vector<std::string> names;
  std::vector<std::string> ids;
  for (const auto& product : assembly.products) {
    names.push_back(product.name);
    ids.push_back(product.id);
    EXPECT_FALSE(product.name.empty());
  }
  std::vector<std::string> expected{"sample", "frame", "hardware"};
  for (const Part& part : plan.parts) expected.push_back(full_name(part));
  EXPECT_THAT(names, testing::UnorderedElementsAreArray(expected));
  std::sort(ids.begin(), ids.end());
  EXPECT_EQ(std::unique(ids.begin(), ids.end()), ids.end()) << "a product's id is its own";
  EXPECT_EQ(assembly.length_unit, "MILLI METRE");
}

TEST(StepFile, numbers_the_uses_from_one) {
  const auto assembly = judges::assembly_of(parsed(written()));
  std::vector<std::string> ids;
  for (const auto& use : assembly.uses) ids.push_back(use.id);
  EXPECT_THAT(ids, testing::UnorderedElementsAre("1", "2", "3", "4", "5", "6", "7", "8"));
}

TEST(StepFile, places_each_instance_where_the_plan_has_it) {
  const Plan plan = sample::plan();
  const auto assembly = judges::assembly_of(parsed(written()));
  const auto placements = assembly.placements();
  ASSERT_EQ(placements.size(), plan.instances.size());
  for (const Instance& instance : plan.instances) {
    const auto found =
        std::find_if(placements.begin(), placements.end(), [&](const auto& p) { return p.name == instance.name; });
    ASSERT_NE(found, placements.end()) << instance.name;
    EXPECT_EQ(assembly.products[found->product].name, full_name(plan.parts[instance.part]));
    EXPECT_EQ(found->within, "sample/" + instance.group);
    expect_same(found->pose, instance.pose, instance.name);
  }
}

TEST(StepFile, has_solids_of_the_planned_volume_with_true_statements_and_a_colour) {
  const Plan plan = sample::plan();
  const auto file = parsed(written());
  const auto assembly = judges::assembly_of(file);
  for (const Part& part : plan.parts) {
    const auto product = std::find_if(assembly.products.begin(), assembly.products.end(),
                                      [&](const auto& p) { return p.name == full_name(part); });
    ASSERT_NE(product, assembly.products.end()) << part.mark;
    EXPECT_EQ(product->id, part.mark);
    ASSERT_EQ(product->solids.size(), 1U) << part.mark;
    EXPECT_EQ(product->coloured, 1U) << part.mark;
    const auto volume = judges::volume_of_solid(file, product->solids[0]);
    ASSERT_TRUE(volume) << part.mark << ": " << volume.error().reason;
    const double planned = volume_mm3(part);
    EXPECT_NEAR(*volume, planned, tolerance::volume_relative * planned) << part.mark;
    ASSERT_TRUE(product->stated_volume_mm3 && product->stated_area_mm2 && product->stated_centroid) << part.mark;
    EXPECT_NEAR(*product->stated_volume_mm3, planned, tolerance::volume_relative * planned) << part.mark;
  }
}

TEST(StepFile, is_read_by_the_kernel_and_by_the_judge_alike) {
  const std::string text = written();
  const auto read = solid::read_step(text);
  ASSERT_TRUE(read) << read.error().reason;
  const auto file = parsed(text);
  const auto assembly = judges::assembly_of(file);
  ASSERT_EQ(read->parts.size(), sample::plan().parts.size());
  for (const auto& part : read->parts) {
    const auto product = std::find_if(assembly.products.begin(), assembly.products.end(),
                                      [&](const auto& p) { return p.name == part.name; });
    ASSERT_NE(product, assembly.products.end()) << part.name;
    ASSERT_EQ(part.bodies, product->solids.size());
    EXPECT_NEAR(part.volume_mm3, *judges::volume_of_solid(file, product->solids[0]), 1e-6 * part.volume_mm3)
        << part.name;
    EXPECT_NEAR(part.area_mm2, *product->stated_area_mm2, 1e-6 * part.area_mm2) << part.name;
    EXPECT_LT(apart(part.centroid, *product->stated_centroid), 1e-5) << part.name;
    EXPECT_NEAR(part.stated.volume_mm3.value_or(0), *product->stated_volume_mm3, 1e-9 * part.volume_mm3) << part.name;
  }
  const auto placements = assembly.placements();
  ASSERT_EQ(read->placements.size(), placements.size());
  for (const auto& placement : read->placements) {
    const auto same =
        std::find_if(placements.begin(), placements.end(), [&](const auto& p) { return p.name == placement.name; });
    ASSERT_NE(same, placements.end()) << placement.name;
    EXPECT_EQ(placement.within, same->within);
    EXPECT_EQ(read->parts[placement.part].name, assembly.products[same->product].name);
    expect_same(placement.pose, same->pose, placement.name);
  }
}

TEST(StepFile, of_one_part_holds_that_part_at_its_own_origin) {
  const Plan plan = sample::plan();
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    const std::string text = must(write_part_step(plan.parts[id], model->parts[id], sample::job()));
    const auto file = parsed(text);
    const auto assembly = judges::assembly_of(file);
    ASSERT_EQ(assembly.products.size(), 1U);
    EXPECT_EQ(assembly.products[0].name, full_name(plan.parts[id]));
    ASSERT_EQ(assembly.products[0].solids.size(), 1U);
    const auto volume = judges::volume_of_solid(file, assembly.products[0].solids[0]);
    ASSERT_TRUE(volume) << volume.error().reason;
    EXPECT_NEAR(*volume, model->parts[id].volume_mm3, 1e-6 * *volume);
    const auto read = solid::read_step(text);
    ASSERT_TRUE(read) << read.error().reason;
    ASSERT_EQ(read->parts.size(), 1U);
    EXPECT_EQ(read->parts[0].name, full_name(plan.parts[id]));
    EXPECT_NEAR(read->parts[0].stated.area_mm2.value_or(0), model->parts[id].area_mm2,
                1e-6 * model->parts[id].area_mm2);
  }
}

TEST(StepFile, of_nothing_is_refused) {
  EXPECT_FALSE(write_assembly_step(Plan(), Model(), sample::job()));
  EXPECT_FALSE(solid::read_step(""));
  EXPECT_FALSE(solid::read_step("solid not-a-step\nendsolid\n"));
}

// Curves on surfaces are redundant for planes and cylinders and double the file.
TEST(StepFile, holds_no_curves_on_surfaces) {
  const auto file = parsed(written());
  EXPECT_TRUE(file.all("PCURVE").empty());
  EXPECT_TRUE(file.all("SURFACE_CURVE").empty());
}

TEST(StepBytes, are_the_same_twice_and_after_other_files) {
  const std::string first = written();
  const Plan plan = sample::plan();
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  ASSERT_TRUE(write_part_step(plan.parts[2], model->parts[2], sample::job()));
  EXPECT_EQ(written(), first);
}

TEST(StepBytes, are_the_same_with_one_and_two_cores) { EXPECT_EQ(written(1), written(2)); }

TEST(StepBytes, of_one_model_written_again_are_the_same) {
  const Plan plan = sample::plan();
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  const std::string first = must(write_assembly_step(plan, *model, sample::job()));
  ASSERT_TRUE(solid::triangulate(model->parts[0].solid, 0.1));
  EXPECT_EQ(must(write_assembly_step(plan, *model, sample::job())), first);
}

TEST(StepBytes, are_the_same_from_two_threads_at_once) {
  const std::string alone = written();
  std::string other;
  std::thread thread([&] { other = written(); });
  const std::string here = written();
  thread.join();
  EXPECT_EQ(here, alone);
  EXPECT_EQ(other, alone);
}

struct CommaNumbers : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

TEST(StepBytes, do_not_follow_a_locale_with_decimal_commas) {
  const std::string plain = written();
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaNumbers));
  const std::string comma = written();
  std::locale::global(before);
  EXPECT_EQ(comma, plain);
}

std::string output_of(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return out;
  std::array<char, 4096> buffer{};
  while (const std::size_t count = std::fread(buffer.data(), 1, buffer.size(), pipe)) out.append(buffer.data(), count);
  EXPECT_EQ(pclose(pipe), 0) << command;
  return out;
}

// Nothing but the file on standard output, so this also proves the kernel silent.
TEST(StepBytes, are_the_same_in_other_processes_time_zones_locales_and_cores) {
  const std::string here = written();
  const std::string program = FITUP_WRITE_SAMPLE;
  EXPECT_EQ(output_of(program + " 1"), here);
  EXPECT_EQ(output_of("TZ=Pacific/Auckland LC_ALL=C.UTF-8 " + program + " 2"), here);
  EXPECT_EQ(output_of("TZ=America/Lima LC_ALL=de_DE.UTF-8 MMGT_OPT=0 " + program + " 2"), here);
}

}  // namespace
}  // namespace fitup
