// SPDX-License-Identifier: MIT
#pragma once
// Reads solid models by the plug-in, each in a child process of bounded time and memory: a model
// comes from outside, and the library that reads it was not written against hostile files.
#include <string>

#include "step/boundary.hpp"
#include "turnwright/draft/recognition.hpp"

namespace turnwright::cli {

/// The plug-in, loaded once.
class ModelPlugin {
 public:
  ModelPlugin();
  /// Why it is not there; empty: it is.
  const Message& fault() const { return fault_; }
  step::ReadFunction* read() const { return read_; }

 private:
  step::ReadFunction* read_ = nullptr;
  Message fault_;
};

struct ModelOptions {
  int solid = 0;  // of several, from 1; 0: the only one
  bool flip = false;
  int seconds = 60;  // wall clock, a model
};

/// A model, or why it could not be read.
struct ModelAnswer {
  std::optional<Recognition> model;
  Message fault;
};

/// A model being read.
class ModelReading {
 public:
  ModelReading(const ModelPlugin& plugin, const std::string& path, const ModelOptions& options);
  ModelReading(ModelReading&& other) noexcept;
  ModelReading& operator=(ModelReading&&) = delete;
  ~ModelReading();
  ModelAnswer wait();

 private:
  int child_ = -1, answer_ = -1, seconds_ = 0;
};

}  // namespace turnwright::cli
