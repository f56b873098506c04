// SPDX-License-Identifier: MIT
#pragma once
// A shared library beside the program, or where it is installed, with what few commands need.
#include <string>

namespace turnwright::cli {

class PluginLibrary {
 public:
  explicit PluginLibrary(const std::string& file);
  /// "": there is none.
  const std::string& path() const { return path_; }
  /// Why it cannot be loaded; "": it is.
  const std::string& why() const { return why_; }
  template <class Function>
  Function* function(const char* name) const {
    return reinterpret_cast<Function*>(symbol(name));
  }

 private:
  void* symbol(const char* name) const;
  std::string path_, why_;
  void* library_ = nullptr;
};

}  // namespace turnwright::cli
