// File-system operations on POSIX, with Linux' exchange of two names.
// Entry: write_new_file, exchange_names.

#include "output/disk.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <system_error>

namespace fitup::output {

namespace fs = std::filesystem;

Descriptor::~Descriptor() {
  if (number_ >= 0) ::close(number_);
}

bool Descriptor::close() {
  const int number = std::exchange(number_, -1);
  // After EINTR the descriptor is gone on Linux: not an error of the write.
  return number < 0 || ::close(number) == 0 || errno == EINTR;
}

namespace {

std::string_view advice(int error_number) {
  switch (error_number) {
    case ENOSPC:
    case EDQUOT: return "free some space, or choose another folder with -o";
    case EACCES:
    case EPERM:
    case EROFS: return "choose a folder that you may write to with -o";
    case EFBIG: return "the system limits how large a file may become here (ulimit -f)";
    case ENAMETOOLONG: return "choose a shorter name";
    case ENOTDIR: return "a part of this path is a file, not a folder; choose another folder with -o";
    default: return "";
  }
}

}  // namespace

Failure file_failure(std::string_view verb, const fs::path& path, int error_number) {
  std::string reason = std::generic_category().message(error_number);
  if (const auto help = advice(error_number); !help.empty()) reason += fmt::format(" - {}", help);
  return {Failure::Kind::file, fmt::format("{} {}", verb, path.string()), reason};
}

Status write_new_file(const fs::path& path, std::string_view bytes) {
  Descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (!file) return file_failure("create", path, errno);
  while (!bytes.empty()) {
    const ssize_t written = ::write(file.number(), bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return file_failure("write", path, written < 0 ? errno : ENOSPC);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  if (::fsync(file.number()) != 0 && errno != EINVAL) return file_failure("write", path, errno);
  if (!file.close()) return file_failure("write", path, errno);
  return Done{};
}

Status sync_folder(const fs::path& path) {
  const Descriptor folder(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!folder) return file_failure("open", path, errno);
  // Some file systems cannot sync a folder (EINVAL): nothing to be done about that.
  if (::fsync(folder.number()) != 0 && errno != EINVAL) return file_failure("write", path, errno);
  return Done{};
}

Status make_folder(const fs::path& path) {
  if (::mkdir(path.c_str(), 0777) != 0) return file_failure("create folder", path, errno);
  return Done{};
}

bool remove_all_quietly(const fs::path& path) {
  std::error_code error;
  fs::remove_all(path, error);
  return !error;
}

int exchange_names(const fs::path& a, const fs::path& b) {
  return ::renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) == 0 ? 0 : errno;
}

Status move_folder(const fs::path& from, const fs::path& to) {
  if (::rename(from.c_str(), to.c_str()) != 0) {
    const int error_number = errno;
    return file_failure(fmt::format("rename {} to", from.string()), to, error_number);
  }
  return Done{};
}

Status exchange_by_renames(const fs::path& fresh, const fs::path& target, const fs::path& aside) {
  if (auto moved = move_folder(target, aside); !moved) return moved;
  auto moved = move_folder(fresh, target);
  if (moved) {
    remove_all_quietly(aside);
  } else if (auto back = move_folder(aside, target); !back) {
    Failure both = moved.error();
    both.reason += fmt::format("; the old folder now stands at {}", aside.string());
    return both;
  }
  return moved;
}

std::optional<std::string> read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  std::ostringstream text;
  text << in.rdbuf();
  return in.bad() ? std::nullopt : std::optional(text.str());
}

}  // namespace fitup::output
