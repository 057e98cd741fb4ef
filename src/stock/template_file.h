// One XML template, read with suspicion: bounded, checked, and every complaint with its line.
#pragma once

#include <filesystem>
#include <initializer_list>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/stock/provenance.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/units/colour.h"
#include "loomleaf/units/wire_size.h"

namespace loomleaf {

// What a number in a template may be, both ends included.
struct Bounds {
  double least = 0.0, most = 0.0;
};

class TemplateFile {
 public:
  // Reads the file and checks its frame: size, UTF-8, well-formed XML, the root's name and its format.
  TemplateFile(const std::filesystem::path& path, std::string_view root_name);

  pugi::xml_node root() const { return root_; }  // empty where the frame is bad
  void complain(pugi::xml_node at, std::string message);
  std::vector<TemplateError> take_errors() { return std::move(errors_); }

  // The elements below `parent`, in order. Whatever is not called one of `names`, and loose text, is complained of.
  std::vector<pugi::xml_node> children(pugi::xml_node parent, std::initializer_list<std::string_view> names);
  // The elements called `name` below `parent`.
  std::vector<pugi::xml_node> named(pugi::xml_node parent, const char* name) const;
  // The one element called `name` below `parent`; none or a second is complained of.
  std::optional<pugi::xml_node> single(pugi::xml_node parent, const char* name);
  // Complains of attributes that are not called one of `names`, and of one given twice.
  void only_attributes(pugi::xml_node node, std::initializer_list<std::string_view> names);

  // An attribute as what it should be. A missing or bad one is complained of, with what should stand there.
  std::optional<std::string> text(pugi::xml_node node, const char* name);
  std::optional<double> number(pugi::xml_node node, const char* name, Bounds bounds);
  std::optional<int> whole(pugi::xml_node node, const char* name, Bounds bounds);
  std::vector<double> numbers(pugi::xml_node node, const char* name, Bounds bounds);  // parted by spaces, rising
  std::optional<WireSize> size(pugi::xml_node node, const char* name);
  bool yes(pugi::xml_node node, const char* name);  // "yes" or "no"; left out: no
  bool has(pugi::xml_node node, const char* name) const { return !node.attribute(name).empty(); }

  // PREFIXsource and PREFIXknown of the node itself, else of its group; neither is a complaint.
  Provenance provenance(pugi::xml_node node, const char* prefix = "");

 private:
  void read(const std::filesystem::path& path, std::string_view root_name);
  void fault(std::size_t offset, std::string message);
  std::size_t first_word(pugi::xml_node text) const;  // where it begins in the file, past its spaces
  std::optional<Provenance> own_provenance(pugi::xml_node node, const char* prefix);
  std::string attribute_place(pugi::xml_node node, const char* name) const;

  std::string shown_name_;
  std::string text_;
  pugi::xml_document document_;
  pugi::xml_node root_;
  std::vector<TemplateError> errors_;
};

// "18 AWG", "2/0 AWG", "2.5 mm2", "14 SAE".
std::optional<WireSize> read_wire_size(std::string_view text);

// "red", "red/white".
std::optional<WireColour> read_colour(std::string_view text);

// A decimal number that fills the text.
std::optional<double> read_number(std::string_view text);

}  // namespace loomleaf
