// Sections, rails and sheets of the shelf, each with each.
// Entry: ways_of_building.
#include "remedies/shelf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fitup/tables.h"
#include "remedies/sheets.h"

namespace fitup::remedies {

namespace {

/// Most values of each kind that are tried to either side of what stands there.
struct Most {
  std::size_t sections, rails, sheets;
};
constexpr Most most_lighter{8, 4, 3};
constexpr Most most_either_way{4, 3, 1};  // where what is heavier is tried too

using Choice = std::vector<Override>;

/// Thinner than this closes no box.
constexpr double thinnest_mm = 0.99;

class Shelf {
 public:
  Shelf(const Spec& spec, const BoxSpec& box, ShelfOptions options)
      : spec_(spec),
        box_(box),
        key_("box." + box.name),
        options_(options),
        most_(options.heavier_too ? most_either_way : most_lighter) {}

  [[nodiscard]] std::vector<Choice> ways() const {
    std::vector<Choice> all{{}};
    for (const std::vector<Choice>& choices : {sections(), rails(), sheets()}) {
      std::vector<Choice> more;
      for (const Choice& before : all) {
        for (const Choice& choice : choices) {
          Choice both = before;
          both.insert(both.end(), choice.begin(), choice.end());
          more.push_back(std::move(both));
        }
      }
      all = std::move(more);
    }
    std::erase_if(all, [](const Choice& c) { return c.empty(); });
    if (all.size() > most_ways) all.resize(most_ways);
    return all;
  }

  [[nodiscard]] std::vector<Choice> covers() const {
    std::vector<Choice> choices;
    add_sheets(choices, [this](const FaceSpec& face) { return *face.closed_by == Closure::cover; });
    return choices;
  }

  [[nodiscard]] std::vector<Choice> rod_plates() const {
    std::vector<Choice> choices;
    const auto& thrown = spec_.load_rules.thrown_g;
    const bool pulled = thrown[static_cast<std::size_t>(Face::front)] || thrown[static_cast<std::size_t>(Face::back)];
    if (!pulled || !box_.rod_plates) return choices;
    for (const double t : thicknesses(box_.rod_plates->thickness->mm(), most_.rails)) {
      choices.push_back({{key_ + ".rod_plates.thickness", text(t)}});
    }
    return choices;
  }

 private:
  [[nodiscard]] std::string text(double mm) const { return thickness_words(spec_, *box_.frame.material, mm); }

  /// From what is next to it: `count` values lighter, and where it may be heavier as many above.
  template <class T, class Mass>
  [[nodiscard]] std::vector<T> near(std::vector<T> all, double now, std::size_t count, const Mass& mass) const {
    std::sort(all.begin(), all.end(), [&](const T& a, const T& b) { return mass(a) < mass(b); });
    std::vector<T> lighter, heavier;
    for (const T& one : all) {
      (mass(one) < now - 1e-6 ? lighter : heavier).push_back(one);
    }
    std::erase_if(heavier, [&](const T& one) { return mass(one) < now + 1e-6; });
    if (lighter.size() > count) lighter.erase(lighter.begin(), lighter.end() - static_cast<std::ptrdiff_t>(count));
    if (heavier.size() > count) heavier.resize(count);
    if (options_.heavier_too) lighter.insert(lighter.end(), heavier.begin(), heavier.end());
    return lighter;
  }

  [[nodiscard]] std::vector<double> thicknesses(double now, std::size_t count) const {
    std::vector<double> all = spec_.bench.stock.shelf_thicknesses_mm;
    if (all.empty()) {
      all = sheets_of(spec_, *box_.frame.material);
      std::erase_if(all, [](double t) { return t < thinnest_mm; });
    }
    return near(std::move(all), now, count, [](double t) { return t; });
  }

  [[nodiscard]] bool is_on_shelf(const Section& s) const {
    const auto& own = spec_.bench.stock.shelf_sections;
    if (own.empty()) return s.designation.ends_with("in") == (spec_.units == UnitSystem::in_lb);
    return std::find(own.begin(), own.end(), s.designation) != own.end();
  }

