#include "service/schema_verb.hpp"

#include "build/schema.hpp"
#include "shelf/shelf.hpp"

namespace tideover::service {

namespace {

Reply schema(const Request&, base::Progress&) {
  Reply reply;
  reply.document = build::sheet_schema(shelf::built_in_shelf());
  return reply;
}

}  // namespace

Verb schema_verb() {
  return {"schema", "print the JSON Schema of build sheets",
          "Prints the JSON Schema of build sheets, from which editors complete and check them. It "
          "is made from the same descriptions as the reader.",
          false, schema};
}

}  // namespace tideover::service
