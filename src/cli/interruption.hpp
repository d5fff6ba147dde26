// Ctrl-C and its kind, for a command that works for long: it comes to an end of its own, with whole
// lines, and then ends as the signal would have ended it.
#pragma once

namespace firstdrop::cli {

/// While it lives, the first SIGINT, SIGTERM, SIGHUP or SIGQUIT only says that the program shall
/// end; the second ends it at once. Signals that were ignored before, as by nohup, stay so. There
/// can be one at a time.
class Interruption {
 public:
  Interruption();
  Interruption(const Interruption&) = delete;
  Interruption& operator=(const Interruption&) = delete;
  ~Interruption();

  /// May be asked from any thread.
  static bool asked();
  /// A file that can be read from as soon as it has been asked for, or wake() has been called.
  static int wake_file();
  static void wake();
  /// A file to remove where the second signal ends the program; null for none. The name must
  /// outlive this.
  static void remove_at_end(const char* name);

  /// Ends the program by the signal that asked for it, so that the shell sees what it was.
  [[noreturn]] static void end_program();
};

}  // namespace firstdrop::cli
