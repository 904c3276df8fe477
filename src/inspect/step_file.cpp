// Reads a STEP file without the kernel: what is in it, and which edges its faces share.
// Entry: read_step_file.
#include "inspect/step_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "output/part21.h"

namespace fitup::inspect {

namespace {

using output::StepData;
using output::StepInstance;

constexpr std::size_t most_looks = 20'000'000;
constexpr std::size_t most_solids = 10'000;

/// Comments may stand anywhere but in strings.
std::string without_comments(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size());
  bool in_string = false;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (bytes[i] == '\'') in_string = !in_string;
    if (!in_string && bytes.substr(i, 2) == "/*") {
      const std::size_t end = bytes.find("*/", i + 2);
      if (end == std::string_view::npos) break;
      i = end + 1;
      text.push_back(' ');
    } else {
      text.push_back(bytes[i]);
    }
  }
  return text;
}

bool is_true(const StepInstance& e) { return e.parameters.find(".T.") != std::string_view::npos; }

/// The last logical value of a record: ".T." or ".F.".
bool last_is_true(const StepInstance& e) {
  const std::size_t t = e.parameters.rfind(".T.");
  const std::size_t f = e.parameters.rfind(".F.");
  return t != std::string_view::npos && (f == std::string_view::npos || t > f);
}

/// The references in the brackets after a word, wherever lines are broken.
std::vector<int> references_after(std::string_view text, std::string_view word) {
  const std::size_t at = text.find(word);
  if (at == std::string_view::npos) return {};
  const std::string_view rest = text.substr(at + word.size());
  return StepInstance{word, rest.substr(0, rest.find(')'))}.references();
}

/// An edge by its number and `with_its_own`; one of a polygon, which has no number, by those of its two corners.
using EdgeKey = std::pair<int, int>;
constexpr int with_its_own = std::numeric_limits<int>::min();

struct Uses {
  std::size_t forward = 0;
  std::size_t backward = 0;
};

class Scan {
 public:
  explicit Scan(std::string_view text) : text_(text), data_(output::read_part21(text)) {}

  StepFile file() {
    file_.flaw = data_.flaw;
    file_.schema = schema();
    for (const int id : data_.order) {
      const StepInstance& e = *data_.find(id);
      for (const int reference : e.references()) file_.lost_references += data_.find(reference) == nullptr ? 1 : 0;
      take(e);
    }
    name_units();
    return std::move(file_);
  }

 private:
  [[nodiscard]] std::string schema() const {
    const std::string_view head = text_.substr(0, std::min(text_.find("DATA;"), text_.size()));
    const std::size_t at = head.find("FILE_SCHEMA");
    if (at == std::string_view::npos) return {};
    const std::size_t from = head.find('\'', at);
    const std::size_t to = from == std::string_view::npos ? from : head.find('\'', from + 1);
    return to == std::string_view::npos ? std::string() : std::string(head.substr(from + 1, to - from - 1));
  }

  void take(const StepInstance& e) {
    if (e.type == "PRODUCT") {
      const auto strings = e.strings();
      file_.products.push_back(strings.size() > 1 && !strings[1].empty() ? strings[1]
                               : strings.empty()                         ? std::string()
                                                                         : strings[0]);
    } else if (e.type == "MANIFOLD_SOLID_BREP" || e.type == "BREP_WITH_VOIDS" || e.type == "FACETED_BREP") {
      if (e.type == "FACETED_BREP") ++file_.meshes;
      take_solid(e);
    } else if (e.type == "SHELL_BASED_SURFACE_MODEL" || e.type == "FACE_BASED_SURFACE_MODEL") {
      ++file_.surface_models;
    } else if (e.type == "GEOMETRIC_CURVE_SET" || e.type == "EDGE_BASED_WIREFRAME_MODEL" ||
               e.type == "SHELL_BASED_WIREFRAME_MODEL") {
      ++file_.wire_models;
    } else if (e.type == "TESSELLATED_SOLID" || e.type == "TESSELLATED_SHELL" || e.type == "TRIANGULATED_FACE") {
      ++file_.meshes;
    } else if (e.type == "NEXT_ASSEMBLY_USAGE_OCCURRENCE") {
      ++file_.uses;
    } else if (e.type.empty()) {
      take_context(e);
    }
  }

  // Units count where a context of a representation assigns them.
  void take_context(const StepInstance& e) {
    for (const int id : references_after(e.parameters, "GLOBAL_UNIT_ASSIGNED_CONTEXT")) {
      const StepInstance* unit = data_.find(id);
      if (unit == nullptr || unit->parameters.find("LENGTH_UNIT") == std::string_view::npos) continue;
      const std::string_view p = unit->parameters;
      if (p.find("CONVERSION_BASED_UNIT") != std::string_view::npos) {
        const auto strings = unit->strings();
        take_named(strings.empty() ? std::string() : strings.front());
      } else {
        const bool milli = p.find(".MILLI.") != std::string_view::npos;
        const bool centi = p.find(".CENTI.") != std::string_view::npos;
        const bool micro = p.find(".MICRO.") != std::string_view::npos;
        add_unit(milli   ? "millimetres"
                 : centi ? "centimetres"
                 : micro ? "micrometres"
                         : "metres",
                 milli   ? 1
                 : centi ? 10
                 : micro ? 0.001
                         : 1000);
      }
    }
  }

