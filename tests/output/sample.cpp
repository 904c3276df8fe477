#include "output/sample.h"

#include <gtest/gtest.h>
#include <stdlib.h>
#include <sys/wait.h>

#include <cstdio>
#include <fstream>
#include <sstream>

namespace fitup::sample {
namespace {

Part part(std::string mark, std::string name, Role role, Source source, std::string material) {
  Part p;
  p.mark = std::move(mark);
  p.name = std::move(name);
  p.role = role;
  p.source = source;
  p.material = std::move(material);
  return p;
}

Part box_part(Part p, Vec3 size) {
  p.form = Solidform{{{{Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose(), size.z}}};
  return p;
}

Part angle() {
  Part p = part("ANG01", "left bottom ring member", Role::ring_member, Source::sawn, "S235JR");
  Member member;
  member.section = *tables::find_section("L 40x40x4");
  member.length_mm = 300;
  const LegCut square{{{0, 40, 0}}, {}};
  member.start = {square, square};
  member.end = {square, square};
  p.form = member;
  p.mass_kg = 0.3 * member.section.published_mass_kg_per_m;
  return p;
}

Part rail() {
  Part p = part("PLT02", "Auflage, \"hinten\" \xC3\xBC", Role::rail, Source::cut, "EN AW-5754");
  p.form = Flat{{Loop::rectangle({0, 0}, {400, 50}), {}}, 5, {}};
  p.mass_kg = 0.266;
  return p;
}

Part spacer() {
  Part p = part("SPC01", "spacer for the thermal plate", Role::spacer, Source::printed, "");
  p.form = Solidform{{{{Loop::rectangle({0, 0}, {40, 60}), {Loop::circle({20, 30}, 8)}}, Pose(), 11.8}}};
  p.loose_count = 5;
  return p;
}

Instance instance(PartId id, const Pose& pose, std::string name, std::string group) {
  Instance i;
  i.part = id;
  i.pose = pose;
  i.name = std::move(name);
  i.group = std::move(group);
  return i;
}

}  // namespace

Part plate() {
  Part p = part("PLT01", "left plate", Role::face_plate, Source::cut, "S235JR");
  Flat flat;
  flat.profile.outer = Loop::rounded_rectangle({-10, 5}, {90, 65}, 5);
  flat.profile.holes = {Loop::circle({10, 25}, 6), Loop::rectangle({40, 30}, {60, 40})};
  flat.thickness_mm = 2;
  flat.drilled = {{{0, 15}, 3.3, "tap M4"}, {{80, 55}, 3.3, "tap M4"}};
  p.form = flat;
  p.mass_kg =
      (2 * plate_area_mm2 - 2 * 2 * 3.14159265358979323846 / 4 * 3.3 * 3.3) * 7.85e-6;  // less two drilled holes
  return p;
}

Plan plan() {
  Plan plan;
  plan.name = "small-box";
  plan.title = "A small box";
  plan.revision = "B";
  plan.frame_size = {400, 300, 100};
  plan.parts = {angle(), box_part(part("ITM01", "block", Role::item, Source::stand_in, ""), {100, 80, 60}), plate(),
                rail(), spacer()};
  plan.instances.push_back(instance(0, Pose::at({0, 0, 0}, axis::y, axis::z), "left bottom", "frame"));
  plan.instances.push_back(instance(1, Pose::at({100, 100, 200}), "block 1", "items"));
  plan.instances.push_back(instance(2, Pose::at({500, 0, 0}, axis::y, axis::z), "left plate", "frame"));
  plan.instances.push_back(instance(2, Pose::at({700, 200, 0}, axis::minus_y, axis::z), "right plate", "frame"));
  for (int i = 0; i < 3; ++i) {
    plan.instances.push_back(instance(3, Pose::at({0, 400.0 + 60 * i, 0}), "rail " + std::to_string(i + 1), "frame"));
  }
  return plan;
}

JobInfo info() { return {"small-box", "A small box", "B", std::string(64, 'a'), "0.1.0", "2000-01-01T00:00:00Z"}; }

Findings passing() {
  Findings findings;
  Finding f;
  f.check = "overlap";
  f.verdict = Verdict::pass;
  f.message = "no two parts share any space";
  findings.all.push_back(f);
  return findings;
}

Findings failing() {
  Findings findings = passing();
  Finding f;
  f.check = "overlap";
  f.verdict = Verdict::fail;
  f.message = "two parts share space";
  f.value = 0.2;
  f.limit = 0.0;
  f.unit = "mm";
  f.source = "two solids cannot be in one place";
  f.parts = {"ITM01 block 1", "ANG01 left bottom"};
  f.at = Vec3{1, 2.5, -0.0};
  f.key = "box.main.row";
  f.remedy = Remedy{"box.main.row.at", "[8.2, 44, 5]", {}};
  findings.all.push_back(f);
  return findings;
}

const Model& model() {
  static const Result<Model> built = build_model(plan());
  if (!built) ADD_FAILURE() << built.error().operation << ": " << built.error().reason;
  return built.value();
}

const std::vector<JobFile>& files() {
  static const auto made = make_job_files(plan(), model(), passing(), info(), {});
  if (!made) ADD_FAILURE() << made.error().operation << ": " << made.error().reason;
  return made.value();
}

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "fitup-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) ADD_FAILURE() << "no temporary folder";
  path_ = name;
}

Folder::~Folder() {
  std::error_code error;
  std::filesystem::remove_all(path_, error);
}

void write(const std::filesystem::path& path, const std::string& bytes) {
  std::filesystem::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << bytes;
}

std::string read(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

std::map<std::string, std::string> contents(const std::filesystem::path& folder) {
  std::map<std::string, std::string> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) found[entry.path().lexically_relative(folder).generic_string()] = read(entry.path());
  }
  return found;
}

Ran run(const std::string& command) {
  Ran ran;
  std::FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    ran.output.append(buffer.data(), n);
  const int status = ::pclose(pipe);
  ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return ran;
}

}  // namespace fitup::sample
