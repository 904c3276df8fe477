// What the solid kernel alone needs for the files of a job: reads the assembly and the parts once (not timed), then
// writes each anew and reads back what it wrote (timed), with the kernel's own writer and reader.
// Prints the seconds of the timed part. Entry: main().
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <Standard_Failure.hxx>
#include <TDocStd_Document.hxx>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

Handle(TDocStd_Document) read(const fs::path& file) {
  Handle(TDocStd_Document) document = new TDocStd_Document("XmlXCAF");
  STEPCAFControl_Reader reader;
  reader.SetColorMode(true);
  reader.SetNameMode(true);
  reader.SetPropsMode(true);
  if (reader.ReadFile(file.c_str()) != IFSelect_RetDone || !reader.Transfer(document)) {
    throw std::runtime_error("cannot read " + file.string());
  }
  return document;
}

void write(const Handle(TDocStd_Document) & document, const fs::path& file) {
  STEPCAFControl_Writer writer;
  writer.SetColorMode(true);
  writer.SetNameMode(true);
  writer.SetPropsMode(true);
  if (!writer.Transfer(document, STEPControl_AsIs) || writer.Write(file.c_str()) != IFSelect_RetDone) {
    throw std::runtime_error("cannot write " + file.string());
  }
}

std::vector<fs::path> step_files(const fs::path& job) {
  std::vector<fs::path> files{job / "assembly.step"};
  for (const auto& entry : fs::directory_iterator(job / "parts")) {
    if (entry.path().extension() == ".step") {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin() + 1, files.end());
  return files;
}

double seconds_to_write_and_read(const std::vector<fs::path>& files, const fs::path& scratch) {
  std::vector<Handle(TDocStd_Document)> documents;
  documents.reserve(files.size());
  for (const fs::path& file : files) {
    documents.push_back(read(file));
  }
  fs::create_directories(scratch);
  const auto start = std::chrono::steady_clock::now();
  for (std::size_t i = 0; i < files.size(); ++i) {
    const fs::path copy = scratch / files[i].filename();
    write(documents[i], copy);
    read(copy);
  }
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

int compare(const fs::path& job, const fs::path& scratch) {
  Message::DefaultMessenger()->ChangePrinters().Clear();
  STEPCAFControl_Controller::Init();
  // The settings that the program uses: the kernel's defaults write twice as much.
  if (!Interface_Static::SetCVal("write.step.schema", "AP242DIS") ||
      !Interface_Static::SetIVal("write.surfacecurve.mode", 0)) {
    throw std::runtime_error("the kernel refuses its settings");
  }
  const std::vector<fs::path> files = step_files(job);
  std::printf("%.6f %zu\n", seconds_to_write_and_read(files, scratch), files.size());
  return 0;
}

}  // namespace

int main(int count, char** values) {
  if (count != 3) {
    std::fputs("usage: bare_kernel JOB_FOLDER SCRATCH_FOLDER\n", stderr);
    return 2;
  }
  try {
    return compare(values[1], values[2]);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
  } catch (const Standard_Failure& failure) {
    std::fprintf(stderr, "%s\n", failure.DynamicType()->Name());
  }
  return 1;
}
