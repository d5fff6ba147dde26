// Handles Ctrl-C and similar signals in a command that runs for long. The command ends in order,
// with complete lines of output. Then the program ends as the signal would have ended it.
#pragma once

namespace firstdrop::cli {

/// While it exists, the first SIGINT, SIGTERM, SIGHUP or SIGQUIT only asks the program to end. The
/// second ends it at once. Signals that were ignored before, for example by nohup, stay ignored.
/// Only one of these may exist at a time.
class Interruption {
 public:
  Interruption();
  Interruption(const Interruption&) = delete;
  Interruption& operator=(const Interruption&) = delete;
  ~Interruption();

  /// Whether a signal has asked the program to end. May be called from any thread.
  static bool asked();
  /// A file descriptor that can be read from once a signal has come or wake() has been called.
  static int wake_file();
  static void wake();
  /// Names a file to remove if the second signal ends the program; null for none. The text must
  /// outlive this object.
  static void remove_at_end(const char* name);

  /// Ends the program by the signal that was caught, so that the shell sees which one it was.
  [[noreturn]] static void end_program();
};

}  // namespace firstdrop::cli
