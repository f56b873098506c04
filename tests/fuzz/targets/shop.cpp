// SPDX-License-Identifier: MIT
// Records of a shop alone, and after a line of --- those that overlay them.
#include "fuzz.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = fuzz::text_of(data, size);
  const std::size_t cut = text.find("\n---\n");
  std::vector<NamedText> files{{"rates.yaml", text.substr(0, cut)}};
  if (cut != std::string::npos) files.push_back({"own.yaml", text.substr(cut + 5)});
  fuzz::speakable(read_shop(files, 1).problems());
  return 0;
}
