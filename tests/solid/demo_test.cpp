// The example's model and its STEP file, by the plan's own numbers, the kernel's reader and the tests' judge.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>

#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/spec.h"
#include "fitup/tolerances.h"
#include "judges/part21.h"
#include "judges/part21_assembly.h"
#include "judges/part21_volume.h"
#include "solid/read_step.h"

namespace fitup {
namespace {

/// The example made once for all tests of this file.
struct Made {
  SpecResult spec;
  std::optional<Layout> layout;
  PlanResult plan;
  std::optional<Model> model;
  std::string step;
};

const Made& made() {
  static const Made* const once = [] {
    auto* all = new Made;
    std::ifstream in(FITUP_EXAMPLES "/park-locomotive/front-box.toml");
    std::stringstream text;
    text << in.rdbuf();
    all->spec = read_spec("front-box.toml", text.str());
    if (all->spec.spec) all->layout = lay_out(*all->spec.spec);
    if (all->layout) all->plan = make_plan(*all->layout);
    if (!all->plan.plan) return all;
    auto model = build_model(*all->plan.plan, 2);
    if (!model) {
      ADD_FAILURE() << model.error().operation << ": " << model.error().reason;
      return all;
    }
    all->model = std::move(model).value();
    auto step = write_assembly_step(*all->plan.plan, *all->model, {"front-box", "", "1980-01-01T00:00:00"});
    if (step) all->step = std::move(step).value();
    return all;
  }();
  return *once;
}

/// Printed aids are made and not placed: they are no part of the assembly.
std::size_t uses_of(const Plan& plan, PartId id) {
  return static_cast<std::size_t>(std::count_if(plan.instances.begin(), plan.instances.end(),
                                                [id](const Instance& one) { return one.part == id; }));
}

std::vector<PartId> placed_parts(const Plan& plan) {
  std::vector<PartId> placed;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (uses_of(plan, id) > 0) placed.push_back(id);
  }
  return placed;
}

std::string full_name(const Part& part) { return part.mark + " " + part.name; }

TEST(Demo, builds_every_part_with_the_volume_of_its_data) {
  ASSERT_TRUE(made().plan.plan && made().model);
  const Plan& plan = *made().plan.plan;
  ASSERT_EQ(made().model->parts.size(), plan.parts.size());
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    const double expected = volume_mm3(plan.parts[id]);
    EXPECT_NEAR(made().model->parts[id].volume_mm3, expected, tolerance::volume_relative * expected)
        << full_name(plan.parts[id]);
  }
}

TEST(Demo, builds_the_same_with_one_core) {
  ASSERT_TRUE(made().model);
  const auto model = build_model(*made().plan.plan, 1);
  ASSERT_TRUE(model);
  const auto step = write_assembly_step(*made().plan.plan, *model, {"front-box", "", "1980-01-01T00:00:00"});
  ASSERT_TRUE(step);
  EXPECT_TRUE(*step == made().step) << "the files differ";
}

TEST(Demo, is_in_its_step_file_by_the_judge) {
  ASSERT_FALSE(made().step.empty());
  const Plan& plan = *made().plan.plan;
  const auto file = judges::read_part21(made().step);
  ASSERT_TRUE(file) << file.error().reason;
  EXPECT_TRUE(file->dangling().empty());
  const auto assembly = judges::assembly_of(*file);
  std::map<std::string, const judges::Part21Product*> products;
  for (const auto& product : assembly.products) products[product.name] = &product;
  for (const PartId id : placed_parts(plan)) {
    const Part& part = plan.parts[id];
    ASSERT_TRUE(products.contains(full_name(part))) << full_name(part);
    const auto& product = *products[full_name(part)];
    ASSERT_EQ(product.solids.size(), 1U) << product.name;
    const auto volume = judges::volume_of_solid(*file, product.solids[0]);
    ASSERT_TRUE(volume) << product.name << ": " << volume.error().reason;
    EXPECT_NEAR(*volume, volume_mm3(part), tolerance::volume_relative * *volume) << product.name;
  }
}

TEST(Demo, stands_in_its_step_file_where_the_plan_has_it) {
  ASSERT_FALSE(made().step.empty());
  const Plan& plan = *made().plan.plan;
  const auto file = judges::read_part21(made().step);
  ASSERT_TRUE(file);
  const auto assembly = judges::assembly_of(*file);
  std::map<std::string, judges::Part21Placement> placed;
  for (const auto& one : assembly.placements()) placed[one.name] = one;
  ASSERT_EQ(placed.size(), plan.instances.size());
  for (const Instance& instance : plan.instances) {
    ASSERT_TRUE(placed.contains(instance.name)) << instance.name;
    const auto& one = placed[instance.name];
    EXPECT_EQ(assembly.products[one.product].name, full_name(plan.parts[instance.part]));
    for (const Vec3 corner : {Vec3{0, 0, 0}, Vec3{1000, 0, 0}, Vec3{0, 1000, 0}, Vec3{0, 0, 1000}}) {
      EXPECT_LT(norm(one.pose.point(corner) - instance.pose.point(corner)), 1e-6) << instance.name;
    }
  }
}

TEST(Demo, is_read_by_the_kernel_with_the_same_parts_and_counts) {
  ASSERT_FALSE(made().step.empty());
  const Plan& plan = *made().plan.plan;
  const auto read = solid::read_step(made().step);
  ASSERT_TRUE(read) << read.error().reason;
  ASSERT_EQ(read->parts.size(), placed_parts(plan).size());
  EXPECT_EQ(read->placements.size(), plan.instances.size());
  for (const PartId id : placed_parts(plan)) {
    const auto part = std::find_if(read->parts.begin(), read->parts.end(),
                                   [&](const auto& p) { return p.name == full_name(plan.parts[id]); });
    ASSERT_NE(part, read->parts.end()) << full_name(plan.parts[id]);
    EXPECT_EQ(part->placements, uses_of(plan, id)) << part->name;
    EXPECT_EQ(part->bodies, 1U) << part->name;
    EXPECT_NEAR(part->volume_mm3, volume_mm3(plan.parts[id]), 1e-6 * part->volume_mm3) << part->name;
    EXPECT_NEAR(part->stated.volume_mm3.value_or(0), part->volume_mm3, 1e-6 * part->volume_mm3) << part->name;
  }
}

TEST(Demo, has_closed_meshes_for_what_is_printed) {
  ASSERT_TRUE(made().model);
  const Plan& plan = *made().plan.plan;
  int printed = 0;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (plan.parts[id].source != Source::printed) continue;
    ++printed;
    const auto mesh = solid::triangulate(made().model->parts[id].solid, 0.05);
    ASSERT_TRUE(mesh) << full_name(plan.parts[id]) << ": " << mesh.error().reason;
  }
  EXPECT_GT(printed, 0);
}

}  // namespace
}  // namespace fitup
