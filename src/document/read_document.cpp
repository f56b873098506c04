// SPDX-License-Identifier: MIT
// The only file that knows yaml-cpp. Its events are used, not its Node: only the events show
// duplicate keys, anchors and second documents.
#include <yaml-cpp/depthguard.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <array>
#include <istream>
#include <memory>
#include <new>
#include <optional>
#include <streambuf>
#include <unordered_map>

#include "turnwright/document/node.hpp"
#include "turnwright/document/reader.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

std::size_t bad_byte(std::string_view s) {
  std::size_t i = 0;
  while (i < s.size()) {
    const std::size_t n = character_length(s.substr(i));
    if (n == 0) return i;
    i += n;
  }
  return std::string_view::npos;
}

namespace {

struct TooMuch {};  // stops the parser at the first problem that makes the rest meaningless

Position position_of(std::string_view bytes, std::size_t offset) {
  Position at{1, 1};
  std::size_t start = 0;
  for (std::size_t i = 0; i < std::min(offset, bytes.size()); ++i)
    if (bytes[i] == '\n') {
      ++at.line;
      start = i + 1;
    }
  at.column = static_cast<int>(characters(bytes.substr(start, offset - start))) + 1;
  return at;
}

class Builder : public YAML::EventHandler {
 public:
  Builder(Document& document, ProblemList& notes) : document_(document), notes_(notes) {
    std::size_t at = 0;
    const std::string& bytes = document.bytes;
    while (at != std::string::npos) {
      line_starts_.push_back(at);
      const std::size_t end = bytes.find('\n', at);
      at = end == std::string::npos ? end : end + 1;
    }
  }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ > 1) stop(mark, "document.second-document", "expected.one-document");
  }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    Node node;
    node.at = place(mark);
    put(std::move(node));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    stop(mark, "document.alias", "expected.value-itself");
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_anchor(mark, anchor);
    Node node;
    node.kind = Node::Kind::text;
    node.at = place(mark);
    node.quoted = tag == "!";
    if (tag != "!" && tag != "?" && !tag.empty())
      stop(mark, {"document.tag", {{"tag", tag}}}, "expected.plain-value");
    const char first = byte_at(mark);
    if ((first == '"' || first == '\'') && runs_over_line(mark, first))
      stop(mark, "document.open-quote", "expected.closing-quote");
    node.text = value;
    // Escapes can bring in what the bytes of the file have not.
    if (showable(value, true) != value)
      notes_.add(node.at, 1, "document.control-character", "expected.plain-text");
    put(std::move(node));
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(mark, anchor, Node::Kind::list);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(mark, anchor, Node::Kind::map);
  }
  void OnMapEnd() override { close(); }

  Node take() { return std::move(root_); }
  // From the last place on where that is in the same line: a long one is walked once.
  Position place(const YAML::Mark& mark) {
    const std::size_t line = static_cast<std::size_t>(std::max(mark.line, 0));
    if (line >= line_starts_.size()) return {mark.line + 1, 1};
    const std::size_t start = line_starts_[line];
    const std::size_t length = std::min(static_cast<std::size_t>(std::max(mark.column, 0)),
                                        document_.bytes.size() - start);
    if (placed_.line != line || placed_.bytes > length) placed_ = {line, 0, 0};
    placed_.characters += characters(
        std::string_view(document_.bytes).substr(start + placed_.bytes, length - placed_.bytes));
    placed_.bytes = length;
    return {mark.line + 1, static_cast<int>(placed_.characters) + 1};
  }

 private:
  struct Level {
    Node node;
    bool has_key = false;
    Member member;
    std::unordered_map<std::string, int> lines;  // of the keys so far
  };

  [[noreturn]] void stop(const YAML::Mark& mark, Message what, Message expected) {
    notes_.add(place(mark), 1, std::move(what), std::move(expected));
    throw TooMuch{};
  }
  void refuse_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor != 0) stop(mark, "document.anchor", "expected.value-itself");
  }
  char byte_at(const YAML::Mark& mark) const {
    const auto line = static_cast<std::size_t>(std::max(mark.line, 0));
    if (line >= line_starts_.size()) return ' ';
    const std::size_t at = line_starts_[line] + static_cast<std::size_t>(std::max(mark.column, 0));
    return at < document_.bytes.size() ? document_.bytes[at] : ' ';
  }
  // The library folds a quoted text over lines; one that never closes would swallow the rest.
  bool runs_over_line(const YAML::Mark& mark, char quote) const {
    const std::size_t start = line_starts_[static_cast<std::size_t>(mark.line)] +
                              static_cast<std::size_t>(mark.column) + 1;
    const std::string& bytes = document_.bytes;
    for (std::size_t i = start; i < bytes.size() && bytes[i] != '\n'; ++i) {
      if (bytes[i] == '\\' && quote == '"')
        ++i;
      else if (bytes[i] == quote)
        return false;
    }
    return true;
  }
  void open(const YAML::Mark& mark, YAML::anchor_t anchor, Node::Kind kind) {
    refuse_anchor(mark, anchor);
    if (levels_.size() >= static_cast<std::size_t>(deepest_document))
      stop(mark, {"document.deeper-than", {{"n", deepest_document}}}, "expected.flatter-file");
    Level level;
    level.node.kind = kind;
    level.node.at = place(mark);
    levels_.push_back(std::move(level));
  }
  void close() {
    Node node = std::move(levels_.back().node);
    levels_.pop_back();
    put(std::move(node));
  }
  void put(Node node) {
    if (++nodes_ > most_nodes) {
      notes_.add(node.at, 1, {"document.too-many-values", {{"n", most_nodes}}},
                 "expected.smaller-file");
      throw TooMuch{};
    }
    if (levels_.empty()) {
      root_ = std::move(node);
      return;
    }
    Level& level = levels_.back();
    // Nothing stands behind the colon of its key, not where the next thing begins.
    if (level.has_key && node.kind == Node::Kind::nothing) {
      node.at = level.member.at;
      node.at.column += static_cast<int>(characters(level.member.key));
    }
    if (level.node.kind == Node::Kind::list) {
      level.node.items.push_back(std::move(node));
    } else if (!level.has_key) {
      take_key(level, node);
    } else {
      level.member.value = std::move(node);
      level.node.members.push_back(std::move(level.member));
      level.member = {};
      level.has_key = false;
    }
  }
  void take_key(Level& level, const Node& node) {
    if (node.kind != Node::Kind::text) notes_.add(node.at, 1, "document.key-no-word");
    const auto [other, first] = level.lines.emplace(node.text, node.at.line);
    if (!first && node.kind == Node::Kind::text)
      notes_.add(
          node.at, static_cast<int>(characters(node.text)),
          {"document.key-twice", {{"key", node.text}, {"line", std::to_string(other->second)}}},
          "expected.each-key-once");
    level.member.key = node.text;
    level.member.at = node.at;
    level.has_key = true;
  }

  Document& document_;
  ProblemList& notes_;
  std::vector<std::size_t> line_starts_;
  std::vector<Level> levels_;
  Node root_;
  int documents_ = 0;
  std::size_t nodes_ = 0;
  struct Placed {
    std::size_t line = 0, bytes = 0, characters = 0;
  } placed_;
};

