#include "part/switch/switch_position.hpp"

#include <utility>

namespace tideover::part {

using network::Reaction;
using network::Stimulus;

SwitchPosition::SwitchPosition(std::string part,
                               std::vector<std::vector<network::Handle<Resistance>>> contacts,
                               double closed_s, int lowest_position, int position)
    : part_(std::move(part)),
      contacts_(std::move(contacts)),
      closed_s_(closed_s),
      lowest_position_(lowest_position),
      position_(position) {}

void SwitchPosition::stimulated(Reaction& reaction, const Stimulus& stimulus) {
  if (stimulus.what != Stimulus::What::SwitchTo || stimulus.word != part_) return;
  const int ways = static_cast<int>(contacts_.front().size());
  const int wanted = stimulus.position;
  if (wanted == position_ || wanted < lowest_position_ || wanted > ways) return;
  position_ = wanted;
  for (const auto& pole : contacts_) {
    for (int way = 1; way <= ways; ++way) {
      const auto contact = pole[static_cast<std::size_t>(way - 1)];
      reaction.network().law(contact).conductance_s =
          way == wanted ? closed_s_ : open_conductance_s;
    }
  }
  reaction.mark(part_,
                wanted == 0 ? "is switched off" : "goes to position " + std::to_string(wanted),
                wanted == 0 ? network::Effect::Stops : network::Effect::Other);
}

}  // namespace tideover::part
