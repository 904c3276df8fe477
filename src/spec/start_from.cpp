// Reads the files that a spec starts from and merges them, the farthest first.
// Entry: read_merged.

#include "spec/start_from.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/keys.h"
#include "spec/opposite_hand.h"
#include "spec/scalar.h"
#include "spec/toml_reader.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

constexpr std::string_view nothing_to_reflect = "it turns over what start_from brings in, and nothing is brought in";

std::string normal(const std::filesystem::path& path) { return path.lexically_normal().generic_string(); }

class Chain {
 public:
  Chain(SourceTexts& sources, const SpecFiles& files, std::optional<Member> hand, Diagnostics& diagnostics)
      : sources_(sources), files_(files), hand_(std::move(hand)), diagnostics_(diagnostics) {}

  MergedText run() {
    out_.root = read(0);
    return std::move(out_);
  }

 private:
  std::optional<Value> read(int source) {
    const std::string& text = text_of(source);
    bytes_ += text.size();
    if (bytes_ > largest_spec_bytes && source != 0) {
      diagnostics_.add(say<"files-too-large">(asked_, bytes_, largest_spec_bytes));
      return std::nullopt;
    }
    names_.push_back(sources_[static_cast<std::size_t>(source)].name);
    std::optional<Value> own = read_toml(text, source, diagnostics_);
    if (!own) return std::nullopt;
    const std::optional<Member> start = take(*own, "start_from");
    std::optional<Member> hand = take(*own, "opposite_hand");
    if (source == 0 && hand_) hand = hand_;
    if (!start) {
      if (hand && read_key("opposite_hand", hand->value).sound)
        diagnostics_.add(say<"no-effect">(hand->place, "opposite_hand", nothing_to_reflect));
      set_units(*own, units_of(*own, UnitSystem::mm_kg));
      return own;
    }
    const auto path = path_of(*start);
    if (!path) return std::nullopt;
    std::optional<Value> base = base_of(*path, start->value.place);
    if (!base || (hand && !turn_over(*base, *hand, source))) return std::nullopt;
    return merged(std::move(*base), std::move(*own));
  }

  /// The path that start_from names, from where the program was started.
  std::optional<std::string> path_of(const Member& start) {
    const Cell cell = read_key("start_from", start.value);
    if (!cell.sound) return std::nullopt;
    return normal(std::filesystem::path(names_.back()).parent_path() / *cell.get<std::string>());
  }

  std::optional<Value> base_of(const std::string& path, const Place& place) {
    const auto same = [&](const std::string& name) { return normal(name) == path; };
    if (const auto first = std::find_if(names_.begin(), names_.end(), same); first != names_.end()) {
      diagnostics_.add(say<"start-from-cycle">(place, chain_of(first, path)));
      return std::nullopt;
    }
    if (names_.size() == longest_chain) {
      diagnostics_.add(say<"start-from-too-long">(place, longest_chain, chain_of(names_.begin(), path)));
      return std::nullopt;
    }
    const auto text = files_ ? files_(path) : Failure{Failure::Kind::file, "", "no other file can be read here"};
    if (!text) {
      diagnostics_.add(
          say<"start-from-unreadable">(place, in_quotes(path), diag::printable(text.error().reason), story_of(path)));
      out_.file_trouble = true;
      return std::nullopt;
    }
    asked_ = place;
    sources_.push_back({path, without_mark(*text)});
    return read(static_cast<int>(sources_.size()) - 1);
  }

  /// Reflects what the file of that number starts from.
  bool turn_over(Value& base, const Member& hand, int source) {
    const Cell cell = read_key("opposite_hand", hand.value);
    if (!cell.sound) return false;
    const bool left_right = *cell.get<std::string>() == "left-right";
    reflect(base, left_right ? Mirror::left_right : Mirror::front_back);
    bool& odd = left_right ? out_.hand.left_right : out_.hand.front_back;
    odd = !odd;
    for (int below = source + 1; below < static_cast<int>(sources_.size()); ++below) {
      if (below != hand.place.source) out_.reflected[below] = hand.place;
    }
    return true;
  }

  Cell read_key(const std::string& key, const Value& value) {
    Sizes no_sizes(nullptr, UnitSystem::mm_kg, std::nullopt, diagnostics_);
    return ScalarReader({}, {}, {}, no_sizes, diagnostics_).read(*schema().children.at(key).rule, value, key);
  }

  static Value merged(Value base, Value own) {
    const UnitSystem units = units_of(base, UnitSystem::mm_kg);
    set_units(own, units_of(own, units));
    // What a job is called, and what was measured on its frame, belongs to its own file.
    for (const std::string_view key : {"name", "title", "revision", "as_built"}) (void)take(base, key);
    const Place place = own.place;
    merge(base, std::move(own));
    base.place = place;
    return base;
  }

  [[nodiscard]] const std::string& text_of(int source) const { return sources_[static_cast<std::size_t>(source)].text; }

  /// "a.toml -> b.toml -> a.toml".
  [[nodiscard]] std::string chain_of(std::vector<std::string>::const_iterator first, const std::string& last) const {
    std::string out;
    for (auto it = first; it != names_.end(); ++it) out += diag::printable(*it) + " -> ";
    return out + diag::printable(last);
  }

  /// "a.toml starts from b.toml, which starts from c.toml".
  [[nodiscard]] std::string story_of(const std::string& last) const {
    std::string out = diag::printable(names_[0]);
    for (std::size_t i = 1; i < names_.size(); ++i) {
      out += fmt::format(" starts from {}{}", diag::printable(names_[i]), ", which");
    }
    return fmt::format("{} starts from {}", out, diag::printable(last));
  }

  SourceTexts& sources_;
  const SpecFiles& files_;
  std::optional<Member> hand_;
  Diagnostics& diagnostics_;
  std::vector<std::string> names_;  // of the files on the way, the spec first
  std::size_t bytes_ = 0;
  Place asked_;  // the start_from that is being followed
  MergedText out_;
};

}  // namespace

UnitSystem units_of(const Value& root, UnitSystem otherwise) {
  const Value* units = root.find("units");
  if (units == nullptr) return otherwise;
  return units->text == "in" ? UnitSystem::in_lb : UnitSystem::mm_kg;
}

UnitSystem shop_of(const Value& root) {
  const Value* shop = root.find("shop");
  if (shop == nullptr || shop->kind != Value::Kind::text) return units_of(root, UnitSystem::mm_kg);
  return shop->text == "inch" ? UnitSystem::in_lb : UnitSystem::mm_kg;
}

MergedText read_merged(SourceTexts& sources, const SpecFiles& files, std::optional<Member> hand,
                       Diagnostics& diagnostics) {
  return Chain(sources, files, std::move(hand), diagnostics).run();
}

}  // namespace fitup::spec
