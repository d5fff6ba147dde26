#include "readers/known_names.hpp"

namespace firstdrop {

std::vector<KnownName> known_names(const std::map<std::string, Shared<Plant>>& plants) {
  std::vector<KnownName> all;
  for (const auto& [key, plant] : plants) {
    all.push_back({key, {plant->name, plant->latin}});
    all.back().also.insert(all.back().also.end(), plant->also.begin(), plant->also.end());
  }
  return all;
}

std::vector<KnownName> known_names(const std::map<std::string, Shared<Still>>& stills) {
  std::vector<KnownName> all;
  for (const auto& [key, still] : stills) all.push_back({key, {still->title}});
  return all;
}

std::vector<KnownName> known_names(const std::map<std::string, Liquid>& liquids) {
  std::vector<KnownName> all;
  for (const auto& [key, liquid] : liquids) {
    all.push_back({key, {liquid.name}});
    if (!liquid.cas.empty()) all.back().also.push_back(liquid.cas);
  }
  return all;
}

}  // namespace firstdrop
