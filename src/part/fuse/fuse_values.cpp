// The values of a fuse; its equations are in fuse.cpp.

#include "part/fuse/fuse.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& FuseGate::describe() {
  static const Description description =
      Describe<FuseGate>("fuse gate", "A band of opening times at one multiple of rated current.")
          .value("multiple", &FuseGate::multiple, {0.5_ratio, 1000.0_ratio},
                 "current as a multiple of rated current")
          .required()
          .value("at_least", &FuseGate::at_least, {0.0_s, 1000.0_d}, "it opens no sooner",
                 "no limit")
          .value("at_most", &FuseGate::at_most, {0.0_s, 1000.0_d}, "it opens no later",
                 "it need not open")
          .done();
  return description;
}

const Description& Fuse::describe() {
  static const Description description =
      Describe<Fuse>("fuse", "Opens for good when too much current has flowed too long.")
          .value("rated", &Fuse::rated, {10.0_mA, 100.0_A}, "rated current")
          .required()
          .choice("style", &Fuse::style, words_for_fuse_styles(),
                  "standard whose time-current gates it keeps", "assumed")
          .records("gates", &Fuse::gates, 0, 12, "gates of its own, from its datasheet")
          .choice("law", &Fuse::law, {"earliest", "latest", "middle"},
                  "which edge of its gates a run takes", "between both")
          .value("resistance", &Fuse::resistance, {0.0_Ohm, 1.0_kOhm}, "cold resistance",
                 "0.1 V over rated current: typical, from memory")
          .value("warm_share", &Fuse::warm_share, {0.0_ratio, 5.0_ratio},
                 "how much more resistance it has just before it opens", "typical, from memory")
          .value("melting", &Fuse::melting,
                 {AmpereSquaredSecond::of_si(0.0), AmpereSquaredSecond::of_si(1e7)},
                 "melting I2t, for openings within milliseconds", "from the gates")
          .value("rated_voltage", &Fuse::rated_voltage, {0.0_V, 1000.0_V},
                 "voltage at which it may be used", "unknown")
          .value("breaking_dc", &Fuse::breaking_dc, {0.0_A, 200000.0_A},
                 "direct current it can break at its rated voltage",
                 "unknown: a breaking capacity at alternating current implies none")
          .value("breaking_ac", &Fuse::breaking_ac, {0.0_A, 200000.0_A},
                 "alternating current it can break at its rated voltage", "unknown")
          .value("derating", &Fuse::derating, {PerKelvin::of_si(0.0), PerKelvin::of_si(0.02)},
                 "share of its rated current lost per kelvin of air above 23 degC",
                 "typical of 5x20 mm fuses, from memory")
          .flag("blown", &Fuse::blown, "it is open from the start", "whole")
          .with(fields_of_every_part())
          .done();
  return description;
}

}  // namespace tideover::part
