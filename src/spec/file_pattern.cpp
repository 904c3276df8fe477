// Looks through the pattern of the flat files' names.
// Entry: flaw_in_file_pattern.

#include "spec/file_pattern.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "diag/words.h"

namespace fitup::spec {

namespace {

constexpr std::size_t longest_pattern = 100;
constexpr std::array<std::string_view, 7> words{"mark", "name", "quantity", "material", "thickness", "job", "revision"};

bool is_separator(char c) { return c == '_' || c == ' '; }

/// What every file system and cutter's program takes in a name.
bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || is_separator(c) || c == '-' ||
         c == '.' || c == '+' || c == '(' || c == ')';
}

class Pattern {
 public:
  explicit Pattern(std::string_view text) : text_(text) {}

  std::string flaw() {
    if (text_.size() > longest_pattern) return fmt::format("longer than {} characters", longest_pattern);
    while (at_ < text_.size()) {
      if (auto flaw = text_[at_] == '{' ? word() : plain(); !flaw.empty()) return flaw;
    }
    close_piece();
    if (!said_.contains("mark")) return "without {mark}, so that two parts may get one name";
    if (!apart_) return "in which {mark} runs into another word, so that two parts may get one name";
    const auto at_an_end = [](char c) { return c == '.' || c == ' ' || c == '-'; };
    if (at_an_end(text_.front()) || at_an_end(text_.back()))
      return "which begins or ends with a point, space or hyphen";
    return {};
  }

 private:
  std::string plain() {
    const char c = text_[at_++];
    if (!is_plain(c))
      return fmt::format("in which {} cannot stand in a file's name", diag::in_quotes(text_.substr(at_ - 1, 1)));
    if (is_separator(c)) close_piece();
    return {};
  }

  std::string word() {
    const std::size_t end = text_.find('}', at_);
    if (end == std::string_view::npos) return "in which a { has no }";
    const std::string_view found = text_.substr(at_ + 1, end - at_ - 1);
    at_ = end + 1;
    if (std::find(words.begin(), words.end(), found) == words.end()) {
      return fmt::format("in which {} is no word{}", diag::in_quotes(found),
                         diag::suggestion(found, std::vector<std::string>(words.begin(), words.end())));
    }
    if (!said_.insert(found).second) return fmt::format("in which {{{}}} stands twice", found);
    ++words_in_piece_;
    mark_in_piece_ = mark_in_piece_ || found == "mark";
    return {};
  }

  void close_piece() {
    if (mark_in_piece_ && words_in_piece_ > 1) apart_ = false;
    mark_in_piece_ = false;
    words_in_piece_ = 0;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::set<std::string_view> said_;
  int words_in_piece_ = 0;
  bool mark_in_piece_ = false;
  bool apart_ = true;
};

}  // namespace

std::string flaw_in_file_pattern(std::string_view pattern) { return Pattern(pattern).flaw(); }

}  // namespace fitup::spec
