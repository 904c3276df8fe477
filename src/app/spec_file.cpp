// Reads a spec's text from disk.
// Entry: read_spec_file.
#include "app/spec_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

namespace fitup::app {

namespace {

// Far above any spec; a device or a wrong file must not fill the memory.
constexpr std::size_t largest_spec_bytes = 4u << 20;

struct Closer {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

Failure trouble(const std::string& path, std::string reason) {
  return {Failure::Kind::file, fmt::format("cannot read {}", path), std::move(reason)};
}

}  // namespace

Result<std::string> read_spec_file(const std::string& path) {
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored)) return trouble(path, "it is a folder; name the spec file itself");
  const std::unique_ptr<std::FILE, Closer> file(std::fopen(path.c_str(), "rb"));
  if (!file) return trouble(path, std::strerror(errno));
  std::string text(largest_spec_bytes + 1, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), file.get()));
  if (std::ferror(file.get()) != 0) return trouble(path, std::strerror(errno));
  if (text.size() > largest_spec_bytes) {
    return trouble(path,
                   fmt::format("it is larger than {} MiB; a spec is a short text file", largest_spec_bytes >> 20));
  }
  return text;
}

}  // namespace fitup::app