// The parser wants a stream; this one reads the bytes where they lie.
struct Bytes : std::streambuf {
  explicit Bytes(std::string& text) { setg(text.data(), text.data(), text.data() + text.size()); }
};

// What the library says, in our words; `line`: where.
Message fault_of(std::string_view why, const std::string& line) {
  if (const std::size_t first = line.find_first_not_of(' ');
      first != std::string::npos && line[first] == '\t')
    return "document.yaml-tab";
  static constexpr std::array<std::pair<std::string_view, const char*>, 11> known{
      {{"end of map not found", "document.yaml-map"},
       {"end of sequence not found", "document.yaml-list"},
       {"end of map flow not found", "document.yaml-brace"},
       {"end of sequence flow not found", "document.yaml-bracket"},
       {"illegal flow end", "document.yaml-closing"},
       {"illegal map value", "document.yaml-colon"},
       {"illegal map key", "document.yaml-key"},
       {"illegal block entry", "document.yaml-dash"},
       {"illegal tab when looking for indentation", "document.yaml-tab"},
       {"illegal EOF in scalar", "document.open-quote"},
       {"unknown escape character: ", "document.yaml-escape"}}};
  for (const auto& [theirs, ours] : known)
    if (why.starts_with(theirs)) return ours;
  return "document.no-yaml";
}

