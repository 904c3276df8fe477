// Marks that mean one shape in all jobs that are made together.
// Entry: CommonMarks::apply.
#include "app/common_marks.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace fitup::app {

namespace {

/// Bought things and stand-ins are marked by what they are.
bool is_marked_by_shape(const Part& part) {
  return part.source == Source::cut || part.source == Source::sawn || part.source == Source::printed;
}

bool is_part_of_a_word(char c) { return c == '-' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z'); }

void replace_all(std::string& text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    const std::size_t end = at + from.size();
    const bool begins = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
    const bool ends = end >= text.size() || !is_part_of_a_word(text[end]);
    if (begins && ends) {
      text.replace(at, from.size(), to);
    } else {
      at = at + from.size() - to.size();
    }
  }
}

/// "PLT01 left wall" -> "PLT01B left wall": labels of instances are unique, so that one cannot become another.
using Labels = std::vector<std::pair<std::string, std::string>>;

void rename(std::string& text, const Labels& labels) {
  for (const auto& [from, to] : labels) replace_all(text, from, to);
}

void rename(Findings& findings, const Labels& labels) {
  for (Finding& f : findings.all) {
    rename(f.message, labels);
    for (std::string& part : f.parts) rename(part, labels);
  }
  for (Delicate& d : findings.delicate) {
    rename(d.message, labels);
    for (std::string& part : d.parts) rename(part, labels);
  }
}

}  // namespace

std::string CommonMarks::free_mark(const std::string& wanted, const std::set<std::string>& own) const {
  const auto taken = [&](const std::string& mark) { return shape_of_.contains(mark) || own.contains(mark); };
  std::string base = wanted;
  while (base.size() > 1 && base.back() >= 'A' && base.back() <= 'Z') base.pop_back();
  for (int number = 2;; ++number) {
    const bool letter = number <= 26;
    const std::string mark = base + (letter ? std::string(1, static_cast<char>('A' + number - 1)) : "") +
                             (letter ? "" : "-" + std::to_string(number));
    if (!taken(mark)) return mark;
  }
}

void CommonMarks::apply(PipelineResult& result) {
  if (!result.plan) return;
  std::vector<std::string> shapes;
  std::set<std::string> own;
  for (const Part& part : result.plan->parts) {
    shapes.push_back(is_marked_by_shape(part) ? shape_key(part) : std::string());
    own.insert(part.mark);
  }
  std::vector<std::string> marks;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    const std::string& mark = result.plan->parts[i].mark;
    const auto known = mark_of_.find(shapes[i]);
    const auto used = shape_of_.find(mark);
    const bool is_another = used != shape_of_.end() && used->second != shapes[i];
    marks.push_back(shapes[i].empty()         ? mark
                    : known != mark_of_.end() ? known->second
                    : is_another              ? free_mark(mark, own)
                                              : mark);
    own.insert(marks.back());
    if (shapes[i].empty()) continue;
    mark_of_.emplace(shapes[i], marks.back());
    shape_of_.emplace(marks.back(), shapes[i]);
  }
  Labels labels;
  for (const Instance& instance : result.plan->instances) {
    const std::string& now = result.plan->parts[instance.part].mark;
    if (now != marks[instance.part])
      labels.emplace_back(now + " " + instance.name, marks[instance.part] + " " + instance.name);
  }
  for (std::size_t i = 0; i < marks.size(); ++i) result.plan->parts[i].mark = marks[i];
  name_faces(*result.plan);
  if (result.findings) rename(*result.findings, labels);
}

}  // namespace fitup::app
