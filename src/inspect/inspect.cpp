// Tells the kind of a file and hands it to its judge.
// Entry: inspect_file.
#include "fitup/inspect.h"

#include <fmt/format.h>

#include <algorithm>

#include "inspect/mesh_file.h"
#include "inspect/report.h"

namespace fitup {

namespace {

using inspect::Report;

bool begins_with(std::string_view bytes, std::string_view word) {
  const std::size_t first = std::min(bytes.find_first_not_of(" \t\r\n"), bytes.size());
  return bytes.substr(first).starts_with(word);
}

/// A group code 0 and the word SECTION in the first lines, whatever comments stand before.
bool looks_like_dxf(std::string_view bytes) {
  const std::string_view head = bytes.substr(0, 4096);
  const std::size_t at = head.find("SECTION");
  if (at == std::string_view::npos) return false;
  const std::string_view before = head.substr(0, at);
  const std::size_t code = before.find_last_not_of(" \t\r\n");
  return code != std::string_view::npos && before[code] == '0';
}

Inspection not_read(std::string message) {
  Report report("");
  report.find("format", Verdict::fail, std::move(message));
  return report.take();
}

}  // namespace

namespace inspect {

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  if (count == 1) return fmt::format("1 {}", one);
  return many.empty() ? fmt::format("{} {}s", count, one) : fmt::format("{} {}", count, many);
}

std::string shown(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string out;
  for (const char c : text.substr(0, longest)) {
    const auto byte = static_cast<unsigned char>(c);
    out.push_back(byte < 32 || byte > 126 ? '?' : c);
  }
  return text.size() > longest ? out + "..." : out;
}

}  // namespace inspect

Inspection inspect_file(std::string_view bytes, const InspectOptions& options) {
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return not_read("the file is empty; export it again");
  }
  if (bytes.substr(0, 32).find(" Binary DXF\r\n") != std::string_view::npos) {
    return not_read("this is a binary DXF; save it as ASCII DXF, which every cutter's program reads");
  }
  if (bytes.starts_with("AC1")) {
    return not_read("this is a drawing in a program's own binary form; save it as ASCII DXF of release 2000 or R12");
  }
  if (begins_with(bytes, "ISO-10303-21;")) return inspect::inspect_step(bytes, options);
  if (inspect::is_binary_stl(bytes)) return inspect::inspect_stl(bytes, options);
  if (looks_like_dxf(bytes)) return inspect::inspect_dxf(bytes, options);
  if (begins_with(bytes, "solid")) return inspect::inspect_stl(bytes, options);
  if (bytes.starts_with("PK\x03\x04")) {
    return not_read("this is a ZIP archive, as 3MF is; STEP, DXF and STL are judged: unpack it, or export STL");
  }
  if (bytes.size() >= 84 && inspect::could_be_cut_binary_stl(bytes)) return inspect::inspect_stl(bytes, options);
  return not_read("this is neither STEP nor DXF nor STL; export one of these");
}

}  // namespace fitup
