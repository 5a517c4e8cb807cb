// What is typed at a terminal, byte by byte, and what the terminal signals meanwhile.
#pragma once

namespace halfsplit::cli {

// While a line is edited, signals of the terminal are noted, and only where a key is waited for: libedit
// would lay its screen out anew inside the handler, where memory may be just about to be allocated.
class TerminalSignals {
  public:
    TerminalSignals();
    ~TerminalSignals();  // what comes from here on is handled as before
    TerminalSignals(const TerminalSignals&) = delete;
    TerminalSignals& operator=(const TerminalSignals&) = delete;
};

// Stop: Ctrl-Z. Continued: after a stop that nobody could see coming. End: nothing more is typed.
enum class Came { Byte, Resize, Stop, Continued, End };
Came wait_for_byte(char& byte);

// As Ctrl-Z does; returns once the program is let go on, at once where nobody could do that.
void stop();

}  // namespace halfsplit::cli
