/// A good dealing of a lot of any size, by exchanging items.
///
/// It begins with the strongest items, each in falling order to the group that holds least so far
/// and has room. Then the weakest group takes, from any other or from the spares, the item that
/// helps it most without making another as weak; and the strongest gives away what lowers it most
/// without weakening any below the weakest. Where neither is left, a few items change places by
/// chance, and what comes of it is kept unless it is worse.
///
/// Local search in the manner of Lin and Kernighan, repeated as in Lourenco, Martin and Stutzle,
/// "Iterated local search", 2003 (both from memory). The chance is a generator of fixed seed, and
/// the effort is counted in exchanges looked at: the same lot gives the same groups everywhere.
#pragma once

#include "numeric/grouping.hpp"

namespace tideover::numeric {

/// As long as `effort` exchanges to look at, an exchange under bands counting for several. Ends
/// earlier where the weakest group reaches `bound` and nothing is spread. Fills groups and
/// keeps_bands only.
[[nodiscard]] Grouping exchange_items(const GroupingProblem& problem, double bound, long effort,
                                      base::Progress& progress);

}  // namespace tideover::numeric
