// SPDX-License-Identifier: MIT
#pragma once
// The draft of a part from a customer's model: the part file to read through, a page to read it by,
// the recognition as JSON, a table of many.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/draft/draft.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright {

/// A model file with what was made of it.
struct DraftedModel {
  std::string file;
  Recognition model;
  Draft draft;
  std::optional<Job> job;  // the part as its draft describes it
  std::string written;     // where the draft went; empty: nowhere
  Message why_not;         // no draft was made
};

/// The part file, in the words of the reader where it holds sentences.
std::string draft_file(const DraftedModel& drafted, const Words& words);
std::string draft_page(const DraftedModel& drafted, const Words& words);
std::string draft_json(const DraftedModel& drafted);
std::string draft_table(const std::vector<DraftedModel>& drafted, const Words& words);

/// What is said of a model that no draft is made of; empty: it is turned.
Message why_no_draft(const Recognition& model);
/// Of the body that the draft describes.
Volume draft_volume(const Job& job);
/// How much of the model its outline explains.
Message recognition_line(const Recognition& model);
/// The solids of a file with their sizes, one a line.
Messages solid_lines(const Recognition& model);

}  // namespace turnwright
