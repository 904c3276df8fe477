// Keeps the kernel's messages off standard output.
// Entry: solid::silence_kernel.
#include "solid/quiet.h"

#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <mutex>

namespace fitup::solid {

void silence_kernel() {
  static std::once_flag once;
  std::call_once(once, [] { Message::DefaultMessenger()->ChangePrinters().Clear(); });
}

}  // namespace fitup::solid
