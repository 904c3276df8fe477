#include "checks/finding_forms.h"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <regex>

#include "checks/planned.h"

namespace fitup::test {

namespace {

/// The text literals of the statement that begins at `at`, those that stand side by side as one.
std::vector<std::string> literals(const std::string& source, std::size_t at) {
  std::vector<std::string> all;
  bool beside = false;
  for (; at < source.size() && source[at] != ';'; ++at) {
    if (source[at] != '"') {
      beside = beside && std::isspace(static_cast<unsigned char>(source[at])) != 0;
      continue;
    }
    const std::size_t end = source.find('"', at + 1);
    const std::string literal = source.substr(at + 1, end - at - 1);
    if (beside) {
      all.back() += literal;
    } else {
      all.push_back(literal);
    }
    beside = true;
    at = end;
  }
  return all;
}

/// "{} and {} overlap{}": what stands between the holes, in this order.
std::vector<std::string> pieces_of(const std::string& form) {
  std::vector<std::string> pieces{""};
  for (std::size_t at = 0; at < form.size(); ++at) {
    const std::size_t end = form[at] == '{' ? form.find('}', at) : std::string::npos;
    if (end == std::string::npos) {
      pieces.back().push_back(form[at]);
    } else {
      pieces.emplace_back();
      at = end;
    }
  }
  return pieces;
}

bool says(const std::string& message, const std::vector<std::string>& pieces) {
  std::size_t at = 0;
  for (const std::string& piece : pieces) {
    const std::size_t found = message.find(piece, at);
    if (found == std::string::npos) return false;
    at = found + piece.size();
  }
  return true;
}

}  // namespace

std::set<std::string> forms_in(const std::string& stage) {
  std::set<std::string> found;
  const std::regex assignment(R"(message \+?=)");
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(FITUP_SOURCE) / "src" / stage)) {
    if (entry.path().extension() != ".cpp") continue;
    const std::string source = text_of(entry.path());
    for (auto i = std::sregex_iterator(source.begin(), source.end(), assignment); i != std::sregex_iterator(); ++i) {
      const auto all = literals(source, static_cast<std::size_t>(i->position()));
      const auto longest =
          std::max_element(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
      if (longest != all.end()) found.insert(*longest);
    }
  }
  return found;
}

std::set<std::string> provoked(const std::set<std::string>& forms, const std::vector<Finding>& said) {
  std::set<std::string> result;
  for (const std::string& form : forms) {
    const auto pieces = pieces_of(form);
    if (std::any_of(said.begin(), said.end(), [&](const Finding& f) { return says(f.message, pieces); })) {
      result.insert(form);
    }
  }
  return result;
}

}  // namespace fitup::test
