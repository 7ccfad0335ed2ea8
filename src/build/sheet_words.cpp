#include "build/sheet_words.hpp"

#include "quantity/units.hpp"

namespace tideover::build {

using quantity::Kelvin;
using quantity::Ratio;
using quantity::Second;
using quantity::Temperature;

const std::vector<std::string>& mains_words() {
  static const std::vector<std::string> words{"present", "absent", "unplugged"};
  return words;
}

const std::vector<std::string>& until_words() {
  static const std::vector<std::string> words{"first load lost", "all loads lost", "pack cut off",
                                              "pack full", "loads served"};
  return words;
}

const std::vector<std::string>& sheet_keys() {
  static const std::vector<std::string> keys{"sheet", "needs",     "parts", "leads",
                                             "joins", "timelines", "start"};
  return keys;
}

const std::vector<std::string>& stretch_keys() {
  static const std::vector<std::string> keys{"mains",   "switches", "profiles",
                                             "ambient", "lasts",    "until"};
  return keys;
}

const part::AmountField& stretch_length() {
  static const part::AmountField field{Second::dimension,        false, false, 1e-6,
                                       100.0 * 365.25 * 86400.0, {}};
  return field;
}

const part::AmountField& stretch_ambient() {
  static const part::AmountField field{Kelvin::dimension,
                                       true,
                                       false,
                                       Temperature::of_celsius(-40.0).si(),
                                       Temperature::of_celsius(70.0).si(),
                                       {}};
  return field;
}

const part::AmountField& start_charge() {
  static const part::AmountField field{Ratio::dimension, false, false, 0.0, 1.0, {}};
  return field;
}

const part::AmountField& start_temperature() { return stretch_ambient(); }

}  // namespace tideover::build
