#include "cli/program.hpp"

#include <algorithm>
#include <cstdio>
#include <exception>

#include "base/contract.hpp"
#include "cli/command_line.hpp"
#include "cli/completion.hpp"
#include "cli/terminal.hpp"

namespace tideover::cli {

using service::Reply;
using service::Status;

namespace {

/// False if it could not be written whole: a full disk, a closed pipe.
bool print(std::string_view text) {
  return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() &&
         std::fflush(stdout) == 0;
}

void talk(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stderr); }

void tell_problems(const base::Problems& problems) {
  const Stream stream = standard_error();
  for (const base::Problem& problem : problems) {
    std::string text = base::show(problem);
    if (problem.place.file.empty() && problem.place.line == 0) text.insert(0, "tideover: ");
    if (stream.is_coloured) text.insert(0, "\x1b[31m").append("\x1b[0m");
    talk(text);
    if (!text.ends_with('\n')) talk("\n");
  }
}

int status_of(Status status) { return static_cast<int>(status); }

bool print_lines(const Reply& reply) {
  const Stream stream = standard_output();
  std::string text;
  for (const service::Line& line : reply.lines) text += printed(line, stream);
  if (!reply.written.empty()) text += "\n";
  for (const auto& path : reply.written) text += "Written: " + path.string() + "\n";
  return print(text);
}

Reply reply_to(const service::Request& request, const Verbs& faces, base::Progress& progress) {
  const auto face = std::ranges::find(faces, request.verb, &service::Verb::name);
  if (face != faces.end()) return face->answer(request, progress);
  return service::answer(request, progress);
}

int ask(const Call& call, const Verbs& faces) {
  listen_for_interrupt();
  Reply reply;
  {
    ProgressBar progress(standard_error());
    reply = reply_to(call.request, faces, progress);
  }
  bool is_printed = true;
  if (!reply.document.empty()) {
    is_printed = print(reply.document);
  } else if (call.as_json) {
    is_printed = print(write_json(reply.json, service::Layout::Indented) + "\n");
  } else {
    is_printed = print_lines(reply);
  }
  tell_problems(reply.problems);
  if (!is_printed) {
    talk("tideover: the answer could not be written\n");
    return status_of(Status::Refused);
  }
  return status_of(reply.status);
}

int carry_out(const std::vector<std::string>& words, const Verbs& faces) {
  Verbs verbs = service::verbs();
  verbs.insert(verbs.end(), faces.begin(), faces.end());
  const auto call = read_command_line(words, verbs);
  if (!call) {
    tell_problems(call.problems());
    return status_of(Status::Refused);
  }
  const Call& read = call.value();
  switch (read.what) {
    case Call::What::Ask: return ask(read, faces);
    case Call::What::Print: return print(read.text) ? 0 : status_of(Status::Refused);
    case Call::What::Completion: break;
  }
  return print(completion_script(read.text, verbs)) ? 0 : status_of(Status::Refused);
}

}  // namespace

int run_program(const std::vector<std::string>& words, const Verbs& faces) {
  try {
    return carry_out(words, faces);
  } catch (const base::ContractFault& fault) {
    talk("tideover: a fault inside the program; please report it with the sheet: " +
         std::string(fault.what()) + "\n");
  } catch (const std::exception& error) {
    talk("tideover: an error inside the program: " + std::string(error.what()) + "\n");
  }
  return status_of(Status::OurFault);
}

}  // namespace tideover::cli
