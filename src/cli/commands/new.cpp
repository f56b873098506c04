// SPDX-License-Identifier: MIT
// A file to start from, and beside it the schema that its first line points editors to.
#include <algorithm>
#include <array>
#include <ostream>

#include "command.hpp"
#include "files.hpp"

namespace turnwright {
const std::vector<NamedText>& starter_files();  // built in from templates/new
const std::vector<NamedText>& schema_files();   // built in from rates/schema
}  // namespace turnwright

namespace turnwright::cli {
namespace {

constexpr std::array<std::string_view, 4> kinds{"shop", "part", "request", "week"};

const std::string* file_named(const std::vector<NamedText>& files, const std::string& name) {
  const auto found =
      std::find_if(files.begin(), files.end(), [&](const NamedText& f) { return f.name == name; });
  return found == files.end() ? nullptr : &found->text;
}

}  // namespace

Exit new_file(Session& session) {
  const auto& words = session.options.operands;
  if (words.size() != 2 || std::find(kinds.begin(), kinds.end(), words[0]) == kinds.end())
    return session.wrong("cli.new-usage");
  const std::string &kind = words[0], &target = words[1];
  const bool shop = kind == kinds[0];
  const std::string path = shop ? target + "/shop.yaml" : target;
  if (exists(path)) return session.wrong({"cli.there-already", {{"path", path}}});
  const std::size_t slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash);
  const std::string schema = folder + "/schema/" + kind + ".json";
  if (shop) make_folder(target);
  if (const std::string* text = file_named(starter_files(), kind + ".yaml"))
    write_text(path, *text);
  const std::string* text = file_named(schema_files(), kind + ".json");
  if (text != nullptr && !exists(schema)) {
    make_folder(folder + "/schema");
    write_text(schema, *text);
  }
  session.streams.out << session.words({"cli.written", {{"path", path}}}) << "\n";
  if (shop)
    session.streams.out << session.words({"cli.new-shop-next", {{"folder", target}}}) << "\n";
  return Exit::done;
}

}  // namespace turnwright::cli
