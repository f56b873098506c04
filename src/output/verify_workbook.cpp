// SPDX-License-Identifier: MIT
// A written workbook read back: the library reports success even when its temporary files were cut
// short by a full disk, so every part is unpacked and parsed.
#include <minizip/unzip.h>

#include <memory>
#include <pugixml.hpp>
#include <vector>

#include "turnwright/output/workbook.hpp"

namespace turnwright {
namespace {

constexpr std::size_t most_for_tree = std::size_t{8} << 20;

struct CloseZip {
  void operator()(void* zip) const { unzClose(zip); }
};

std::string part_bytes(unzFile zip, const std::string& path) {
  std::string bytes;
  if (unzOpenCurrentFile(zip) != UNZ_OK) throw CannotWrite(path + ": a part cannot be read back");
  std::vector<char> buffer(1 << 16);
  int n = 0;
  while ((n = unzReadCurrentFile(zip, buffer.data(), static_cast<unsigned>(buffer.size()))) > 0)
    bytes.append(buffer.data(), static_cast<std::size_t>(n));
  const int closed = unzCloseCurrentFile(zip);  // checks the CRC
  if (n < 0 || closed != UNZ_OK) throw CannotWrite(path + ": a part is damaged");
  return bytes;
}

}  // namespace

void verify_workbook(const std::string& path) {
  const std::unique_ptr<void, CloseZip> zip(unzOpen(path.c_str()));
  if (zip == nullptr || unzGoToFirstFile(zip.get()) != UNZ_OK)
    throw CannotWrite(path + ": the workbook cannot be read back");
  int parts = 0;
  do {
    pugi::xml_document xml;
    const std::string bytes = part_bytes(zip.get(), path);
    ++parts;
    // The tree of a long list would take more memory than the list; its end tells.
    if (bytes.size() > most_for_tree) {
      if (!bytes.ends_with("</worksheet>")) throw CannotWrite(path + ": a part is cut short");
      continue;
    }
    const auto parsed = xml.load_buffer(bytes.data(), bytes.size());
    if (!parsed || xml.document_element().empty())
      throw CannotWrite(path + ": a part is cut short");
  } while (unzGoToNextFile(zip.get()) == UNZ_OK);
  if (parts < 8) throw CannotWrite(path + ": parts are missing");
}

}  // namespace turnwright
