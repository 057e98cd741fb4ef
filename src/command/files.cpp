#include "loomleaf/command/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

namespace loomleaf {

namespace fs = std::filesystem;

namespace {

std::string reason(int error) { return std::strerror(error); }

// Reads at most one byte more than is wanted, so that a file that is too large is known without holding it.
std::string read_stream(std::istream& in, std::size_t most_bytes) {
  std::string bytes;
  char block[65536];
  while (bytes.size() <= most_bytes && in.read(block, sizeof block).gcount() > 0) {
    bytes.append(block, static_cast<std::size_t>(in.gcount()));
  }
  return bytes;
}

// Writes everything to an open file and closes it; the error number, or 0.
int write_and_close(int file, const std::string& bytes) {
  std::size_t done = 0;
  int error = 0;
  while (done < bytes.size() && error == 0) {
    const ssize_t wrote = ::write(file, bytes.data() + done, bytes.size() - done);
    if (wrote >= 0) {
      done += static_cast<std::size_t>(wrote);
    } else if (errno != EINTR) {
      error = errno;
    }
  }
  if (error == 0 && ::fsync(file) != 0 && errno != EINVAL) error = errno;
  if (::close(file) != 0 && error == 0) error = errno;  // a full disk may show only here
  return error;
}

// A file under a passing name beside its target; removed unless it was moved into place.
class PassingFile {
 public:
  explicit PassingFile(fs::path target) : target_(std::move(target)), name_(target_.string() + ".XXXXXX") {}
  PassingFile(const PassingFile&) = delete;
  PassingFile(PassingFile&& other) noexcept
      : target_(std::move(other.target_)), name_(std::move(other.name_)), there_(other.there_) {
    other.there_ = false;
  }
  ~PassingFile() {
    if (there_) ::unlink(name_.c_str());
  }

  int write(const std::string& bytes) {
    const int file = ::mkostemp(name_.data(), O_CLOEXEC);
    if (file < 0) return errno;
    there_ = true;
    const mode_t mask = ::umask(0);
    ::umask(mask);
    ::fchmod(file, static_cast<mode_t>(0666) & ~mask);
    return write_and_close(file, bytes);
  }
  int move_into_place() {
    if (::rename(name_.c_str(), target_.c_str()) != 0) return errno;
    there_ = false;
    return 0;
  }
  const fs::path& target() const { return target_; }

 private:
  fs::path target_;
  std::string name_;
  bool there_ = false;
};

}  // namespace

ReadFile read_file(const std::string& path, std::istream& standard_input, std::size_t most_bytes) {
  ReadFile result;
  if (path == "-") {
    result.bytes = read_stream(standard_input, most_bytes);
  } else {
    std::error_code trouble;
    if (fs::is_directory(path, trouble)) {
      result.trouble = fmt::format("cannot read {}: it is a folder", path);
      return result;
    }
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in) {
      result.trouble = fmt::format("cannot read {}: {}", path, reason(errno));
      return result;
    }
    result.bytes = read_stream(in, most_bytes);
    if (in.bad()) result.trouble = fmt::format("cannot read {}: {}", path, reason(errno));
  }
  if (result.bytes.size() > most_bytes) {
    result.trouble = fmt::format("cannot read {}: it is larger than {} MiB, which no plan is", path, most_bytes >> 20);
  }
  return result;
}

std::optional<std::string> write_files(const fs::path& folder, const std::vector<FileToWrite>& files) {
  std::error_code trouble;
  fs::create_directories(folder, trouble);
  if (trouble) return fmt::format("cannot make the folder {}: {}", folder.string(), trouble.message());

  std::vector<PassingFile> passing;
  passing.reserve(files.size());
  for (const FileToWrite& file : files) {
    passing.emplace_back(file.path);
    if (const int error = passing.back().write(file.bytes)) {
      return fmt::format("cannot write {}: {}", file.path.string(), reason(error));
    }
  }
  for (PassingFile& file : passing) {
    if (const int error = file.move_into_place()) {
      return fmt::format("cannot write {}: {}", file.target().string(), reason(error));
    }
  }
  if (const int directory = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); directory >= 0) {
    ::fsync(directory);
    ::close(directory);
  }
  return std::nullopt;
}

std::optional<std::string> write_new_file(const fs::path& path, const std::string& bytes) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0) {
    if (errno == EEXIST) return fmt::format("{} is there already, and is left as it is", path.string());
    return fmt::format("cannot write {}: {}", path.string(), reason(errno));
  }
  if (const int error = write_and_close(file, bytes)) {
    ::unlink(path.c_str());
    return fmt::format("cannot write {}: {}", path.string(), reason(error));
  }
  return std::nullopt;
}

}  // namespace loomleaf
