#include "template_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>

#include "plain_text.h"

namespace loomleaf {

namespace {

constexpr std::size_t kMostBytes = std::size_t{4} << 20;
constexpr std::size_t kMostErrors = 20;  // a file that is wrong throughout need not say so a thousand times
constexpr std::size_t kLongestText = 200;

template <class Names>
std::string listed(const Names& names) {
  std::string all;
  for (std::string_view name : names) all += (all.empty() ? "" : ", ") + std::string(name);
  return all;
}

}  // namespace

TemplateFile::TemplateFile(const std::filesystem::path& path, std::string_view root_name) : shown_name_(path.string()) {
  read(path, root_name);
}

void TemplateFile::read(const std::filesystem::path& path, std::string_view root_name) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    errors_.push_back({shown_name_, 0, "this is no file that can be read"});
    return;
  }
  std::ifstream in(path, std::ios::binary);
  const std::uintmax_t size = std::filesystem::file_size(path, error);
  text_.resize(static_cast<std::size_t>(std::min<std::uintmax_t>(error ? 0 : size, kMostBytes + 1)));
  in.read(text_.data(), static_cast<std::streamsize>(text_.size()));
  text_.resize(static_cast<std::size_t>(std::max<std::streamsize>(in.gcount(), 0)));
  if (!in.is_open() || in.bad()) {
    errors_.push_back({shown_name_, 0, "this file cannot be read"});
    return;
  }
  if (text_.size() > kMostBytes) {
    errors_.push_back({shown_name_, 0, "this file is over 4 MiB: a template holds a few tables only"});
    return;
  }
  if (const std::optional<std::size_t> bad = first_bad_utf8(text_)) return fault(*bad, "this byte is not UTF-8 text");

  // As a fragment: else what stands beside the outermost element would be passed over in silence.
  const pugi::xml_parse_result result =
      document_.load_buffer(text_.data(), text_.size(),
                            pugi::parse_default | pugi::parse_doctype | pugi::parse_fragment, pugi::encoding_utf8);
  if (!result) {
    return fault(static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0)),
                 fmt::format("this is not well-formed XML: {}", pugi_words(result.description())));
  }
  const pugi::xml_node found = document_.document_element();
  if (!found) return fault(0, "this is not well-formed XML: there is no element in it");
  for (const pugi::xml_node node : document_.children()) {
    if (node.type() == pugi::node_doctype) return complain(node, "a template has no DOCTYPE: leave it out");
    if (node.type() == pugi::node_pcdata || node.type() == pugi::node_cdata)
      return fault(first_word(node),
                   fmt::format("loose text beside the outermost element <{}>", clipped(found.name())));
    if (node.type() == pugi::node_element && node != found)
      return complain(node, fmt::format("a second outermost element, <{}>: a template has one", clipped(node.name())));
  }
  if (found.name() != root_name) {
    return complain(
        found, fmt::format("the outermost element is <{}>, here it should be <{}>", clipped(found.name()), root_name));
  }
  const std::string_view format = found.attribute("format").value();
  if (format != "1") {
    return complain(found, format.empty()
                               ? std::string("the format is missing: write format=\"1\"")
                               : fmt::format("the format \"{}\" is not known, only format=\"1\" is", clipped(format)));
  }
  root_ = found;
}

void TemplateFile::fault(std::size_t offset, std::string message) {
  if (errors_.size() >= kMostErrors) return;
  const std::size_t end = std::min(offset, text_.size());
  const auto newlines = std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(end), '\n');
  errors_.push_back({shown_name_, static_cast<int>(newlines) + 1, std::move(message)});
}

void TemplateFile::complain(pugi::xml_node at, std::string message) {
  fault(static_cast<std::size_t>(std::max<std::ptrdiff_t>(at.offset_debug(), 0)), std::move(message));
}

std::size_t TemplateFile::first_word(pugi::xml_node text) const {
  const std::size_t begin = static_cast<std::size_t>(std::max<std::ptrdiff_t>(text.offset_debug(), 0));
  return std::min(text_.find_first_not_of(" \t\r\n", begin), text_.size());
}

std::vector<pugi::xml_node> TemplateFile::children(pugi::xml_node parent,
                                                   std::initializer_list<std::string_view> names) {
  std::vector<pugi::xml_node> found;
  for (const pugi::xml_node child : parent.children()) {
    if (child.type() != pugi::node_element) {
      fault(first_word(child), fmt::format("loose text in <{}>: figures stand in attributes", parent.name()));
    } else if (std::find(names.begin(), names.end(), child.name()) == names.end()) {
      complain(child, fmt::format("<{}> is not known in <{}>: it holds {}", clipped(child.name()), parent.name(),
                                  names.size() == 0 ? "nothing" : listed(names)));
    } else {
      found.push_back(child);
    }
  }
  return found;
}

std::vector<pugi::xml_node> TemplateFile::named(pugi::xml_node parent, const char* name) const {
  std::vector<pugi::xml_node> found;
  for (const pugi::xml_node child : parent.children(name)) found.push_back(child);
  return found;
}

std::optional<pugi::xml_node> TemplateFile::single(pugi::xml_node parent, const char* name) {
  const pugi::xml_node node = parent.child(name);
  if (!node) {
    complain(parent, fmt::format("<{}> is missing in <{}>", name, parent.name()));
    return std::nullopt;
  }
  if (const pugi::xml_node second = node.next_sibling(name)) {
    complain(second, fmt::format("a second <{}>: one is enough", name));
  }
  return node;
}

