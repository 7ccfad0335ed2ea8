/// A load file: what is taken out of a cell over time.
///
///     # comments
///     t_s, p_W        or i_A; positive takes out, negative puts in
///     2,   6.5        holds up to this time, from the row before (the first from 0)
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "cell/run_down.hpp"

namespace tideover::cell {

/// Problems with file, line and column; `file` is what they call it. Times must rise.
[[nodiscard]] base::Result<LoadProfile> read_load(std::string_view text, const std::string& file);

}  // namespace tideover::cell
