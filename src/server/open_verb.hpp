/// `tideover open`: the page of a project, served until the user stops it.
#pragma once

#include "service/verb.hpp"

namespace tideover::server {

[[nodiscard]] service::Verb open_verb();

}  // namespace tideover::server
