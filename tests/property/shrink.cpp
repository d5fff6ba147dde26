#include "shrink.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace property {
namespace {

using Document = nlohmann::json;
using Pointer = Document::json_pointer;

/// Pointers to all values of the document, the outer ones first.
void collect(const Document& at, const Pointer& pointer, std::vector<Pointer>& into) {
  if (at.is_object()) {
    for (const auto& [key, value] : at.items()) into.push_back(pointer / key);
    for (const auto& [key, value] : at.items()) collect(value, pointer / key, into);
  } else if (at.is_array()) {
    for (std::size_t i = 0; i < at.size(); ++i) into.push_back(pointer / i);
  }
}

/// The number rounded to this many significant digits.
double to_digits(double x, int digits) {
  if (x == 0.0) return 0.0;
  const double scale = std::pow(10.0, digits - 1 - std::floor(std::log10(std::abs(x))));
  return std::round(x * scale) / scale;
}

std::string plain(double x) {
  return std::abs(x) >= 1e4 ? fmt::format("{:.0f}", x) : fmt::format("{:.4g}", x);
}

/// Simpler values to try instead of this one.
std::vector<Document> simpler(const Document& value) {
  std::vector<Document> results;
  if (value.is_object() && value.contains("typical") && value.contains("unit")) {
    const auto unit = value["unit"].get<std::string>();
    results.push_back(plain(value["typical"].get<double>()) + ' ' + unit);
    Document exact = value;
    exact["low"] = exact["high"] = exact["typical"];
    exact.erase("scale");
    results.push_back(std::move(exact));
  }
  if (value.is_number_float()) {
    for (const int digits : {1, 2, 3}) results.push_back(to_digits(value.get<double>(), digits));
  }
  if (value.is_string()) {
    const std::string& text = value.get_ref<const std::string&>();
    const std::size_t space = text.find(' ');
    if (!text.empty() && text[0] >= '0' && text[0] <= '9' && space != std::string::npos) {
      const double number = std::atof(text.c_str());
      for (const int digits : {1, 2, 3}) {
        results.push_back(plain(to_digits(number, digits)) + text.substr(space));
      }
    }
  }
  return results;
}

/// The document with a shipped plant or still, which needs no description.
std::vector<Document> with_shipped(const Document& document) {
  std::vector<Document> results;
  if (document.contains("plant")) {
    for (const char* plant : {"lavender", "peppermint"}) {
      Document other = document;
      other["plant"] = plant;
      results.push_back(other);
      other.erase("state");
      other.erase("cut");
      results.push_back(std::move(other));
    }
  }
  if (document.contains("still")) {
    for (const char* still : {"bench-column", "bench-basket", "glass-bench", "herb-pot"}) {
      Document other = document;
      other["still"] = still;
      results.push_back(other);
      other.erase("method");
      results.push_back(std::move(other));
    }
  }
  return results;
}

}  // namespace

std::size_t size_of(const Document& document) {
  const std::string text = document.dump();
  return text.size() - static_cast<std::size_t>(std::count(text.begin(), text.end(), '0'));
}

Document shrink(Document document, const std::function<bool(const Document&)>& fails) {
  std::size_t size = size_of(document);
  const auto take = [&](const Document& other) {
    const std::size_t other_size = size_of(other);
    if (other_size >= size || !fails(other)) return false;
    document = other;
    size = other_size;
    return true;
  };
  for (bool smaller = true; smaller;) {
    smaller = false;
    for (const Document& other : with_shipped(document)) smaller = take(other) || smaller;
    std::vector<Pointer> places;
    collect(document, Pointer(), places);
    for (const Pointer& place : places) {
      if (!document.contains(place)) continue;  // removed with its parent
      Document without = document;
      Document& parent = without.at(place.parent_pointer());
      if (parent.is_array()) {
        parent.erase(std::stoul(place.back()));
      } else {
        parent.erase(place.back());
      }
      if (take(without)) {
        smaller = true;
        continue;
      }
      for (const Document& value : simpler(document.at(place))) {
        Document other = document;
        other.at(place) = value;
        if (take(other)) {
          smaller = true;
          break;
        }
      }
    }
  }
  return document;
}

}  // namespace property
