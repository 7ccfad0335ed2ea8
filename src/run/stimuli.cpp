#include "run/stimuli.hpp"

#include <algorithm>

namespace tideover::run {

using build::Change;
using network::Stimulus;

namespace {

std::vector<std::string> adapters_of(const build::Build& build, const std::string& one) {
  if (!one.empty()) return {one};
  std::vector<std::string> names;
  for (const auto& part : build.parts) {
    if (part->description().name == "adapter") names.push_back(part->name);
  }
  return names;
}

}  // namespace

std::vector<Stimulus> stimuli_of(const build::Build& build, const Change& change) {
  using What = Stimulus::What;
  std::vector<Stimulus> stimuli;
  switch (change.what) {
    case Change::What::Mains:
      for (const std::string& name : adapters_of(build, change.part)) {
        if (change.mains == Change::Mains::Unplugged) {
          stimuli.push_back({.what = What::Unplugged, .word = name});
          continue;
        }
        stimuli.push_back({.what = What::PluggedIn, .word = name});
        const bool present = change.mains == Change::Mains::Present;
        stimuli.push_back({.what = present ? What::MainsBack : What::MainsLost, .word = name});
      }
      break;
    case Change::What::Switch:
      stimuli.push_back({.what = What::SwitchTo, .word = change.part, .position = change.position});
      break;
    case Change::What::Profile:
      stimuli.push_back({.what = What::ProfileTo, .word = change.profile, .part = change.part});
      break;
    case Change::What::Defects: break;
    case Change::What::Ambient:
      stimuli.push_back({.what = What::AmbientTo, .amount = change.ambient.si()});
      break;
  }
  return stimuli;
}

MainsState::MainsState(const build::Build& build) {
  for (const std::string& name : adapters_of(build, "")) adapters_.push_back({name});
}

void MainsState::apply(const Change& change) {
  if (change.what != Change::What::Mains) return;
  for (Adapter& adapter : adapters_) {
    if (change.part.empty() || change.part == adapter.name) adapter.mains = change.mains;
  }
}

bool MainsState::all_present() const {
  return std::all_of(adapters_.begin(), adapters_.end(), [](const Adapter& adapter) {
    return adapter.mains == Change::Mains::Present;
  });
}

std::string MainsState::words() const {
  if (adapters_.empty()) return "no adapter";
  if (all_present()) return "mains present";
  const auto is_absent = [](const Adapter& a) { return a.mains == Change::Mains::Absent; };
  if (std::all_of(adapters_.begin(), adapters_.end(), is_absent)) return "mains absent";
  std::string words;
  for (const Adapter& adapter : adapters_) {
    if (adapter.mains == Change::Mains::Present) continue;
    if (!words.empty()) words += ", ";
    words += adapter.name;
    words += adapter.mains == Change::Mains::Absent ? " without mains" : " unplugged";
  }
  return words;
}

}  // namespace tideover::run
