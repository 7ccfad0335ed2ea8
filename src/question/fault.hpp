/// The single faults of a build: what may go wrong with every part, every lead and every wire that
/// may chafe. The method is that of IEC 60812 (failure modes and effects analysis): one fault at a
/// time, its effect on what the build is for.
#pragma once

#include <string>
#include <vector>

#include "build/variation.hpp"

namespace tideover::question {

struct Fault {
  enum class About { Part, Lead, Chafe };
  About about{};
  std::string subject;         ///< the part's or lead's name
  std::string mode;            ///< "work contact welded", "comes off", "chafed to the common"
  std::string means;           ///< what that does, in a sentence's words
  build::Variation variation;  ///< its damage is latent (Defect::arises_later)
  bool can_arise = false;      ///< at any instant; else it is there from the first one on
  std::string looks = {};      ///< what the open box shows of it without a meter; empty: nothing
  /// As the table calls it: "f_sea: bridged".
  [[nodiscard]] std::string words() const { return mode.empty() ? subject : subject + ": " + mode; }
};

/// Of every part each failure mode of its kind, unless it damages nothing but terminals that no
/// wire reaches; of every lead that it comes off, that a screw of it is loose (part::poor_contact),
/// and, unless it is itself a part of the common, that it has chafed through to the common
/// (part::bridge); of a lead at the cells that it touches their minus, before any board. In the
/// order of the sheet.
[[nodiscard]] std::vector<Fault> faults_of(const build::Build& build);

}  // namespace tideover::question
