// SPDX-License-Identifier: MIT
// A part file, as far as its job: the shop is known.
#include "fuzz.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/part/file_kind.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = fuzz::text_of(data, size);
  (void)kind_of_file(text);
  const auto part = read_part("fuzz.yaml", text);
  fuzz::speakable(part.problems());
  if (!part) return 0;
  const auto job = prepare(*part, fuzz::shop());
  fuzz::speakable(job.problems());
  if (!job) return 0;
  fuzz::speakable(job->cautions);
  (void)sketch(*job, 72);
  return 0;
}