  [[nodiscard]] std::vector<Choice> sections() const {
    std::vector<Choice> choices{{}};
    const Section* now = spec_.section(*box_.frame.section);
    if (now == nullptr || *box_.build == BuildKind::plate) return choices;
    std::vector<const Section*> like;
    for (const Section& s : tables::sections()) {
      const bool equal = s.leg_a_mm == s.leg_b_mm;
      if (s.shape == now->shape && equal == (now->leg_a_mm == now->leg_b_mm) && is_on_shelf(s)) like.push_back(&s);
    }
    const auto mass = [](const Section* s) { return profile_of(*s).area_mm2(); };
    for (const Section* s : near(like, mass(now), most_.sections, mass)) choices.push_back(section_choice(*s));
    return choices;
  }

  /// Uprights of flat bar go with the angle; others stay.
  [[nodiscard]] Choice section_choice(const Section& s) const {
    Choice choice{{key_ + ".frame.section", fmt::format("\"{}\"", s.designation)}};
    const Section* uprights = box_.frame.uprights.given ? spec_.section(*box_.frame.uprights) : nullptr;
    if (s.shape == SectionShape::angle && uprights != nullptr && uprights->shape == SectionShape::flat) {
      choice.push_back({key_ + ".frame.uprights", fmt::format("\"{}\"", tables::flat_like_leg(s).designation)});
    }
    return choice;
  }

  [[nodiscard]] std::vector<Choice> rails() const {
    std::vector<Choice> choices{{}};
    for (const double t : thicknesses(box_.rails.thickness->mm(), most_.rails)) {
      choices.push_back({{key_ + ".rails.thickness", text(t)}});
    }
    return choices;
  }

  /// Of all welded plates at once, and where all may become heavier of the covers with them.
  [[nodiscard]] std::vector<Choice> sheets() const {
    std::vector<Choice> choices{{}};
    add_sheets(choices, [this](const FaceSpec& face) {
      return (*face.closed_by == Closure::plate && options_.plates_too) ||
             (*face.closed_by == Closure::cover && options_.heavier_too);
    });
    if (*box_.build == BuildKind::plate) shell(choices);
    return choices;
  }

  /// None becomes thicker than it is, unless it may.
  template <class Varies>
  void add_sheets(std::vector<Choice>& choices, const Varies& varies) const {
    double thickest = 0;
    for (const Face f : all_faces) {
      if (varies(box_.face(f))) thickest = std::max(thickest, box_.face(f).thickness->mm());
    }
    for (const double t : thicknesses(thickest, most_.sheets)) {
      Choice choice;
      for (const Face f : all_faces) {
        const FaceSpec& face = box_.face(f);
        if (!varies(face) || (!options_.heavier_too && face.thickness->mm() <= t)) continue;
        choice.push_back({fmt::format("{}.face.{}.thickness", key_, to_text(f)), text(t)});
      }
      if (!choice.empty()) choices.push_back(std::move(choice));
    }
  }

  /// Of a box of plates the shell as well; unless it is stated it is as thick as the sections that it stands for.
  void shell(std::vector<Choice>& choices) const {
    const Section* section = spec_.section(*box_.frame.section);
    const Section* uprights = spec_.section(*box_.frame.uprights);
    double now = 0;
    for (const Section* s : {section, uprights}) now = std::max(now, s == nullptr ? 0 : s->thickness_mm);
    if (box_.plates.thickness) now = (*box_.plates.thickness)->mm();
    const std::vector<Choice> before = choices;
    for (const double t : thicknesses(now, most_.sheets)) {
      for (Choice both : before) {
        both.push_back({key_ + ".plates.thickness", text(t)});
        choices.push_back(std::move(both));
      }
    }
  }

  const Spec& spec_;
  const BoxSpec& box_;
  std::string key_;
  ShelfOptions options_;
  Most most_;
};

}  // namespace

std::vector<std::vector<Override>> ways_of_building(const Spec& spec, const BoxSpec& box, ShelfOptions options) {
  return Shelf(spec, box, options).ways();
}

std::vector<std::vector<Override>> covers_of(const Spec& spec, const BoxSpec& box) {
  return Shelf(spec, box, {}).covers();
}

std::vector<std::vector<Override>> rod_plates_of(const Spec& spec, const BoxSpec& box, ShelfOptions options) {
  return Shelf(spec, box, options).rod_plates();
}

}  // namespace fitup::remedies
