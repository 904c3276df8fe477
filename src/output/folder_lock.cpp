// One run at a time for a job folder.
// Entry: FolderLock::take.

#include "output/folder_lock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

namespace fitup::output {
namespace {

/// Whether the open file is still the one that stands under its name: the run that held the lock before
/// may have removed it between our open and our lock.
bool still_there(const Descriptor& file, const std::filesystem::path& path) {
  struct stat open_one {};
  struct stat named_one {};
  return ::fstat(file.number(), &open_one) == 0 && ::stat(path.c_str(), &named_one) == 0 &&
         open_one.st_dev == named_one.st_dev && open_one.st_ino == named_one.st_ino;
}

}  // namespace

Result<FolderLock> FolderLock::take(const std::filesystem::path& target) {
  const std::filesystem::path path = target.parent_path() / fmt::format(".{}.lock", target.filename().string());
  while (true) {
    Descriptor file(::open(path.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0666));
    if (!file) return file_failure("create", path, errno);
    if (::flock(file.number(), LOCK_EX | LOCK_NB) != 0) {
      if (errno == EINTR) continue;
      if (errno != EWOULDBLOCK) return file_failure("lock", path, errno);
      return Failure{
          Failure::Kind::file, fmt::format("write {}", target.string()),
          "another run is writing this folder - wait until it has finished, or choose another folder with -o"};
    }
    if (still_there(file, path)) return FolderLock(path, std::move(file));
  }
}

FolderLock::~FolderLock() {
  if (file_) ::unlink(path_.c_str());  // while it is still held: nobody else's file can be removed
}

}  // namespace fitup::output
