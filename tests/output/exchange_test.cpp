// The exchange of the job folder and everything that can go wrong with it: the old folder stays whole.
#include "output/sample.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sched.h>
#include <sys/file.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <functional>

#include "output/disk.h"

namespace fitup {
namespace {

namespace fs = std::filesystem;

/// A job.json as the program writes it, listing `paths`.
JobFile list_of(const std::vector<std::string>& paths) {
  std::string text = R"({"program": "fitup", "files": [)";
  for (const std::string& path : paths) {
    text += (&path == &paths.front() ? "" : ", ") + (R"({"path": ")" + path + R"(", "size": 1, "sha256": "x"})");
  }
  return {"job.json", text + "]}", FileGroup::checks};
}

std::vector<JobFile> job(const std::string& word) {
  return {{"flat/S235JR_2mm/a.dxf", word, FileGroup::dxf}, list_of({"flat/S235JR_2mm/a.dxf"})};
}

std::map<std::string, std::string> as_map(const std::vector<JobFile>& files) {
  std::map<std::string, std::string> map;
  for (const JobFile& file : files) map[file.path] = file.bytes;
  return map;
}

std::size_t entries(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

/// Runs in a process of its own, so that limits, mounts and signals stay there; the exit status is its answer.
int in_a_child(const std::function<int()>& work) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(work());
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
}

TEST(Exchange, WritesANewFolderAndLeavesNothingBeside) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "deep" / "box";
  ASSERT_TRUE(exchange_job_folder(target, job("one")));
  EXPECT_EQ(sample::contents(target), as_map(job("one")));
  EXPECT_EQ(entries(target.parent_path()), 1U);
}

TEST(Exchange, ReplacesItsOwnFolderWhole) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  auto first = job("one");
  first.push_back({"parts/old.step", "x", FileGroup::step});
  first[1] = list_of({"flat/S235JR_2mm/a.dxf", "parts/old.step"});
  ASSERT_TRUE(exchange_job_folder(target, first));
  ASSERT_TRUE(exchange_job_folder(target, job("two")));
  EXPECT_EQ(sample::contents(target), as_map(job("two")));
  EXPECT_FALSE(fs::exists(target / "parts"));
  EXPECT_EQ(entries(folder.path()), 1U);
}

TEST(Exchange, TakesAnEmptyFolderAndALinkToAFolder) {
  const sample::Folder folder;
  fs::create_directory(folder.path() / "empty");
  fs::create_directory_symlink(folder.path() / "empty", folder.path() / "link");
  ASSERT_TRUE(exchange_job_folder(folder.path() / "link", job("one")));
  EXPECT_TRUE(fs::is_symlink(folder.path() / "link"));
  EXPECT_EQ(sample::contents(folder.path() / "empty"), as_map(job("one")));
}

TEST(Exchange, TakesATrailingSlash) {
  const sample::Folder folder;
  ASSERT_TRUE(exchange_job_folder(folder.path() / "box/", job("one")));
  EXPECT_EQ(sample::contents(folder.path() / "box"), as_map(job("one")));
}

struct Refusal {
  std::string name;
  std::map<std::string, std::string> there;  // files in the target beforehand
  std::string reason;                        // part of what is said
};

class Refuses : public testing::TestWithParam<Refusal> {};

TEST_P(Refuses, AFolderThatItDidNotWrite) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  for (const auto& [path, bytes] : GetParam().there) sample::write(target / path, bytes);
  const Status status = exchange_job_folder(target, job("one"));
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().kind, Failure::Kind::file);
  EXPECT_NE(status.error().reason.find(GetParam().reason), std::string::npos) << status.error().reason;
  EXPECT_NE(status.error().reason.find("-o"), std::string::npos) << "what to do is missing";
  EXPECT_EQ(sample::contents(target), GetParam().there);
  EXPECT_EQ(entries(folder.path()), 1U);
}

INSTANTIATE_TEST_SUITE_P(Folders, Refuses,
                         testing::Values(Refusal{"Foreign", {{"letter.txt", "dear"}}, "no job.json of this program"},
                                         Refusal{"AnothersJobList",
                                                 {{"job.json", R"({"program": "other", "files": []})"}},
                                                 "no job.json of this program"},
                                         Refusal{"NotJson", {{"job.json", "{"}}, "no job.json of this program"},
                                         Refusal{"OwnFileAdded",
                                                 {{"job.json", list_of({}).bytes}, {"flat/my-notes.txt", "x"}},
                                                 "holds flat/my-notes.txt"}),
                         [](const auto& c) { return c.param.name; });

std::vector<JobFile> job_called(const std::string& name, const std::string& revision) {
  auto files = job("cut me");
  files[1].bytes.insert(1, R"("name": ")" + name + R"(", "revision": ")" + revision + R"(", "spec_hash": "abc", )");
  return files;
}

