#include <algorithm>

#include "build/parts_of.hpp"
#include "papers/report_sections.hpp"
#include "part/pack/pack.hpp"

namespace tideover::papers {

namespace {

bool has_lithium(const build::Build& build) {
  return std::ranges::any_of(build::parts_of<part::Pack>(build), [](const part::Pack* pack) {
    return pack->cell.chemistry != part::Chemistry::LeadAcid;
  });
}

}  // namespace

void write_limits(const ReportMatter&, Page& page) {
  page.begin_section("limits", "What the tool cannot know");
  page.list({
      "Whether the values are those of your parts. A capacity that was measured on a tester counts "
      "for more than one that was printed on a sleeve.",
      "Bad joints: a loose screw, a cold solder joint or a worn plug has whatever resistance it "
      "has. "
      "Measure the drop over every joint under load.",
      "How cells age in this very use. The end of life is taken as stated on the sheet or the "
      "shelf, "
      "not predicted.",
      "What the devices do inside: inrush, restarts, bursts that the sheet does not mention.",
      "Interference, earth loops and the switching noise of converters: currents and voltages are "
      "means over a switching period.",
      "The insides of the adapters beyond what their label and your measurements say.",
      "Damp, salt, vermin, vibration, sunlight on the box, and people.",
  });
  page.paragraph(
      "Figures have no band here: every value is taken at its nominal size. Compare with your "
      "meter "
      "before you rely on them.");
  page.end_section();
}

void write_cautions(const ReportMatter& matter, Page& page) {
  page.begin_section("cautions", "Cautions");
  if (has_lithium(matter.build)) {
    page.caution(
        "Lithium cells burn",
        {"Use matched cells of known origin with a protection board that watches every group, and "
         "a "
         "charger set to the cells' own limits.",
         "Never charge them below 0 degC or above what their datasheet allows; never use a cell "
         "that "
         "is dented, swollen, leaking, or has been below its lowest voltage for long.",
         "Weld or clip the cells; do not solder to them. Cover every bare end: a pack gives its "
         "full "
         "short-circuit current as long as you work on it.",
         "Charge the finished pack for the first time under your eyes, on a surface that does not "
         "burn, with a way to take it outside. Keep a smoke alarm nearby; water cools, and the "
         "fumes "
         "are poisonous."});
  } else if (build::first_of<part::Pack>(matter.build) != nullptr) {
    page.caution("Batteries", {"Charging gives off hydrogen: let air through, keep sparks away.",
                               "The acid burns eyes and skin. Wear goggles; rinse with water.",
                               "A short circuit gives hundreds of amperes. Take off rings, cover "
                               "terminals, fuse the plus as near to it as can be."});
  }
  page.caution(
      "Heat, fuses, mains",
      {"Put the main fuse next to the pack, with a DC breaking capacity above the pack's "
       "short-circuit current. A fuse that is rated for AC only promises nothing on DC.",
       "Warm parts need air: leave vents free, and measure temperatures in the closed box on the "
       "first long run.",
       "Mains adapters are bought, certified parts: do not open them, and use them within their "
       "label. Nothing here is about mains wiring.",
       "This is help with computing, no approval. Local codes and rules come first; where they ask "
       "for licensed practice, have the work done or checked by someone who holds the licence."});
  page.end_section();
}

}  // namespace tideover::papers
