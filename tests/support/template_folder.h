// A folder of templates that lasts as long as its test.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

namespace loomleaf {

class TemplateFolder {
 public:
  TemplateFolder() {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("loomleaf-templates-" + std::to_string(getpid()) + "-" + std::to_string(++count));
    std::filesystem::create_directories(path_);
  }
  ~TemplateFolder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  TemplateFolder(const TemplateFolder&) = delete;
  TemplateFolder& operator=(const TemplateFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  void write(const std::string& folder, const std::string& file, std::string_view text) const {
    std::filesystem::create_directories(path_ / folder);
    std::ofstream(path_ / folder / file, std::ios::binary) << text;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace loomleaf
