// SPDX-License-Identifier: MIT
#include "plugin_library.hpp"

#include <dlfcn.h>
#include <unistd.h>

#include <array>
#include <climits>

#include "files.hpp"

namespace turnwright::cli {
namespace {

std::string folder_of_program() {
  std::array<char, PATH_MAX> path{};
  const ssize_t n = readlink("/proc/self/exe", path.data(), path.size());
  const std::string program(path.data(), n > 0 ? static_cast<std::size_t>(n) : 0);
  return program.substr(0, program.rfind('/') + 1);
}

// Beside the program as it was built, or where it is installed.
std::string find(const std::string& file) {
  const std::string folder = folder_of_program();
  for (const std::string& path :
       {folder + file, folder + "../" + TURNWRIGHT_PLUGIN_FOLDER + "/" + file})
    if (exists(path)) return path;
  return "";
}

}  // namespace

PluginLibrary::PluginLibrary(const std::string& file) : path_(find(file)) {
  if (path_.empty()) return;
  library_ = dlopen(path_.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (const char* why = library_ == nullptr ? dlerror() : nullptr; why != nullptr) why_ = why;
}

void* PluginLibrary::symbol(const char* name) const {
  return library_ == nullptr ? nullptr : dlsym(library_, name);
}

}  // namespace turnwright::cli
