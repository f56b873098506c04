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

PluginLibrary::PluginLibrary(const Plugin& plugin) {
  const std::string path = find(plugin.file);
  if (path.empty()) {
    fault_ = {plugin.missing, {{"file", plugin.file}, {"package", plugin.build_package}}};
    return;
  }
  library_ = dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (library_ == nullptr) {
    const char* why = dlerror();
    fault_ = {plugin.not_loaded,
              {{"package", plugin.runtime_package}, {"why", why != nullptr ? why : ""}}};
    return;
  }
  other_version_ = {plugin.other_version, {{"file", path}}};
  auto* const count = function<int()>(plugin.version_function);
  if (count != nullptr && count() != plugin.version) fault_ = other_version_;
}

void* PluginLibrary::symbol(const char* name) {
  if (!fault_.empty()) return nullptr;
  void* const found = dlsym(library_, name);
  if (found == nullptr) fault_ = other_version_;
  return found;
}

}  // namespace turnwright::cli
