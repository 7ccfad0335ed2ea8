#include "part/description.hpp"

namespace tideover::part {

const Field* Description::find(std::string_view key) const {
  for (const Field& field : fields) {
    if (field.key == key) return &field;
  }
  return nullptr;
}

}  // namespace tideover::part