TEST(Exchange, RefusesToLoseAListedFileThatSomeoneChanged) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  std::vector<JobFile> files = job("cut me");
  const std::size_t at = files[1].bytes.find(R"("size": 1, "sha256": "x")");
  files[1].bytes.replace(at, 24, R"("size": 6, "sha256": ")" + sha256_hex("cut me") + "\"");
  ASSERT_TRUE(exchange_job_folder(target, files));
  ASSERT_TRUE(exchange_job_folder(target, files)) << "as it was written";
  const fs::path drawing = target / "flat" / "S235JR_2mm" / "a.dxf";
  sample::write(drawing, "cut us");
  const Status status = exchange_job_folder(target, files);
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().kind, Failure::Kind::file);
  EXPECT_NE(status.error().reason.find("flat/S235JR_2mm/a.dxf was changed"), std::string::npos)
      << status.error().reason;
  EXPECT_EQ(sample::read(drawing), "cut us");
  fs::remove(drawing);
  EXPECT_TRUE(exchange_job_folder(target, files)) << "what is deleted is not missed";
}

TEST(Exchange, RefusesTheFolderOfAnotherJobAndSaysBothNames) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  ASSERT_TRUE(exchange_job_folder(target, job_called("rear-box", "A")));
  const Status status = exchange_job_folder(target, job_called("front-box", "B"));
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().kind, Failure::Kind::file);
  for (const char* word : {"\"rear-box\"", "\"front-box\"", "-o"}) {
    EXPECT_NE(status.error().reason.find(word), std::string::npos) << status.error().reason;
  }
  EXPECT_EQ(sample::contents(target), as_map(job_called("rear-box", "A")));
  EXPECT_TRUE(exchange_job_folder(target, job_called("rear-box", "C"))) << "another revision of the same job";
}

TEST(Exchange, TellsWhichJobAFolderHolds) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  EXPECT_FALSE(job_in_folder(target));
  ASSERT_TRUE(exchange_job_folder(target, job_called("rear-box", "A")));
  const auto held = job_in_folder(target);
  ASSERT_TRUE(held);
  EXPECT_EQ(held->name, "rear-box");
  EXPECT_EQ(held->revision, "A");
  EXPECT_EQ(held->spec_hash, "abc");
  EXPECT_EQ(held->paths, std::set<std::string>{"flat/S235JR_2mm/a.dxf"});
}

TEST(Exchange, RefusesAFileInPlaceOfTheFolder) {
  const sample::Folder folder;
  sample::write(folder.path() / "box", "a file");
  const Status status = exchange_job_folder(folder.path() / "box", job("one"));
  ASSERT_FALSE(status);
  EXPECT_NE(status.error().reason.find("there is a file of this name"), std::string::npos);
  EXPECT_EQ(sample::read(folder.path() / "box"), "a file");
}

TEST(Exchange, SaysWhenTheFolderWouldLieBelowAFile) {
  const sample::Folder folder;
  sample::write(folder.path() / "file", "a file");
  const Status status = exchange_job_folder(folder.path() / "file" / "box", job("one"));
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().kind, Failure::Kind::file);
  EXPECT_NE(status.error().reason.find("Not a directory"), std::string::npos) << status.error().reason;
}

TEST(Exchange, RefusesAPathOutOfTheFolder) {
  const sample::Folder folder;
  ASSERT_FALSE(exchange_job_folder(folder.path() / "box", {{"../x", "one", FileGroup::dxf}}));
  EXPECT_EQ(entries(folder.path()), 0U);
}

TEST(Exchange, RefusesWhileAnotherRunHoldsTheLock) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  ASSERT_TRUE(exchange_job_folder(target, job("one")));
  const fs::path lock = folder.path() / ".box.lock";
  const int other = ::open(lock.c_str(), O_RDWR | O_CREAT, 0666);
  ASSERT_EQ(::flock(other, LOCK_EX), 0);
  const Status status = exchange_job_folder(target, job("two"));
  ASSERT_FALSE(status);
  EXPECT_NE(status.error().reason.find("another run"), std::string::npos);
  EXPECT_EQ(sample::contents(target), as_map(job("one")));
  ::close(other);
  EXPECT_TRUE(exchange_job_folder(target, job("two"))) << "a lock file alone, left by a run that died, is no lock";
  EXPECT_FALSE(fs::exists(lock));
}

TEST(Exchange, BringsBackTheOldFolderThatAnInterruptedRunSetAside) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  ASSERT_TRUE(exchange_job_folder(target, job("one")));
  fs::rename(target, folder.path() / ".box.old-123");
  sample::write(folder.path() / ".box.new-123/flat/half", "half");
  sample::write(folder.path() / ".box.new-notes/mine", "not a leftover");
  // A run that fails right after recovery shows what recovery itself did.
  ASSERT_FALSE(exchange_job_folder(target, {{"../x", "", FileGroup::dxf}}));
  EXPECT_EQ(sample::contents(target), as_map(job("one")));
  EXPECT_FALSE(fs::exists(folder.path() / ".box.old-123"));
  EXPECT_FALSE(fs::exists(folder.path() / ".box.new-123"));
  EXPECT_TRUE(fs::exists(folder.path() / ".box.new-notes/mine"));
}

