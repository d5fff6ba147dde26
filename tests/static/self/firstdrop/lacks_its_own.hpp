// Uses std::string without including <string>.
#pragma once

inline std::string word() {
  return "word";
}
