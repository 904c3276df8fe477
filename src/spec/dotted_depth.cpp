// Counts the dots of each key in raw TOML text, skipping strings and comments.
// Entry: find_deep_key.

#include "spec/dotted_depth.h"

namespace fitup::spec {

namespace {

class Scanner {
 public:
  Scanner(std::string_view text, int most) : text_(text), most_(most) {}

  std::optional<TextPosition> run() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '"' || c == '\'') {
        skip_string(c);
      } else if (c == '#') {
        while (at_ < text_.size() && text_[at_] != '\n') step();
      } else if (c == '.') {
        if (++dots_ >= most_) return position_;
        step();
      } else {
        // A bare key or blanks belong to the key that is being counted; anything else ends it.
        if (c == '=' || c == ',' || c == '{' || c == '}' || c == '[' || c == ']' || c == '\n') dots_ = 0;
        step();
      }
    }
    return std::nullopt;
  }

 private:
  void step() {
    if (text_[at_] == '\n') {
      ++position_.line;
      position_.column = 0;
    }
    ++position_.column;
    ++at_;
  }

  void step(std::size_t count) {
    for (std::size_t i = 0; i < count && at_ < text_.size(); ++i) step();
  }

  void skip_string(char quote) {
    const std::string_view triple = quote == '"' ? "\"\"\"" : "'''";
    const bool multi_line = text_.substr(at_, 3) == triple;
    step(multi_line ? 3 : 1);
    while (at_ < text_.size()) {
      if (multi_line ? text_.substr(at_, 3) == triple : (text_[at_] == quote || text_[at_] == '\n')) break;
      step(quote == '"' && text_[at_] == '\\' ? 2 : 1);
    }
    if (at_ < text_.size() && text_[at_] == quote) step(multi_line ? 3 : 1);
  }

  std::string_view text_;
  int most_;
  std::size_t at_ = 0;
  int dots_ = 0;
  TextPosition position_;
};

}  // namespace

std::optional<TextPosition> find_deep_key(std::string_view text, int most) { return Scanner(text, most).run(); }

}  // namespace fitup::spec
