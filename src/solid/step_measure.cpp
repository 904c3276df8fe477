// Measures the solids of a STEP file in a child process, which a hostile file may bring down.
// Entry: solid::measure_step.
#include "solid/step_measure.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <BRepBndLib.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <STEPControl_Reader.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Shape.hxx>
#include <array>
#include <chrono>
#include <csignal>
#include <cstring>
#include <sstream>

#include "solid/guarded.h"
#include "solid/step_session.h"

namespace fitup::solid {
namespace {

constexpr std::string_view operation = "measuring the solids";
constexpr std::size_t most_bodies = 10'000;
constexpr rlim_t most_memory_bytes = rlim_t{6} << 30U;

StepBodyMeasure measured(const TopoDS_Shape& shape) {
  GProp_GProps volume;
  GProp_GProps area;
  BRepGProp::VolumeProperties(shape, volume);
  BRepGProp::SurfaceProperties(shape, area);
  StepBodyMeasure body{volume.Mass(), area.Mass(), BRepCheck_Analyzer(shape).IsValid(), {}};
  Bnd_Box box;
  BRepBndLib::AddOptimal(shape, box, false, false);
  if (box.IsVoid()) return body;
  box.Get(body.bounds.low.x, body.bounds.low.y, body.bounds.low.z, body.bounds.high.x, body.bounds.high.y,
          body.bounds.high.z);
  return body;
}

Result<std::vector<StepBodyMeasure>> bodies_in(std::string_view bytes) {
  return guarded(std::string(operation), [&] {
    const StepSession session;
    std::istringstream in{std::string(bytes)};
    STEPControl_Reader reader;
    if (reader.ReadStream("step", in) != IFSelect_RetDone) throw Trouble("the kernel cannot read it");
    reader.TransferRoots();
    std::vector<StepBodyMeasure> bodies;
    const TopoDS_Shape whole = reader.OneShape();
    if (whole.IsNull()) return bodies;
    for (TopExp_Explorer it(whole, TopAbs_SOLID); it.More() && bodies.size() < most_bodies; it.Next()) {
      bodies.push_back(measured(it.Current()));
    }
    return bodies;
  });
}

/// "=" and a line of ten numbers for each body, or "!" and the reason; the last line is ".".
std::string as_text(const Result<std::vector<StepBodyMeasure>>& bodies) {
  if (!bodies) return fmt::format("!{}\n.\n", bodies.error().reason);
  std::string text;
  for (const StepBodyMeasure& b : *bodies) {
    text += fmt::format("={} {} {} {} {} {} {} {} {}\n", b.volume_mm3, b.area_mm2, b.valid ? 1 : 0, b.bounds.low.x,
                        b.bounds.low.y, b.bounds.low.z, b.bounds.high.x, b.bounds.high.y, b.bounds.high.z);
  }
  return text + ".\n";
}

Failure failure(std::string reason) { return kernel_failure(std::string(operation), std::move(reason)); }

Result<std::vector<StepBodyMeasure>> from_text(const std::string& text) {
  std::vector<StepBodyMeasure> bodies;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line == ".") return bodies;
    if (line.starts_with("!")) return failure(line.substr(1));
    std::istringstream numbers(line.substr(1));
    StepBodyMeasure b;
    int valid = 0;
    numbers >> b.volume_mm3 >> b.area_mm2 >> valid >> b.bounds.low.x >> b.bounds.low.y >> b.bounds.low.z >>
        b.bounds.high.x >> b.bounds.high.y >> b.bounds.high.z;
    b.valid = valid == 1;
    bodies.push_back(b);
  }
  return failure("the kernel did not come to an end of it");
}

void limit(int resource, rlim_t most) {
  const rlimit bounds{most, most};
  setrlimit(static_cast<__rlimit_resource>(resource), &bounds);
}

[[noreturn]] void work_and_end(std::string_view bytes, int out, int most_seconds) {
  for (const int signal : {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT, SIGINT, SIGTERM}) std::signal(signal, SIG_DFL);
  // Nobody waits for it any more once its parent was interrupted.
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_CPU, static_cast<rlim_t>(most_seconds));
#ifndef __SANITIZE_ADDRESS__  // its shadow memory alone is larger
  limit(RLIMIT_AS, most_memory_bytes);
#endif
  const int nowhere = open("/dev/null", O_WRONLY);
  dup2(nowhere, STDOUT_FILENO);
  dup2(nowhere, STDERR_FILENO);
  const std::string text = as_text(bodies_in(bytes));
  for (std::size_t at = 0; at < text.size();) {
    const ssize_t written = write(out, text.data() + at, text.size() - at);
    if (written <= 0) _exit(1);
    at += static_cast<std::size_t>(written);
  }
  _exit(0);
}

/// Everything that comes out of the pipe until it is closed; false when the time is over.
bool read_all(int from, int most_seconds, std::string& text) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(most_seconds);
  std::array<char, 4096> buffer{};
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - std::chrono::steady_clock::now());
    if (left.count() <= 0) return false;
    pollfd waiting{from, POLLIN, 0};
    if (poll(&waiting, 1, static_cast<int>(left.count())) <= 0) continue;
    const ssize_t count = read(from, buffer.data(), buffer.size());
    if (count <= 0) return true;
    text.append(buffer.data(), static_cast<std::size_t>(count));
  }
}

}  // namespace

Result<std::vector<StepBodyMeasure>> measure_step(std::string_view bytes, int most_seconds) {
  std::array<int, 2> ends{};
  if (pipe(ends.data()) != 0) return failure(std::strerror(errno));
  const pid_t child = fork();
  if (child < 0) return failure(std::strerror(errno));
  if (child == 0) {
    close(ends[0]);
    work_and_end(bytes, ends[1], most_seconds);
  }
  close(ends[1]);
  std::string text;
  const bool in_time = read_all(ends[0], most_seconds, text);
  close(ends[0]);
  if (!in_time) kill(child, SIGKILL);
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) continue;
  if (!in_time || (WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU)) {
    return failure(fmt::format("the kernel took more than {} seconds", most_seconds));
  }
  if (WIFSIGNALED(status)) return failure("the kernel broke down over it");
  return from_text(text);
}

}  // namespace fitup::solid
