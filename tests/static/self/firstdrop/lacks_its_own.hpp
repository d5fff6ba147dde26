// Does not include what it uses.
#pragma once

inline std::string word() {
  return "word";
}
