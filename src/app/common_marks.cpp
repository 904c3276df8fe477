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

std::string CommonMarks::free_mark(const std::string& wanted, const std::set<std::string>& taken) const {
  std::string base = wanted;
  while (base.size() > 1 && base.back() >= 'A' && base.back() <= 'Z') base.pop_back();
  for (int number = 2;; ++number) {
    const bool letter = number <= 26;
    const std::string mark = base + (letter ? std::string(1, static_cast<char>('A' + number - 1)) : "") +
                             (letter ? "" : "-" + std::to_string(number));
    if (!shape_of_.contains(mark) && !taken.contains(mark)) return mark;
  }
}

/// A mark that earlier jobs have for that shape and that is not taken; else its own, if earlier jobs have it for
/// nothing else; else one that is free.
std::string CommonMarks::mark_for(const std::string& own, const std::string& shape,
                                  const std::set<std::string>& of_the_job, const std::set<std::string>& taken) const {
  for (const auto& [mark, known] : shape_of_) {
    if (known == shape && !taken.contains(mark)) return mark;
  }
  if (!shape_of_.contains(own)) return own;
  std::set<std::string> not_free = taken;
  not_free.insert(of_the_job.begin(), of_the_job.end());
  return free_mark(own, not_free);
}

std::vector<std::string> CommonMarks::marks_for(const Plan& plan) const {
  std::vector<std::string> marks(plan.parts.size());
  std::set<std::string> own;
  std::set<std::string> taken;
  std::vector<std::size_t> others;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    const Part& part = plan.parts[i];
    own.insert(part.mark);
    const auto known = shape_of_.find(part.mark);
    const bool keeps = !is_marked_by_shape(part) || (known != shape_of_.end() && known->second == shape_key(part));
    if (keeps) {
      marks[i] = part.mark;
      taken.insert(part.mark);
    } else {
      others.push_back(i);
    }
  }
  for (const std::size_t i : others) {
    const Part& part = plan.parts[i];
    marks[i] = mark_for(part.mark, shape_key(part), own, taken);
    taken.insert(marks[i]);
  }
  return marks;
}

void CommonMarks::apply(PipelineResult& result) {
  if (!result.plan) return;
  const std::vector<std::string> marks = marks_for(*result.plan);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const Part& part = result.plan->parts[i];
    if (is_marked_by_shape(part)) shape_of_.emplace(marks[i], shape_key(part));
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
