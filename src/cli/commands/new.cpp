// SPDX-License-Identifier: MIT
// A file to start from, and beside it the schema that its first line points editors to.
#include <optional>
#include <ostream>

#include "built_in_files.hpp"
#include "command.hpp"
#include "files.hpp"
#include "paths.hpp"
#include "turnwright/part/file_kind.hpp"

namespace turnwright::cli {
namespace {

std::optional<FileKind> kind_named(std::string_view word) {
  for (const FileKind kind : {FileKind::shop, FileKind::part, FileKind::request, FileKind::week})
    if (name_of(kind) == word) return kind;
  return std::nullopt;
}

// Who sends the quotations, to be filled in.
void put_sender(const Session& session, const std::string& shop) {
  const std::string folder = shop + "/templates", path = folder + "/" + sender_file;
  const std::string* text = text_named(offer_files(), sender_file);
  if (text == nullptr || exists(path)) return;
  make_folder(folder);
  write_text(path, *text);
  session.streams.out << session.words({"cli.new-shop-sender", {{"path", path}}}) << "\n";
}

}  // namespace

Exit new_file(Session& session) {
  const auto& words = session.options.operands;
  const auto of = words.size() == 2 ? kind_named(words[0]) : std::nullopt;
  if (!of) return session.wrong("cli.new-usage");
  const std::string &kind = words[0], &target = words[1];
  const bool shop = of == FileKind::shop;
  const std::string path = shop ? target + "/shop.yaml" : target;
  if (exists(path)) return session.wrong({"cli.there-already", {{"path", path}}});
  const std::string folder = folder_of(path);
  const std::string schema = folder + "/schema/" + kind + ".json";
  if (shop) make_folder(target);
  if (const std::string* text = text_named(starter_files(), kind + ".yaml"))
    write_text(path, *text);
  const std::string* text = text_named(schema_files(), kind + ".json");
  if (text != nullptr && !exists(schema)) {
    make_folder(folder + "/schema");
    write_text(schema, *text);
  }
  session.streams.out << session.words({"cli.written", {{"path", path}}}) << "\n";
  if (!shop) return Exit::done;
  session.streams.out << session.words({"cli.new-shop-next", {{"folder", target}}}) << "\n";
  put_sender(session, target);
  return Exit::done;
}

}  // namespace turnwright::cli
