#include "part/connector/plug.hpp"

#include <utility>

namespace tideover::part {

using network::Stimulus;

Plug::Plug(std::string part, std::vector<network::Handle<Resistance>> contacts, double closed_s,
           bool is_in)
    : part_(std::move(part)), contacts_(std::move(contacts)), closed_s_(closed_s), is_in_(is_in) {}

void Plug::stimulated(network::Reaction& reaction, const Stimulus& stimulus) {
  const bool goes_in = stimulus.what == Stimulus::What::PluggedIn;
  const bool goes_out = stimulus.what == Stimulus::What::Unplugged;
  if ((!goes_in && !goes_out) || stimulus.word != part_ || goes_in == is_in_) return;
  is_in_ = goes_in;
  for (const auto contact : contacts_) {
    reaction.network().law(contact).conductance_s = is_in_ ? closed_s_ : open_conductance_s;
  }
  reaction.mark(part_, is_in_ ? "is plugged in" : "is unplugged",
                is_in_ ? network::Effect::Resumes : network::Effect::Stops);
}

}  // namespace tideover::part
