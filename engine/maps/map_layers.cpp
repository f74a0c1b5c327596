#include "engine/maps/map_layers.h"

namespace hummock::maps {

const std::vector<LayerInfo>& layers() {
  static const std::vector<LayerInfo> infos = [] {
    std::vector<LayerInfo> list;
    for (const Layer* layer : all_layers()) list.push_back(*layer);
    return list;
  }();
  return infos;
}

geom::Raster compute(const Model& model, const std::string& name, const CheckOptions& options,
                     const Progress& progress) {
  std::string allowed;
  for (const Layer* layer : all_layers()) {
    if (layer->name == name) return layer->make(model, resolve(model.site, options), progress);
    allowed += (allowed.empty() ? "" : ", ") + layer->name;
  }
  throw InputError({"", 0, "LAYER"}, "\"" + name + "\"", allowed);
}

std::vector<Assumption> rests_on(const Model& model, const std::string& name) {
  for (const Layer* layer : all_layers()) {
    if (layer->name == name && layer->rests_on != nullptr) return layer->rests_on(model);
  }
  return {};
}

}  // namespace hummock::maps
