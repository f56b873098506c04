// SPDX-License-Identifier: MIT
#pragma once
// The command line, read. The only header beside options.cpp that speaks of options.
#include <string>
#include <vector>

#include "turnwright/output/words.hpp"
#include "turnwright/quantity/message.hpp"

namespace turnwright::cli {

struct Options {
  std::string command;
  std::vector<std::string> operands;
  std::string shop;
  std::string machine;
  std::string output;
  std::string language;
  std::string workbooks, columns;
  std::string posted, booked, now;
  std::string without, down;  // an order, a machine with two days
  std::string week, since;
  std::string method, methods;
  std::string rule;
  // Of one cut and of the speed card.
  std::string tool, at, ra, stick_out, clamping, coolant, condition, materials, diameters, date;
  int quantity = 0;   // 0: the part's middle one
  int weeks = 0;      // of a plan that are shown; 0: all
  int jobs = 0;       // 0: as many as the machine has
  int solid = 0;      // of a model; 0: the only one
  int seconds = 60;   // that a model may take
  double effort = 1;  // of the usual search
  bool inch = false, metric = false;
  bool operations = false;  // are the events of a calendar, else orders
  bool takes_shop = false;  // the command works with a shop folder
  bool json = false, full = false, why = false, list = false, working = false, interrupted = false,
       flip = false, provisional = false, help = false, version = false;
};

/// The options, or what is wrong.
struct OptionsRead {
  Options options;
  Message fault;  // empty: nothing
};
OptionsRead read_options(const std::vector<std::string>& words);
/// The language that was asked for, also where the rest cannot be read.
Language language_in(const std::vector<std::string>& words);

/// A fault with the nearest right word, where one is near.
Message with_near(Message fault, const std::string& near);

}  // namespace turnwright::cli
