// Follows a Part 21 file from products to shapes, uses, placements and properties.
// Entry: assembly_of.
#include "judges/part21_assembly.h"

#include <algorithm>
#include <functional>
#include <set>

namespace fitup::judges {
namespace {

Vec3 unit(Vec3 v) { return (1 / norm(v)) * v; }

class Reader {
 public:
  explicit Reader(const Part21File& file) : file_(file) {}

  Part21Assembly read() {
    read_products();
    read_shapes();
    read_uses();
    read_properties();
    read_units();
    if (const Record* schema = file_.header_record("FILE_SCHEMA")) result_.schema = schema->at(0).at(0).text;
    return std::move(result_);
  }

 private:
  std::optional<std::size_t> product_of(int definition) const {
    for (std::size_t i = 0; i < result_.products.size(); ++i) {
      if (result_.products[i].definition == definition) return i;
    }
    return std::nullopt;
  }

  void read_products() {
    for (const int id : file_.all("PRODUCT_DEFINITION")) {
      const Record& formation = file_.record(file_.record(id).ref(2));
      const Record& product = file_.record(formation.ref(2));
      result_.products.push_back({id, product.text(0), product.text(1), product.text(2), {}, 0, {}, {}, {}});
    }
  }

  void read_shapes() {
    std::set<int> styled;
    for (const int shown : file_.all("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION")) {
      for (const int item : file_.record(shown).at(1).references()) styled.insert(file_.record(item).ref(2));
    }
    for (const int link : file_.all("SHAPE_DEFINITION_REPRESENTATION")) {
      const auto product = product_of(file_.record(file_.record(link).ref(0)).ref(2));
      if (!product) continue;
      const int representation = file_.record(link).ref(1);
      representation_[representation] = *product;
      for (const int item : file_.record(representation).at(1).references()) {
        if (file_.find(item, "MANIFOLD_SOLID_BREP") == nullptr) continue;
        result_.products[*product].solids.push_back(item);
        if (styled.contains(item)) ++result_.products[*product].coloured;
      }
    }
  }

  void read_uses() {
    for (const int id : file_.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE")) {
      const Record& use = file_.record(id);
      const auto within = product_of(use.ref(3));
      const auto product = product_of(use.ref(4));
      if (within && product)
        result_.uses.push_back({use.text(0), use.text(1), *within, *product, pose_of(id, *product)});
    }
  }

  /// The item that a use transforms stands in the part's own representation, the one it lands on in the whole's.
  std::optional<Pose> pose_of(int use, std::size_t product) const {
    for (const int id : file_.all("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION")) {
      if (file_.record(file_.record(id).ref(1)).ref(2) != use) continue;
      const int relation = file_.record(id).ref(0);
      const Record* ends = file_.find(relation, "REPRESENTATION_RELATIONSHIP");
      const Record* with = file_.find(relation, "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION");
      if (ends == nullptr || with == nullptr) return std::nullopt;
      const Record& items = file_.record(with->ref(0));
      const auto first = representation_.find(ends->ref(2));
      const bool forward = first != representation_.end() && first->second == product;
      const Pose own = placement_at(file_, items.ref(forward ? 2 : 3));
      const Pose whole = placement_at(file_, items.ref(forward ? 3 : 2));
      return whole * own.inverse();
    }
    return std::nullopt;
  }

  void read_properties() {
    for (const int id : file_.all("PROPERTY_DEFINITION_REPRESENTATION")) {
      const Record& property = file_.record(file_.record(id).ref(0));
      if (property.text(0) != "geometric validation property") continue;
      const auto product = product_of(file_.record(property.ref(2)).ref(2));
      if (!product) continue;
      for (const int item : file_.record(file_.record(id).ref(1)).at(1).references()) {
        read_property(item, property.text(1), result_.products[*product]);
      }
    }
  }

  void read_property(int item, const std::string& which, Part21Product& product) const {
    const double value = file_.record(item).at(1).at(0).number;
    if (which == "volume") product.stated_volume_mm3 = value;
    if (which == "surface area") product.stated_area_mm2 = value;
    if (which == "centroid") product.stated_centroid = triple_at(file_, item);
  }

  void read_units() {
    std::set<std::string> units;
    for (const int id : file_.all("GLOBAL_UNIT_ASSIGNED_CONTEXT")) {
      for (const int unit : file_.find(id, "GLOBAL_UNIT_ASSIGNED_CONTEXT")->at(0).references()) {
        if (file_.find(unit, "LENGTH_UNIT") == nullptr) continue;
        const Record* si = file_.find(unit, "SI_UNIT");
        units.insert(si == nullptr ? "not SI" : si->text(0) + " " + si->text(1));
      }
    }
    if (units.size() == 1) result_.length_unit = *units.begin();
  }

  const Part21File& file_;
  std::map<int, std::size_t> representation_;
  Part21Assembly result_;
};

}  // namespace

Vec3 triple_at(const Part21File& file, int id) {
  const Value& list = file.record(id).at(1);
  return {list.at(0).number, list.at(1).number, list.at(2).number};
}

Pose placement_at(const Part21File& file, int id) {
  const Record& record = file.record(id);
  const Vec3 z = record.at(2).kind == Value::Kind::reference ? unit(triple_at(file, record.ref(2))) : axis::z;
  const Vec3 given = record.at(3).kind == Value::Kind::reference ? triple_at(file, record.ref(3)) : axis::x;
  const Vec3 x = unit(given - dot(given, z) * z);
  return Pose::at(triple_at(file, record.ref(1)), x, cross(z, x));
}

std::vector<Part21Placement> Part21Assembly::placements() const {
  std::vector<Part21Placement> out;
  const std::function<void(std::size_t, const Pose&, const std::string&, const std::string&)> visit =
      [&](std::size_t product, const Pose& pose, const std::string& name, const std::string& within) {
        if (!products[product].solids.empty()) out.push_back({product, name, within, pose});
        const std::string inside = within.empty() ? products[product].name : within + "/" + products[product].name;
        for (const Part21Use& use : uses) {
          if (use.within == product) visit(use.product, pose * use.pose.value_or(Pose()), use.name, inside);
        }
      };
  for (std::size_t i = 0; i < products.size(); ++i) {
    const bool used = std::any_of(uses.begin(), uses.end(), [i](const Part21Use& use) { return use.product == i; });
    if (!used) visit(i, Pose(), "", "");
  }
  return out;
}

Part21Assembly assembly_of(const Part21File& file) { return Reader(file).read(); }

}  // namespace fitup::judges
