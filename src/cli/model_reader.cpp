// SPDX-License-Identifier: MIT
#include "model_reader.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <utility>

#include "files.hpp"
#include "plugin_library.hpp"

namespace turnwright::cli {
namespace {

constexpr Plugin step_plugin{"libturnwright-step.so",     "libocct-data-exchange-dev",
                             "libocct-data-exchange-7.6", step::version_name,
                             step::boundary_version,      "draft.no-plugin",
                             "draft.no-library",          "draft.other-plugin"};
constexpr rlim_t most_memory = rlim_t{4} << 30;  // address space; a 100 MB model needs about half
constexpr rlim_t most_answer = rlim_t{256} << 20;

// A lower bound of the caller's stays.
void bound(int resource, rlim_t most) {
  const auto which = static_cast<__rlimit_resource>(resource);
  rlimit limit{};
  getrlimit(which, &limit);
  limit.rlim_cur = std::min(limit.rlim_cur, most);
  limit.rlim_max = std::min(limit.rlim_max, most);
  setrlimit(which, &limit);
}

// What holds in the child whatever the model does to it.
void confine(int seconds) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  for (const int signal : {SIGALRM, SIGXCPU, SIGSEGV, SIGABRT, SIGFPE})
    std::signal(signal, SIG_DFL);
#if !defined(__SANITIZE_ADDRESS__) && !defined(TURNWRIGHT_SANITIZED)
  bound(RLIMIT_AS, most_memory);
#endif
  bound(RLIMIT_CORE, 0);
  bound(RLIMIT_FSIZE, most_answer);
  bound(RLIMIT_CPU, static_cast<rlim_t>(seconds) + 1);
  alarm(static_cast<unsigned>(seconds));
  // The library talks on both.
  if (const int nothing = open("/dev/null", O_WRONLY | O_CLOEXEC); nothing >= 0) {
    dup2(nothing, STDOUT_FILENO);
    dup2(nothing, STDERR_FILENO);
  }
}

enum class ChildStatus { failed, done, no_memory };  // as the plug-in's function answers

std::string whole_text(int descriptor) {
  std::string text;
  std::array<char, 1 << 16> buffer{};
  lseek(descriptor, 0, SEEK_SET);
  for (ssize_t n = 0; (n = read(descriptor, buffer.data(), buffer.size())) > 0;)
    text.append(buffer.data(), static_cast<std::size_t>(n));
  return text;
}

Message fault_of(int status, int seconds) {
  if (WIFSIGNALED(status)) {
    const int signal = WTERMSIG(status);
    if (signal == SIGALRM || signal == SIGXCPU || signal == SIGKILL)
      return {"draft.too-long", {{"seconds", seconds}}};
    return "draft.crashed";
  }
  if (!WIFEXITED(status)) return "draft.crashed";
  switch (static_cast<ChildStatus>(WEXITSTATUS(status))) {
    case ChildStatus::done:
      return {};
    case ChildStatus::no_memory:
      return "draft.no-memory";
    default:
      return "draft.unreadable";
  }
}

}  // namespace

ModelPlugin::ModelPlugin() {
  PluginLibrary library(step_plugin);
  read_ = library.function<step::ReadFunction>(step::read_name);
  fault_ = library.fault();
}

ModelReading::ModelReading(const ModelPlugin& plugin, const std::string& path,
                           const ModelOptions& options)
    : seconds_(options.seconds) {
  answer_ = memfd_create("model", MFD_CLOEXEC);
  if (answer_ < 0) throw DiskFailed("draft.no-child");
  child_ = fork();
  if (child_ < 0) throw DiskFailed("draft.no-child");
  if (child_ > 0) return;
  confine(options.seconds);
  const step::ModelRequest request{path.c_str(), options.solid, options.flip ? 1 : 0, answer_};
  _exit(plugin.read()(&request));
}

ModelReading::ModelReading(ModelReading&& other) noexcept
    : child_(std::exchange(other.child_, -1)),
      answer_(std::exchange(other.answer_, -1)),
      seconds_(other.seconds_) {}

ModelReading::~ModelReading() {
  if (child_ > 0) {
    kill(child_, SIGKILL);
    waitpid(child_, nullptr, 0);
  }
  if (answer_ >= 0) close(answer_);
}

ModelAnswer ModelReading::wait() {
  int status = 0;
  while (waitpid(child_, &status, 0) < 0 && errno == EINTR) {
  }
  child_ = -1;
  if (Message fault = fault_of(status, seconds_); !fault.empty())
    return {std::nullopt, std::move(fault)};
  ModelAnswer answer{read_recognition(whole_text(answer_)), {}};
  if (!answer.model) answer.fault = "draft.crashed";
  return answer;
}

}  // namespace turnwright::cli