  void take_named(std::string name) {
    for (char& c : name) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    if (name.find("INCH") != std::string::npos) return add_unit("inches", 25.4);
    if (name.find("FOOT") != std::string::npos || name.find("FEET") != std::string::npos)
      return add_unit("feet", 304.8);
    if (name.find("MILLI") != std::string::npos) return add_unit("millimetres", 1);
    add_unit(name.empty() ? "a unit without a name" : name, 0);
  }

  void add_unit(std::string words, double mm) { units_.emplace(std::move(words), mm); }

  void name_units() {
    for (const auto& [words, mm] : units_) file_.units.push_back(words);
    if (units_.size() == 1) file_.mm_per_unit = units_.begin()->second;
  }

  void take_solid(const StepInstance& e) {
    if (file_.solids.size() >= most_solids || looks_ > most_looks) {
      if (file_.limits.empty()) file_.limits.emplace_back("the solids after the first ten thousand");
      return;
    }
    StepSolid solid;
    const auto strings = e.strings();
    if (!strings.empty()) solid.name = strings.front();
    edges_.clear();
    for (const int shell : e.references()) take_shell(shell, solid);
    for (const auto& [id, uses] : edges_) {
      const std::size_t all = uses.forward + uses.backward;
      solid.open_edges += all == 1 ? 1 : 0;
      solid.crowded_edges += all > 2 ? 1 : 0;
      solid.turned_edges += all == 2 && uses.forward != 1 ? 1 : 0;
      take_corners(id, solid);
    }
    file_.solids.push_back(std::move(solid));
  }

  void take_shell(int id, StepSolid& solid) {
    const StepInstance* shell = look(id);
    if (shell == nullptr) return;
    if (shell->type == "ORIENTED_CLOSED_SHELL") {
      for (const int inner : shell->references()) {
        const StepInstance* e = look(inner);
        if (e != nullptr && e->type == "CLOSED_SHELL") take_faces(*e, solid);
      }
    } else if (shell->type == "CLOSED_SHELL" || shell->type == "OPEN_SHELL") {
      take_faces(*shell, solid);
    }
  }

  void take_faces(const StepInstance& shell, StepSolid& solid) {
    for (const int id : shell.references()) {
      const StepInstance* face = look(id);
      if (face == nullptr) continue;
      ++solid.faces;
      for (const int bound : face->references()) take_bound(bound, solid);
    }
  }

  void take_bound(int id, StepSolid& solid) {
    const StepInstance* bound = look(id);
    if (bound == nullptr || (bound->type != "FACE_OUTER_BOUND" && bound->type != "FACE_BOUND")) return;
    const bool kept = last_is_true(*bound);
    for (const int loop_id : bound->references()) {
      const StepInstance* loop = look(loop_id);
      if (loop == nullptr) continue;
      if (loop->type == "POLY_LOOP") take_poly_loop(*loop, kept, solid);
      if (loop->type != "EDGE_LOOP") continue;
      for (const int oriented_id : loop->references()) {
        const StepInstance* oriented = look(oriented_id);
        if (oriented == nullptr || oriented->type != "ORIENTED_EDGE" || oriented->references().empty()) continue;
        Uses& uses = edges_[{oriented->references().back(), with_its_own}];
        ++(is_true(*oriented) == kept ? uses.forward : uses.backward);
      }
    }
  }

  /// Its edges have no instances of their own: each is known by its two corners.
  void take_poly_loop(const StepInstance& loop, bool kept, StepSolid& solid) {
    const auto corners = loop.references();
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const int from = corners[i];
      const int to = corners[(i + 1) % corners.size()];
      Uses& uses = edges_[{std::min(from, to), std::max(from, to)}];
      ++((from < to) == kept ? uses.forward : uses.backward);
      take_point(from, solid);
    }
  }

  void take_corners(const EdgeKey& edge, StepSolid& solid) {
    if (edge.second != with_its_own) return;
    const StepInstance* e = look(edge.first);
    if (e == nullptr) return;
    for (const int id : e->references()) {
      const StepInstance* vertex = look(id);
      if (vertex == nullptr || vertex->type != "VERTEX_POINT") continue;
      for (const int point : vertex->references()) take_point(point, solid);
    }
  }

  void take_point(int id, StepSolid& solid) {
    const StepInstance* point = look(id);
    if (point == nullptr || point->type != "CARTESIAN_POINT") return;
    const auto n = point->numbers();
    if (n.size() == 3) solid.corners.add(Vec3{n[0], n[1], n[2]});
  }

  const StepInstance* look(int id) {
    ++looks_;
    return looks_ > most_looks ? nullptr : data_.find(id);
  }

  std::string_view text_;
  StepData data_;
  StepFile file_;
  std::set<std::pair<std::string, double>> units_;
  std::map<EdgeKey, Uses> edges_;
  std::size_t looks_ = 0;
};

}  // namespace

StepFile read_step_file(std::string_view bytes) {
  const std::size_t first = std::min(bytes.find_first_not_of(" \t\r\n"), bytes.size());
  const std::string text = without_comments(bytes.substr(first));
  return Scan(text).file();
}

}  // namespace fitup::inspect
