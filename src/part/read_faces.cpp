// SPDX-License-Identifier: MIT
// What the drawing says beside its elements: general tolerances, end faces, centre holes.
#include <algorithm>
#include <array>
#include <tuple>

#include "examples.hpp"
#include "part_sections.hpp"
#include "pieces.hpp"

namespace turnwright {
namespace {

// "ISO 2768-m", "ISO 2768-mK", "±0.1"
GeneralTolerances read_general(const SectionReading& in, const Node& node) {
  const std::string& text = node.text;
  GeneralTolerances general;
  if (text.starts_with("\xC2\xB1")) {
    TextFault fault;
    const auto v = read_quantity(text.substr(2), in.bare.length, fault);
    if (v && v->si > 0) general.plus_minus = Length(v->si);
  } else if (text.starts_with("ISO 2768-") && text.size() > 9 &&
             std::string_view("fmcv").find(text[9]) != std::string_view::npos) {
    general.iso_class = text.substr(9, 1);
  }
  if (!general.plus_minus && general.iso_class.empty())
    in.problems.add(node, found(node),
                    such_as("ISO 2768-m", "ISO 2768-mK",
                            "\xC2\xB1"
                            "0.1"));
  return general;
}

FaceGroove face_groove_map(const SectionReading& in, const Node& node) {
  MapReader map(node, in.problems, "part.a-face-groove");
  FaceGroove g;
  g.at = node.at;
  g.width = map.needed("width", in.bare.length);
  g.depth = map.needed("depth", in.bare.length);
  g.inner = map.needed("from", in.bare.length);
  map.finish();
  if (g.width.si <= 0 || g.depth.si <= 0 || g.inner.si < 0)
    in.problems.add(node, "part.face-groove-zero", "part.wants-width-and-depth");
  return g;
}

// "groove 4 wide 3 deep from 36"
FaceGroove face_groove_text(const SectionReading& in, const Node& node,
                            const std::vector<Piece>& words) {
  FaceGroove g;
  g.at = node.at;
  const bool spelt = words.size() == 7 && words[2].text == "wide" && words[4].text == "deep" &&
                     words[5].text == "from";
  if (spelt) {
    g.width = in.length(piece_node(node, words[1]));
    g.depth = in.length(piece_node(node, words[3]));
    g.inner = in.length(piece_node(node, words[6]));
  }
  if (!spelt || g.width.si <= 0 || g.depth.si <= 0 || g.inner.si < 0)
    in.problems.add(
        node, "part.face-groove-unreadable",
        Message{"part.wants-face-groove", {{"example", "groove 4 wide 3 deep from 36"}}});
  return g;
}

FaceRequest face_map(const SectionReading& in, const Node& node) {
  MapReader map(node, in.problems, "part.a-face");
  FaceRequest face;
  face.machined = map.one_of("as", {"machined", "sawn"}) != "sawn";
  face.ra = map.quantity("Ra", in.bare.roughness);
  if (face.ra && face.ra->si <= 0) in.problems.add(node, "part.roughness-zero", "part.wants-ra");
  if (const Node* grooves = map.find("groove"))
    for (const Node* item : as_list(*grooves)) face.grooves.push_back(face_groove_map(in, *item));
  map.finish();
  return face;
}

void face_roughness(const SectionReading& in, const Node& node, const Piece& word,
                    FaceRequest& face) {
  const auto v = read_number(word.text);
  if (v && *v > 0)
    face.ra = *v * in.bare.roughness;
  else
    add_at(in.problems, node, word, Message{"part.not-a-roughness", {{"text", word.text}}},
           "part.wants-ra");
}

// One text between commas of a face; false when it is none that a face can have.
bool face_piece(const SectionReading& in, const Node& node, const std::vector<Piece>& words,
                bool first, FaceRequest& face) {
  const std::string head = words.empty() ? "" : words[0].text;
  if (first && words.size() == 2 && head == "as" && words[1].text == "sawn")
    face.machined = false;
  else if (words.size() == 2 && head == "Ra")
    face_roughness(in, node, words[1], face);
  else if (head == "groove")
    face.grooves.push_back(face_groove_text(in, node, words));
  else
    return first && words.size() == 1 && head == "machined";
  return true;
}

// "machined, Ra 1.6, groove 4 wide 3 deep from 36"
FaceRequest face_text(const SectionReading& in, const Node& node) {
  FaceRequest face;
  bool first = true;
  for (const Piece& piece : split_at(node.text, ',')) {
    if (!face_piece(in, node, split_words(piece.text, piece.offset), first, face)) {
      in.problems.add(node, found(node),
                      Message{"part.wants-face",
                              {{"machined", "machined"},
                               {"sawn", "as sawn"},
                               {"roughness", "Ra 3.2"},
                               {"groove", "groove 4 wide 3 deep from 36"}}},
                      "machined");
      break;
    }
    first = false;
  }
  return face;
}

// "B", "B 2.5"
void read_centre(const SectionReading& in, const Node& node, CentreRequest& centres) {
  const std::string form = node.text.substr(0, 1);
  centres.form = form == "A"   ? CentreForm::a
                 : form == "B" ? CentreForm::b
                 : form == "R" ? CentreForm::r
                               : CentreForm::unsaid;
  const std::string size = node.text.size() > 1 ? node.text.substr(1) : "";
  std::optional<double> pilot;
  if (size.starts_with(' ')) pilot = read_number(size.substr(1));
  if (centres.form == CentreForm::unsaid || (!size.empty() && (!pilot || *pilot <= 0)))
    in.problems.add(node, found(node), Message{"part.wants-centre", {{"example", "B 2.5"}}});
  if (pilot) centres.pilot = *pilot * unit::mm;
}

CentreUse use_named(const std::optional<std::string>& word) {
  if (word == "yes" || word == "true") return CentreUse::yes;
  if (word == "no" || word == "false") return CentreUse::no;
  if (word == "may") return CentreUse::may;
  return CentreUse::unsaid;
}

}  // namespace

Drawing read_drawing(const SectionReading& in, const Node& node) {
  MapReader map(node, in.problems, section("drawing"));
  Drawing drawing;
  if (const Node* general = map.find("general")) drawing.general = read_general(in, *general);
  drawing.ra = map.quantity("Ra", in.bare.roughness);
  drawing.edges = map.quantity_or("edges", in.bare.length, small_edge());
  if (drawing.edges.si < 0) {
    const Node& edges = *map.find("edges");
    in.problems.add(edges, found(edges), "part.0-or-more");
  }
  if (drawing.ra && drawing.ra->si <= 0)
    in.problems.add(node, "part.roughness-zero", "part.wants-ra");
  map.finish();
  return drawing;
}

void read_faces(const SectionReading& in, const Node& node, Part& part) {
  MapReader map(node, in.problems, section("faces"));
  for (const auto& [key, face] :
       {std::pair{"right", &part.right_face}, std::pair{"left", &part.left_face}})
    if (const Node* item = map.find(key))
      *face = item->kind == Node::Kind::map ? face_map(in, *item) : face_text(in, *item);
  map.finish();
}

CentreRequest read_centres(const SectionReading& in, const Node& node) {
  MapReader map(node, in.problems, section("centres"));
  CentreRequest centres;
  for (const auto& [key, right, left] :
       {std::tuple{"right", true, false}, std::tuple{"left", false, true},
        std::tuple{"both ends", true, true}}) {
    const Node* item = map.find(key);
    if (item == nullptr) continue;
    centres.right = centres.right || right;
    centres.left = centres.left || left;
    read_centre(in, *item, centres);
  }
  centres.keep = use_named(map.one_of("keep", {"yes", "may", "no", "true", "false"}));
  map.finish();
  return centres;
}

}  // namespace turnwright
