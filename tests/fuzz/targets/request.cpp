// SPDX-License-Identifier: MIT
// A request; its parts as they are ordered, and what changed since the sample.
#include "turnwright/part/request_changes.hpp"

#include "fuzz.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Part pin = *read_part("pin.yaml", fuzz::file("samples/09-clevis-pin.yaml"));
  static const Request before = *read_request("before.yaml", fuzz::file("samples/10-request.yaml"));
  const std::string text = fuzz::text_of(data, size);
  (void)is_request(text);
  const auto request = read_request("fuzz.yaml", text, fuzz::shop().currencies);
  fuzz::speakable(request.problems());
  if (!request) return 0;
  for (const RequestItem& item : request->parts)
    fuzz::speakable(ordered(pin, item, *request).problems());
  fuzz::speakable(changes_since(
      *request, before,
      [](const Request&, const RequestItem& item) {
        return LineName{item.part, std::to_string(item.price_unit)};
      },
      [](const Request&, const RequestItem& item) -> std::optional<LinePrices> {
        if (!item.not_offered.empty()) return std::nullopt;
        return LinePrices{};
      }));
  return 0;
}