// "material:C45" before the line that the library finds fault with: it took both for one key.
std::optional<Position> colon_without_blank(std::string_view bytes, int line) {
  const std::string fault = line_of(bytes, line), text = line_of(bytes, line - 1);
  const std::size_t start = text.find_first_not_of(" -"), colon = text.find(':');
  if (start == std::string::npos || colon == std::string::npos || text[start] == '#') return {};
  const bool has_blank = text.find(": ") != std::string::npos || colon + 1 == text.size();
  if (has_blank || fault.find_first_not_of(" -") != start) return {};
  return Position{line - 1, static_cast<int>(characters(text.substr(0, colon))) + 1};
}

// Where the bracket stands that is still open at `end`; the innermost of several.
std::optional<std::size_t> open_bracket(std::string_view bytes, std::size_t end, char bracket) {
  std::vector<std::size_t> open;
  char before = '\n';  // the last character that is no blank
  for (std::size_t i = 0; i < std::min(end, bytes.size()); ++i) {
    const char c = bytes[i];
    const bool begins = open.empty() ? before == '\n' || before == ':' || before == '-'
                                     : before == ',' || before == '[' || before == '{' ||
                                           before == ':' || before == '\n';
    if (c == '#' && (i == 0 || bytes[i - 1] == ' ' || bytes[i - 1] == '\n')) {
      i = std::min(bytes.find('\n', i), bytes.size()) - 1;
    } else if (begins && (c == '"' || c == '\'')) {
      i = std::min(bytes.find(c, i + 1), bytes.size());
    } else if (begins && (c == '[' || c == '{')) {
      open.push_back(i);
    } else if (!open.empty() && (c == ']' || c == '}')) {
      open.pop_back();
    }
    if (c != ' ') before = c;
  }
  while (!open.empty() && bytes[open.back()] != bracket) open.pop_back();
  if (open.empty()) return std::nullopt;
  return open.back();
}

// A fault as the library has it, where its cause stands.
void add_fault(const Document& document, ProblemList& notes, Position at, std::string_view why) {
  const std::string_view bytes = document.bytes;
  Message what = fault_of(why, line_of(bytes, at.line));
  if (why.starts_with("illegal map value"))
    if (const auto colon = colon_without_blank(bytes, at.line))
      return notes.add(*colon, 1, "document.yaml-no-blank", "expected.yaml");
  const bool brace = why.starts_with("end of map flow");
  if (brace || why.starts_with("end of sequence flow"))
    if (const auto open = open_bracket(bytes, bytes.size(), brace ? '{' : '['))
      at = position_of(bytes, *open);
  notes.add(at, 1, std::move(what), "expected.yaml");
}

void parse(Document& document, ProblemList& notes) {
  Bytes buffer(document.bytes);
  std::istream stream(&buffer);
  auto builder = std::make_unique<Builder>(document, notes);
  try {
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(*builder)) {
    }
    document.root = builder->take();
  } catch (const TooMuch&) {
  } catch (const YAML::DeepRecursion& e) {
    notes.add(builder->place(e.mark), 1, "document.nested-too-deeply", "expected.flatter-file");
  } catch (const YAML::Exception& e) {
    add_fault(document, notes, builder->place(e.mark), e.msg);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception&) {
    notes.add({1, 1}, 1, "document.no-yaml");
  }
}

}  // namespace

std::string line_of(std::string_view bytes, int line) {
  std::size_t start = 0;
  for (int i = 1; i < line; ++i) {
    const std::size_t end = bytes.find('\n', start);
    if (end == std::string_view::npos) return "";
    start = end + 1;
  }
  std::string_view text = bytes.substr(start, bytes.find('\n', start) - start);
  if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
  return std::string(text);
}

Checked<Document> read_document(std::string file, std::string_view bytes) {
  Document document;
  document.file = std::move(file);
  ProblemList notes(document);
  if (bytes.size() > largest_document) {
    notes.add({1, 1}, 1, "document.too-large", "expected.smaller-file");
    return notes.problems();
  }
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  document.bytes = bytes;
  if (const std::size_t bad = bad_byte(bytes); bad != std::string_view::npos) {
    notes.add(position_of(bytes, bad), 1,
              bytes[bad] == '\0' ? "document.nul-byte" : "document.no-utf8", "expected.utf8");
    return notes.problems();
  }
  parse(document, notes);
  if (!notes.clean()) return notes.problems();
  return document;
}

}  // namespace turnwright
