// SPDX-License-Identifier: MIT
// What the reader of solid models answers, and the draft of a part from it, which must read as a
// part or say why.
#include "fuzz.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/output/draft.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto model = read_recognition(fuzz::text_of(data, size));
  if (!model) return 0;
  fuzz::speakable(why_no_draft(*model));
  fuzz::speakable(recognition_line(*model));
  fuzz::speakable(solid_lines(*model));
  if (!why_no_draft(*model).empty()) return 0;
  for (const DraftDetail detail : {DraftDetail::features, DraftDetail::surfaces}) {
    DraftedModel drafted{"fuzz.step", *model, draft_of(*model, {"fuzz", false, detail}),
                         {},          "",     {}};
    const std::string text = draft_file(drafted, fuzz::english());
    fuzz::hold(static_cast<bool>(read_document("draft.yaml", text)), "the draft is no YAML");
    if (const auto part = read_part("draft.yaml", text))
      if (const auto job = prepare(*part, fuzz::shop())) drafted.job = *job;
    fuzz::whole_json(draft_json(drafted));
    (void)draft_page(drafted, fuzz::german());
  }
  return 0;
}
