#include "loomleaf/stock/fuse_colours.h"

#include <algorithm>
#include <sstream>

#include "template_file.h"

namespace loomleaf {

std::string_view FuseColours::find(std::string_view family, Current rating) const {
  for (const FuseColour& colour : all)
    if (colour.rating == rating &&
        std::find(colour.families.begin(), colour.families.end(), family) != colour.families.end())
      return colour.name;
  return {};
}

Loaded<FuseColours> load_fuse_colours(const TemplateFolders& folders) {
  Loaded<FuseColours> loaded;
  const std::filesystem::path path = folders.find("stock", "fuse_colours.xml");
  if (path.empty()) {
    loaded.errors.push_back({"stock/fuse_colours.xml", 0, "this template is missing"});
    return loaded;
  }
  TemplateFile file(path, "fuse-colours");
  if (const pugi::xml_node root = file.root()) {
    file.only_attributes(root, {"format"});
    for (const pugi::xml_node code : file.children(root, {"code"})) {
      file.only_attributes(code, {"families"});
      FuseColour colour;
      std::istringstream words(file.text(code, "families").value_or(""));
      for (std::string word; words >> word;) colour.families.push_back(word);
      for (const pugi::xml_node row : file.children(code, {"colour"})) {
        file.only_attributes(row, {"amperes", "name", "source", "known"});
        colour.rating = amperes(file.number(row, "amperes", {0.01, 10000}).value_or(0.0));
        colour.name = file.text(row, "name").value_or("");
        colour.from = file.provenance(row);
        loaded.value.all.push_back(colour);
      }
    }
  }
  loaded.errors = file.take_errors();
  return loaded;
}

}  // namespace loomleaf
