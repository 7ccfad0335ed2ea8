#include "cell/lot.hpp"

namespace tideover::cell {

std::string lot_caution(part::Chemistry chemistry) {
  if (chemistry == part::Chemistry::LeadAcid) {
    return "Lead-acid batteries hold acid and give off gas that explodes: charge them in moving "
           "air, away from sparks, with glasses on. Local rules on waste and transport come first.";
  }
  return "Lithium cells burn when they are shorted, crushed, overcharged or charged after having "
         "been empty for long. Test them on a surface that does not burn, never alone overnight, "
         "and stop a cell that gets warm, swells, leaks or smells. Numbers clear no cell of damage "
         "that cannot be measured. Local rules on waste and transport come first; if in doubt ask "
         "somebody licensed.";
}

}  // namespace tideover::cell
