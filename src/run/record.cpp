#include "run/record.hpp"

namespace tideover::run {

int Record::find(std::string_view part, std::string_view name) const {
  for (std::size_t c = 0; c < channels.size(); ++c) {
    if (channels[c].part == part && channels[c].name == name) return static_cast<int>(c);
  }
  return -1;
}

}  // namespace tideover::run