void TemplateFile::only_attributes(pugi::xml_node node, std::initializer_list<std::string_view> names) {
  std::vector<std::string_view> met;
  for (const pugi::xml_attribute attribute : node.attributes()) {
    const std::string_view name = attribute.name();
    if (std::find(names.begin(), names.end(), name) == names.end()) {
      complain(node, fmt::format("<{}> has no attribute {}: it has {}", node.name(), clipped(name), listed(names)));
      return;
    }
    if (std::find(met.begin(), met.end(), name) != met.end()) {
      complain(node, fmt::format("the attribute {} stands twice on <{}>", name, node.name()));
    }
    met.push_back(name);
  }
}

std::string TemplateFile::attribute_place(pugi::xml_node node, const char* name) const {
  return fmt::format("{}=\"{}\" on <{}>", name, clipped(node.attribute(name).value()), node.name());
}

std::optional<std::string> TemplateFile::text(pugi::xml_node node, const char* name) {
  const std::string_view value = node.attribute(name).value();
  if (value.empty()) {
    complain(node, fmt::format("<{}> lacks {}: write {}=\"...\"", node.name(), name, name));
    return std::nullopt;
  }
  if (value.size() > kLongestText) {
    complain(node, fmt::format("{} on <{}> is over {} characters long", name, node.name(), kLongestText));
    return std::nullopt;
  }
  if (has_control_character(value) || first_bad_utf8(value)) {
    complain(node, fmt::format("{} on <{}> holds a character that cannot be printed", name, node.name()));
    return std::nullopt;
  }
  return std::string(value);
}

std::optional<double> TemplateFile::number(pugi::xml_node node, const char* name, Bounds bounds) {
  if (node.attribute(name).empty()) {
    complain(node, fmt::format("<{}> lacks {}: write {}=\"...\", a number from {} to {}", node.name(), name, name,
                               bounds.least, bounds.most));
    return std::nullopt;
  }
  const std::optional<double> value = read_number(node.attribute(name).value());
  if (!value || *value < bounds.least || *value > bounds.most) {
    complain(node, fmt::format("{}: it should be a number from {} to {}{}", attribute_place(node, name), bounds.least,
                               bounds.most, value ? "" : ", with a point for decimals and no unit"));
    return std::nullopt;
  }
  return value;
}

std::optional<int> TemplateFile::whole(pugi::xml_node node, const char* name, Bounds bounds) {
  const std::optional<double> value = number(node, name, bounds);
  if (value && *value != std::floor(*value)) {
    complain(node, fmt::format("{}: it should be a whole number", attribute_place(node, name)));
    return std::nullopt;
  }
  return value ? std::optional<int>(static_cast<int>(*value)) : std::nullopt;
}

std::vector<double> TemplateFile::numbers(pugi::xml_node node, const char* name, Bounds bounds) {
  std::vector<double> all;
  std::string_view rest = node.attribute(name).value();
  while (!rest.empty()) {
    const std::string_view word = rest.substr(0, rest.find(' '));
    rest.remove_prefix(std::min(word.size() + 1, rest.size()));
    if (word.empty()) continue;
    const std::optional<double> value = read_number(word);
    if (!value || *value < bounds.least || *value > bounds.most || (!all.empty() && *value <= all.back())) {
      complain(node, fmt::format("\"{}\" in {} on <{}>: it should be rising numbers from {} to {}, parted by spaces",
                                 clipped(word), name, node.name(), bounds.least, bounds.most));
      return {};
    }
    all.push_back(*value);
  }
  if (all.empty()) complain(node, fmt::format("<{}> lacks {}: write {}=\"1 2 3\"", node.name(), name, name));
  return all;
}

std::optional<WireSize> TemplateFile::size(pugi::xml_node node, const char* name) {
  const std::optional<std::string> value = text(node, name);
  if (!value) return std::nullopt;
  const std::optional<WireSize> size = read_wire_size(*value);
  if (!size) {
    complain(node, fmt::format(
                       "{}: a size is written \"18 AWG\", \"2/0 AWG\" or \"2.5 mm2\", that of vehicle wire \"14 SAE\"",
                       attribute_place(node, name)));
  }
  return size;
}

bool TemplateFile::yes(pugi::xml_node node, const char* name) {
  const pugi::xml_attribute attribute = node.attribute(name);
  const std::string_view value = attribute.value();
  if (!attribute.empty() && value != "yes" && value != "no") {
    complain(node, fmt::format("{}: it should be \"yes\" or \"no\"", attribute_place(node, name)));
  }
  return value == "yes";
}

std::optional<Provenance> TemplateFile::own_provenance(pugi::xml_node node, const char* prefix) {
  const std::string source_name = std::string(prefix) + "source", known_name = std::string(prefix) + "known";
  if (!has(node, source_name.c_str()) && !has(node, known_name.c_str())) return std::nullopt;
  const std::string_view word = node.attribute(known_name.c_str()).value();
  Provenance from;
  if (word == "practice") {
    from.known = Known::practice;
  } else if (word == "seen" || word == "memory") {
    from.known = word == "seen" ? Known::seen : Known::memory;
  } else {
    complain(node, fmt::format("{}: it should be \"seen\", \"memory\" or \"practice\"",
                               attribute_place(node, known_name.c_str())));
  }
  if (has(node, source_name.c_str()) || from.known != Known::practice) {
    from.source = text(node, source_name.c_str()).value_or("");
  }
  return from;
}

Provenance TemplateFile::provenance(pugi::xml_node node, const char* prefix) {
  if (const std::optional<Provenance> own = own_provenance(node, prefix)) return *own;
  if (node.parent() != root_) {
    if (const std::optional<Provenance> group = own_provenance(node.parent(), prefix)) return *group;
  }
  complain(node, fmt::format("<{}> does not say where its figures come from: write {}source=\"...\" {}known=\"seen\", "
                             "\"memory\" or \"practice\"",
                             node.name(), prefix, prefix));
  return {};
}

}  // namespace loomleaf