TEST(Exchange, RemovesTheOldFolderThatAnInterruptedRunHadReplaced) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  ASSERT_TRUE(exchange_job_folder(target, job("one")));
  sample::write(folder.path() / ".box.old-123/flat/a.dxf", "zero");
  ASSERT_TRUE(exchange_job_folder(target, job("two")));
  EXPECT_EQ(sample::contents(target), as_map(job("two")));
  EXPECT_EQ(entries(folder.path()), 1U);
}

// Where the file system cannot exchange two names.
TEST(ExchangeByRenames, PutsTheNewFolderInPlaceAndRemovesTheOld) {
  const sample::Folder folder;
  sample::write(folder.path() / "box/a", "one");
  sample::write(folder.path() / "new/a", "two");
  ASSERT_TRUE(output::exchange_by_renames(folder.path() / "new", folder.path() / "box", folder.path() / "old"));
  EXPECT_EQ(sample::contents(folder.path()), (std::map<std::string, std::string>{{"box/a", "two"}}));
}

TEST(ExchangeByRenames, BringsTheOldFolderBackWhenTheNewOneIsNotThere) {
  const sample::Folder folder;
  sample::write(folder.path() / "box/a", "one");
  ASSERT_FALSE(output::exchange_by_renames(folder.path() / "new", folder.path() / "box", folder.path() / "old"));
  EXPECT_EQ(sample::contents(folder.path()), (std::map<std::string, std::string>{{"box/a", "one"}}));
}

TEST(Exchange, KeepsTheOldFolderWhenInterrupted) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  ASSERT_TRUE(exchange_job_folder(target, job("one")));
  const int answer = in_a_child([&] {
    std::signal(SIGTERM, [](int) { request_interrupt(); });
    ::raise(SIGTERM);
    const Status status = exchange_job_folder(target, job("two"));
    return !status && status.error().kind == Failure::Kind::interrupted ? 0 : 1;
  });
  EXPECT_EQ(answer, 0);
  EXPECT_EQ(sample::contents(target), as_map(job("one")));
  EXPECT_EQ(entries(folder.path()), 1U);
}

TEST(Exchange, KeepsTheOldFolderWhenAFileMayNotGrow) {
  const sample::Folder folder;
  const fs::path target = folder.path() / "box";
  ASSERT_TRUE(exchange_job_folder(target, job("one")));
  const int answer = in_a_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 2;
    const Status status = exchange_job_folder(target, job(std::string(5000, 'x')));
    const bool said = !status && status.error().operation.find("a.dxf") != std::string::npos &&
                      status.error().reason.find("File too large") != std::string::npos;
    return said ? 0 : 1;
  });
  EXPECT_EQ(answer, 0);
  EXPECT_EQ(sample::contents(target), as_map(job("one")));
  EXPECT_EQ(entries(folder.path()), 1U);
}

/// A file system of 64 kB below `folder`, for this process alone; false where the system does not allow it.
bool small_disk(const fs::path& folder) {
  if (::unshare(CLONE_NEWNS) != 0 && ::unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0) return false;
  if (::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0) return false;
  return ::mount("none", folder.c_str(), "tmpfs", 0, "size=64k") == 0;
}

int full_disk_answer(const fs::path& folder) {
  const fs::path target = folder / "box";
  if (!small_disk(folder)) {
    // No right to mount: the same path through the code with the error that the system has for everybody.
    const rlimit limit{1000, 1000};
    std::signal(SIGXFSZ, SIG_IGN);
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 2;
  }
  if (!exchange_job_folder(target, job("one"))) return 3;
  const Status status = exchange_job_folder(target, job(std::string(200000, 'x')));
  if (status || status.error().operation.find("a.dxf") == std::string::npos) return 4;
  const std::string& reason = status.error().reason;
  if (reason.find("No space left on device - free some space") == std::string::npos &&
      reason.find("File too large") == std::string::npos) {
    return 5;
  }
  if (sample::contents(target) != as_map(job("one"))) return 6;
  return entries(folder) == 1 ? 0 : 7;
}

TEST(Exchange, KeepsTheOldFolderOnAFullDisk) {
  const sample::Folder folder;
  EXPECT_EQ(in_a_child([&] { return full_disk_answer(folder.path()); }), 0);
}

TEST(Exchange, SaysWhenAFolderMayNotBeWritten) {
  const sample::Folder folder;
  fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec);
  const int answer = in_a_child([&] {
    if (::getuid() == 0 && ::setuid(65534) != 0) return 2;  // root may write anywhere
    const Status status = exchange_job_folder(folder.path() / "box", job("one"));
    return !status && status.error().reason.find("Permission denied") != std::string::npos ? 0 : 1;
  });
  EXPECT_EQ(answer, 0);
  fs::permissions(folder.path(), fs::perms::owner_all);
  EXPECT_EQ(entries(folder.path()), 0U);
}

}  // namespace
}  // namespace fitup
