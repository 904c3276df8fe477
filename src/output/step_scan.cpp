// What a STEP file says about products, tree, placements and validation values.
// Entry: scan_step.

#include "output/step_scan.h"

#include <fmt/format.h>

#include "output/part21.h"

namespace fitup::output {
namespace {

class Scan {
 public:
  explicit Scan(std::string_view text) : data_(read_part21(text)) {
    facts_.description = first_string_of("FILE_DESCRIPTION", text);
    facts_.schema = first_string_of("FILE_SCHEMA", text);
  }

  std::variant<StepFacts, std::string> facts() {
    if (!data_.flaw.empty()) return data_.flaw;
    for (const int id : data_.order) {
      for (const int reference : data_.find(id)->references()) {
        if (data_.find(reference) == nullptr)
          return fmt::format("#{} refers to #{}, which is not there", id, reference);
      }
    }
    for (const int id : data_.order) {
      if (auto flaw = take(id, *data_.find(id)); !flaw.empty()) return flaw;
    }
    for (const auto& [id, pose] : occurrence_poses_) {
      if (auto flaw = take_use(id, pose); !flaw.empty()) return flaw;
    }
    if (occurrence_poses_.size() != occurrences_) return std::string("a part of the assembly has no placement");
    return std::move(facts_);
  }

 private:
  /// The first string of a record of the header.
  static std::string first_string_of(const std::string& name, std::string_view text) {
    const std::size_t at = text.substr(0, text.find("DATA;")).find(name + "(");
    if (at == std::string_view::npos) return {};
    const std::string_view record = text.substr(at, text.find(';', text.find("')", at)) - at);
    const auto strings = StepInstance{name, record}.strings();
    return strings.empty() ? std::string() : strings.front();
  }

  std::string take(int id, const StepInstance& e) {
    if (e.type == "PRODUCT") return take_product(e);
    if (e.type == "MANIFOLD_SOLID_BREP" || e.type == "BREP_WITH_VOIDS") ++facts_.solids;
    if (e.type == "NEXT_ASSEMBLY_USAGE_OCCURRENCE") ++occurrences_;
    if (e.type == "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION") return take_placement(id, e);
    if (e.type == "PROPERTY_DEFINITION_REPRESENTATION") take_volume(e);
    if (e.type == "SHAPE_DEFINITION_REPRESENTATION") take_shape(e);
    return {};
  }

  std::string take_product(const StepInstance& e) {
    const auto strings = e.strings();
    if (strings.size() < 2 || strings[1].empty()) return "a product has no name";
    StepProductFacts& facts = facts_.products[strings[0]];
    if (!facts.name.empty()) return fmt::format("the product id {} is used twice", strings[0]);
    facts.name = strings[1];
    return {};
  }

  /// Follows shape -> definition -> formation -> product; the id, or empty where something else is meant.
  [[nodiscard]] std::string product_id(int id) const {
    for (int steps = 0; steps < 6; ++steps) {
      const StepInstance* e = data_.find(id);
      if (e == nullptr) return {};
      if (e->type == "PRODUCT") return e->strings().empty() ? "" : e->strings().front();
      const auto references = e->references();
      if (references.empty() || e->type == "NEXT_ASSEMBLY_USAGE_OCCURRENCE") return {};
      id = e->type == "PRODUCT_DEFINITION_SHAPE" ? references.back() : references.front();
    }
    return {};
  }

  /// The instance of this type among what `e` refers to directly.
  [[nodiscard]] const StepInstance* among(const StepInstance& e, std::string_view type) const {
    for (const int reference : e.references()) {
      const StepInstance* other = data_.find(reference);
      if (other != nullptr && other->type == type) return other;
    }
    return nullptr;
  }

  void take_shape(const StepInstance& e) {
    const auto ends = e.references();
    const StepInstance* shape = ends.size() == 2 ? data_.find(ends[1]) : nullptr;
    const std::string product = shape ? product_id(ends[0]) : "";
    if (product.empty()) return;
    for (const int reference : shape->references()) {
      const StepInstance* body = data_.find(reference);
      if (body == nullptr || (body->type != "MANIFOLD_SOLID_BREP" && body->type != "BREP_WITH_VOIDS")) continue;
      facts_.products[product].solids.push_back(shape_of(data_, reference));
    }
  }

  void take_volume(const StepInstance& e) {
    const auto references = e.references();
    const StepInstance* definition = references.empty() ? nullptr : data_.find(references.front());
    const StepInstance* representation = among(e, "REPRESENTATION");
    const StepInstance* item = representation ? among(*representation, "MEASURE_REPRESENTATION_ITEM") : nullptr;
    if (definition == nullptr || item == nullptr || item->parameters.find("VOLUME_MEASURE") == std::string_view::npos)
      return;
    const auto targets = definition->references();
    const auto numbers = item->numbers();
    const std::string product = targets.empty() ? "" : product_id(targets.back());
    if (!product.empty() && !numbers.empty()) facts_.products[product].volume_mm3 = numbers.front();
  }

  std::string take_placement(int id, const StepInstance& e) {
    const StepInstance* shape = among(e, "PRODUCT_DEFINITION_SHAPE");
    const auto references = e.references();
    const StepInstance* relation = references.empty() ? nullptr : data_.find(references.front());
    const auto transformation =
        relation ? relation->references_of("REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION") : std::vector<int>{};
    const StepInstance* moves = transformation.empty() ? nullptr : data_.find(transformation.front());
    const auto ends = moves ? moves->references() : std::vector<int>{};
    if (shape == nullptr || shape->references().empty() || ends.size() != 2)
      return fmt::format("the placement #{} is incomplete", id);
    const auto from = axes(ends[0]);
    const auto to = axes(ends[1]);
    if (!from || !to) return fmt::format("the axes of the placement #{} cannot be read", id);
    occurrence_poses_[shape->references().back()] = *to * from->inverse();
    return {};
  }

  [[nodiscard]] std::optional<Vec3> triple(int id) const {
    const StepInstance* e = data_.find(id);
    const auto n = e ? e->numbers() : std::vector<double>{};
    return n.size() == 3 ? std::optional(Vec3{n[0], n[1], n[2]}) : std::nullopt;
  }

  /// AXIS2_PLACEMENT3D(name, point, z, x).
  [[nodiscard]] std::optional<Pose> axes(int id) const {
    const StepInstance* e = data_.find(id);
    const auto references = e ? e->references() : std::vector<int>{};
    if (references.size() != 3) return std::nullopt;
    const auto origin = triple(references[0]);
    const auto z = triple(references[1]);
    const auto x = triple(references[2]);
    if (!origin || !z || !x) return std::nullopt;
    return Pose::at(*origin, *x, cross(*z, *x));
  }

  std::string take_use(int id, const Pose& pose) {
    const StepInstance* e = data_.find(id);
    const auto ends = e ? e->references() : std::vector<int>{};
    const auto strings = e ? e->strings() : std::vector<std::string>{};
    if (ends.size() < 2 || strings.size() < 2) return fmt::format("the occurrence #{} is incomplete", id);
    facts_.uses.push_back({product_id(ends[0]), product_id(ends[1]), strings[1], pose});
    return {};
  }

  StepData data_;
  StepFacts facts_;
  std::size_t occurrences_ = 0;
  std::map<int, Pose> occurrence_poses_;
};

}  // namespace

std::variant<StepFacts, std::string> scan_step(std::string_view text) { return Scan(text).facts(); }

}  // namespace fitup::output
