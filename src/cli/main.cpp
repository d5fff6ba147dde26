// The program: reads the command line, calls one command, turns failures into exit statuses.
#include <fmt/core.h>
#include <unistd.h>

#include <exception>
#include <new>
#include <string_view>
#include <system_error>

#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/parser.hpp"
#include "firstdrop/base/error.hpp"

namespace {

using namespace firstdrop;

int run(int argc, char** argv) {
  cli::Parser parser;
  if (const auto page = parser.parse(argc, argv)) {
    cli::write_result(*page);
    return cli::done;
  }
  return parser.options().run(cli::TableFolder(parser.options().data));
}

/// Whether the system refused to start a thread. Nothing else gives this error code.
bool is_of_a_thread(const std::exception& error) {
  const auto* of_system = dynamic_cast<const std::system_error*>(&error);
  return of_system != nullptr && of_system->code() == std::errc::resource_unavailable_try_again;
}

/// Reports that memory ran out. Allocates no memory itself.
void out_of_memory() {
  constexpr std::string_view words =
      "firstdrop: out of memory; raise the limit of this shell (ulimit -v), or ask for fewer "
      "--samples or --jobs\n";
  if (::write(STDERR_FILENO, words.data(), words.size()) < 0) return;  // nowhere else to report it
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const cli::UsageError& error) {
    cli::say(fmt::format("firstdrop: {}\nTry `firstdrop --help`.\n", visible(error.what())));
    return cli::bad_input;
  } catch (const InputError& error) {
    for (const Fault& fault : error.faults()) cli::say("firstdrop: " + fault.text() + "\n");
    return cli::bad_input;
  } catch (const RangeError& error) {
    cli::say(fmt::format("firstdrop: {}\n", error.what()));
    return cli::bad_input;
  } catch (const std::bad_alloc&) {
    out_of_memory();
    return cli::system_failed;
  } catch (const std::exception& error) {
    if (is_of_a_thread(error)) {
      cli::say(
          "firstdrop: cannot start another thread; ask for fewer with --jobs, or raise the limits "
          "of this shell (ulimit -u, ulimit -v)\n");
      return cli::system_failed;
    }
    cli::say(fmt::format("firstdrop: {}\n", error.what()));
    return cli::system_failed;
  }
}
