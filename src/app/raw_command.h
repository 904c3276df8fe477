#pragma once
// The command line as it was typed, before anything in it is understood.

#include <string>
#include <vector>

#include "app/command_line.h"

namespace fitup::app {

/// What CLI11 fills; nothing is required or converted here, so that every complaint is in our own words.
struct Raw {
  Common common;
  bool help = false;
  bool version = false;
  std::vector<std::string> spec_files;
  std::string folder;
  std::vector<std::string> only;
  std::vector<std::string> sets;
  std::string show;
  std::string cores;
  std::string units;
  std::string step;
  std::string dxf;
  bool anyway = false;
  std::string key;
  std::string word;
  std::string name;
  std::string kind;
  std::vector<std::string> files;
  std::string thickness;
  std::string material;
};

/// Reads all of it for that command; empty where none was named.
[[nodiscard]] CommandLine to_request(const Raw& raw, const std::string& command);

}  // namespace fitup::app
