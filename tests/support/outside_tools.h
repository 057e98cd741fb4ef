// Runs other programs on bytes of ours.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <pugixml.hpp>
#include <string>
#include <vector>

#include "loomleaf/layout/geometry.h"

namespace loomleaf {

struct Outcome {
  int status = -1;
  std::string output;  // both streams
};

// Writes `bytes` to a file of its own with this ending, runs the command with its name in place of {}, removes it.
inline Outcome run_on_file(const std::string& bytes, const std::string& ending, const std::string& command) {
  static int count = 0;
  const std::filesystem::path path =
      std::filesystem::temp_directory_path() /
      ("loomleaf-test-" + std::to_string(getpid()) + "-" + std::to_string(++count) + "." + ending);
  std::ofstream(path, std::ios::binary) << bytes;
  std::string line = command;
  line.replace(line.find("{}"), 2, "'" + path.string() + "'");
  Outcome outcome;
  if (FILE* pipe = popen(("{ " + line + "\n} 2>&1").c_str(), "r")) {
    std::array<char, 4096> buffer;
    for (std::size_t n; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
      outcome.output.append(buffer.data(), n);
    const int status = pclose(pipe);
    outcome.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }
  std::filesystem::remove(path);
  return outcome;
}

struct PrintedWord {
  int page = 1;
  std::string text;
  Box box;  // mm from the sheet's upper left: a line from its font's ascent to its descent
};

// The words of a PDF as pdftotext -bbox finds them.
inline std::vector<PrintedWord> words_of(const std::string& pdf) {
  constexpr double kMmPerPt = 25.4 / 72.0;
  pugi::xml_document document;
  document.load_string(run_on_file(pdf, "pdf", "pdftotext -bbox {} -").output.c_str(),
                       pugi::parse_default | pugi::parse_doctype);
  std::vector<PrintedWord> words;
  int number = 0;
  for (const pugi::xml_node& page : document.child("html").child("body").child("doc").children("page")) {
    ++number;
    for (const pugi::xml_node& word : page.children("word")) {
      const double x = word.attribute("xMin").as_double(), y = word.attribute("yMin").as_double();
      words.push_back({number,
                       word.child_value(),
                       {x * kMmPerPt, y * kMmPerPt, (word.attribute("xMax").as_double() - x) * kMmPerPt,
                        (word.attribute("yMax").as_double() - y) * kMmPerPt}});
    }
  }
  return words;
}

}  // namespace loomleaf
