#pragma once
// One run at a time for a job folder: a lock on a hidden file beside it, gone when the run is over.

#include <filesystem>

#include "fitup/result.h"
#include "output/disk.h"

namespace fitup::output {

class FolderLock {
 public:
  /// Failure where another run holds it. The lock belongs to the open file: a run that dies lets it go.
  static Result<FolderLock> take(const std::filesystem::path& target);
  FolderLock(FolderLock&&) = default;
  FolderLock& operator=(FolderLock&&) = delete;
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;
  ~FolderLock();

 private:
  FolderLock(std::filesystem::path path, Descriptor file) : path_(std::move(path)), file_(std::move(file)) {}
  std::filesystem::path path_;
  Descriptor file_;
};

}  // namespace fitup::output
