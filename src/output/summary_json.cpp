// The lines of a job as JSON, written and read.
// Entry: add_summary, summary_in.

#include "output/summary_json.h"

#include <cmath>
#include <string>

namespace fitup::output {
namespace {

using Json = nlohmann::ordered_json;

/// Reads members of one object; `good` stays true while each is there and of its type.
class Reader {
 public:
  explicit Reader(const Json& json) : json_(json), good_(json.is_object()) {}

  void read(const char* key, std::string& value) {
    if (const Json* found = find(key, &Json::is_string)) value = found->get<std::string>();
  }
  void read(const char* key, bool& value) {
    if (const Json* found = find(key, &Json::is_boolean)) value = found->get<bool>();
  }
  void read(const char* key, std::size_t& value) {
    if (const Json* found = find(key, &Json::is_number_unsigned)) value = found->get<std::size_t>();
  }
  void read(const char* key, double& value) {
    if (const Json* found = find(key, &Json::is_number)) value = found->get<double>();
    good_ = good_ && std::isfinite(value) && value >= 0;
  }
  template <std::size_t N>
  void read(const char* key, std::array<double, N>& values) {
    const Json* found = find(key, &Json::is_array);
    good_ = good_ && found->size() == N;
    for (std::size_t i = 0; good_ && i < N; ++i) {
      good_ = (*found)[i].is_number();
      if (good_) values.at(i) = (*found)[i].get<double>();
    }
  }
  template <class Take>
  void each(const char* key, Take take) {
    const Json* found = find(key, &Json::is_array);
    for (std::size_t i = 0; good_ && i < found->size(); ++i) good_ = take((*found)[i]);
  }
  [[nodiscard]] bool good() const { return good_; }

 private:
  const Json* find(const char* key, bool (Json::*is)() const noexcept) {
    if (!good_) return nullptr;
    const auto found = json_.find(key);
    good_ = found != json_.end() && ((*found).*is)();
    return good_ ? &*found : nullptr;
  }

  const Json& json_;
  bool good_;
};

bool take_hole(const Json& json, HoleCount& hole) {
  Reader from(json);
  from.read("what", hole.what);
  from.read("purpose", hole.purpose);
  from.read("size_mm", hole.size_mm);
  from.read("count", hole.count);
  return from.good();
}

bool take_line(const Json& json, PartLine& line) {
  Reader from(json);
  for (const auto& [key, text] : {std::pair{"mark", &line.mark},
                                  {"name", &line.name},
                                  {"role", &line.role},
                                  {"source", &line.source},
                                  {"material", &line.material},
                                  {"form", &line.form},
                                  {"section", &line.section},
                                  {"size", &line.size},
                                  {"shape", &line.shape},
                                  {"mirrored", &line.mirrored},
                                  {"outline", &line.outline},
                                  {"places", &line.places}}) {
    from.read(key, *text);
  }
  line.mirrored_across = line.mirrored;  // earlier versions kept one of them
  if (json.contains("mirrored_across")) from.read("mirrored_across", line.mirrored_across);
  from.read("size_mm", line.size_mm);
  from.read("quantity", line.quantity);
  from.read("in_model", line.in_model);
  from.read("mass_kg", line.mass_kg);
  from.read("cut_mm", line.cut_mm);
  from.read("piercings", line.piercings);
  from.read("sawn_mm", line.sawn_mm);
  from.each("holes", [&line](const Json& hole) { return take_hole(hole, line.holes.emplace_back()); });
  return from.good();
}

bool take_seams(const Json& json, SeamTotals& seams) {
  Reader from(json);
  from.read("count", seams.count);
  from.read("laid_mm", seams.laid_mm);
  from.read("ground_flush_mm", seams.ground_flush_mm);
  from.read("left_free_mm", seams.left_free_mm);
  from.read("not_worked_out", seams.not_worked_out);
  return from.good();
}

}  // namespace

Json line_json(const PartLine& line) {
  Json json{{"mark", line.mark},         {"name", line.name},           {"role", line.role},
            {"source", line.source},     {"material", line.material},   {"form", line.form},
            {"section", line.section},   {"size", line.size},           {"size_mm", line.size_mm},
            {"quantity", line.quantity}, {"in_model", line.in_model},   {"mass_kg", line.mass_kg},
            {"cut_mm", line.cut_mm},     {"piercings", line.piercings}, {"sawn_mm", line.sawn_mm},
            {"holes", Json::array()},    {"shape", line.shape},         {"mirrored", line.mirrored},
            {"outline", line.outline},   {"places", line.places},       {"mirrored_across", line.mirrored_across}};
  for (const HoleCount& hole : line.holes) {
    json["holes"].push_back(
        {{"what", hole.what}, {"purpose", hole.purpose}, {"size_mm", hole.size_mm}, {"count", hole.count}});
  }
  return json;
}

void add_summary(Json& json, const JobSummary& summary) {
  json["parts"] = Json::array();
  for (const PartLine& line : summary.parts) json["parts"].push_back(line_json(line));
  const SeamTotals& seams = summary.seams;
  json["seams"] = {{"count", seams.count},
                   {"laid_mm", seams.laid_mm},
                   {"ground_flush_mm", seams.ground_flush_mm},
                   {"left_free_mm", seams.left_free_mm},
                   {"not_worked_out", seams.not_worked_out}};
}

std::optional<JobSummary> summary_in(const Json& json) {
  JobSummary summary;
  Reader from(json);
  from.each("parts", [&summary](const Json& line) { return take_line(line, summary.parts.emplace_back()); });
  if (!from.good() || !json.contains("seams") || !take_seams(json["seams"], summary.seams)) return std::nullopt;
  return summary;
}

}  // namespace fitup::output
