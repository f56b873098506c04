// SPDX-License-Identifier: MIT
#pragma once
// A shared library beside the program, or where it is installed, with what few commands need.
#include "turnwright/quantity/message.hpp"

namespace turnwright::cli {

/// Which library it is, the function that counts the versions of what both sides agree on, and what
/// to say where it cannot be used.
struct Plugin {
  const char* file;
  const char *build_package, *runtime_package;  // that hold what it needs
  const char* version_function;
  int version;
  const char *missing, *not_loaded, *other_version;  // messages
};

class PluginLibrary {
 public:
  explicit PluginLibrary(const Plugin& plugin);
  /// Why it cannot be used; empty: it can.
  const Message& fault() const { return fault_; }
  /// Null where it cannot be used, or has no such function: then that is its fault.
  template <class Function>
  Function* function(const char* name) {
    return reinterpret_cast<Function*>(symbol(name));
  }

 private:
  void* symbol(const char* name);
  Message other_version_;
  Message fault_;
  void* library_ = nullptr;
};

}  // namespace turnwright::cli
