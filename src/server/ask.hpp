/// A verb's answer as a stream of lines: progress, answers so far, the answer.
#pragma once

#include "server/http.hpp"
#include "service/verb.hpp"

namespace tideover::server {

/// Has the request answered and sends {"progress", "words"} and {"partial"} as they come and what
/// the outlet can take, then {"status", "answer", "lines", "problems"}. Stops when nobody listens.
void ask(service::Request request, Outlet& outlet);

}  // namespace tideover::server
