#pragma once
// The few file-system operations that writing a job folder needs, each saying what went wrong where.

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "fitup/result.h"

namespace fitup::output {

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number = -1) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor();
  [[nodiscard]] int number() const { return number_; }
  explicit operator bool() const { return number_ >= 0; }
  /// Closes now; false where the system reports a late write error (errno says which).
  [[nodiscard]] bool close();

 private:
  int number_;
};

/// "write /box/flat/a.dxf" failed with this errno.
[[nodiscard]] Failure file_failure(std::string_view verb, const std::filesystem::path& path, int error_number);

/// A new file with these bytes, handed to the disk (fsync).
[[nodiscard]] Status write_new_file(const std::filesystem::path& path, std::string_view bytes);

/// Hands a folder's entries to the disk.
[[nodiscard]] Status sync_folder(const std::filesystem::path& path);

[[nodiscard]] Status make_folder(const std::filesystem::path& path);

/// With everything in it; nothing happens where there is none. False if something stays.
bool remove_all_quietly(const std::filesystem::path& path);

/// Exchanges two names in one step. errno of the failure, or 0; ENOSYS or EINVAL where it cannot be done.
[[nodiscard]] int exchange_names(const std::filesystem::path& a, const std::filesystem::path& b);

/// Renames where the new name is free.
[[nodiscard]] Status move_folder(const std::filesystem::path& from, const std::filesystem::path& to);

/// Where two names cannot be exchanged in one step: `target` steps to `aside`, `fresh` takes its place, and what is
/// aside goes; it comes back if `fresh` cannot take the place.
[[nodiscard]] Status exchange_by_renames(const std::filesystem::path& fresh, const std::filesystem::path& target,
                                         const std::filesystem::path& aside);

/// Whole file, or nothing.
[[nodiscard]] std::optional<std::string> read_file(const std::filesystem::path& path);

}  // namespace fitup::output
