// SPDX-License-Identifier: MIT
#include <algorithm>

#include "formatting.hpp"
#include "html/drawing.hpp"
#include "html/outline_path.hpp"
#include "turnwright/document/reader.hpp"

namespace turnwright {
namespace {

constexpr double letter = 7.2;  // of a label's width a character, at 13 pixels
constexpr double row_height = 19;

// Labels along the part, each in the first row where it has room.
class Rows {
 public:
  int row(double from, double to) {
    for (std::size_t i = 0; i < ends_.size(); ++i)
      if (from >= ends_[i] + 6) {
        ends_[i] = to;
        return static_cast<int>(i);
      }
    ends_.push_back(to);
    return static_cast<int>(ends_.size()) - 1;
  }
  int count() const { return static_cast<int>(ends_.size()); }

 private:
  std::vector<double> ends_;
};

struct Label {
  std::string text;
  double middle = 0, from = 0, to = 0;  // x; the stretch that is meant
  double at = 0;                        // y of what it points to
  int row = 0;
};

double label_width(const std::string& text) {
  return letter * static_cast<double>(characters(text));
}
// Keeps a label inside the picture.
double centred(const Label& l) {
  const double half = label_width(l.text) / 2;
  return std::clamp(l.middle, half + 2, std::max(half + 2, drawing_width - half - 2));
}

// Labels in as few rows as they fit into.
class Labels {
 public:
  void add(Label label) {
    const double half = label_width(label.text) / 2, x = centred(label);
    label.row = rows_.row(x - half, x + half);
    labels_.push_back(std::move(label));
  }
  const std::vector<Label>& all() const { return labels_; }
  double height() const { return row_height * rows_.count(); }

 private:
  Rows rows_;
  std::vector<Label> labels_;
};

std::string size_text(const Surface& surface, const Words& words) {
  if (surface.ra.si <= 0) return words(surface.name);
  return words({"page.size-and-roughness",
                {{"size", surface.name}, {"ra", words.bare(measure(surface.ra, unit::um, 3))}}});
}

// Diameters above, those of bores and lengths below.
struct Dimensions {
  Labels above, bores, below;

  Dimensions(const Job& job, const Scale& scale, const Words& words) {
    const auto outside = job.outside();
    for (auto surface = outside.rbegin(); surface != outside.rend(); ++surface) {
      Label l;
      l.from = scale.x(surface->left);
      l.to = scale.x(surface->right);
      l.middle = (l.from + l.to) / 2;
      l.at = scale.y(max(surface->left_radius, surface->right_radius));
      l.text = size_text(*surface, words);
      above.add(l);
      l.text = length_number(surface->right - surface->left, words);
      l.at = scale.axis();
      below.add(l);
    }
    for (const Surface& surface : job.surfaces) {
      if (surface.region == Region::outside) continue;
      Label l;
      l.middle = (scale.x(surface.left) + scale.x(surface.right)) / 2;
      l.at = 2 * scale.axis() - scale.y(min(surface.left_radius, surface.right_radius));
      l.text = size_text(surface, words);
      bores.add(l);
    }
  }
};

// Where the rows of the picture are, from the top.
struct Places {
  double top = 0, body = 0, bores = 0, below = 0, overall = 0;

  Places(const Dimensions& dimensions, const Scale& scale)
      : top(dimensions.above.height() + 14),
        body(2 * scale.axis()),
        bores(top + body + (dimensions.bores.height() > 0 ? 18 : 0)),
        below(bores + dimensions.bores.height() + 22),
        overall(below + dimensions.below.height() + 12) {}
  double height() const { return overall + 14; }
};

void draw_diameters(Markup& m, const Labels& labels, const Places& at) {
  for (const Label& l : labels.all()) {
    const double y = at.top - 10 - row_height * l.row;
    m.shape("path", {{"class", "thin"},
                     {"d", "M" + px(l.middle) + " " + px(at.top + l.at) + "V" + px(y + 3)}});
    picture_text(m, centred(l), y, l.text, "middle");
  }
}

void draw_bores(Markup& m, const Labels& labels, const Places& at) {
  for (const Label& l : labels.all()) {
    const double y = at.bores + row_height * l.row;
    m.shape("path", {{"class", "thin"},
                     {"d", "M" + px(l.middle) + " " + px(at.top + l.at) + "V" + px(y - 12)}});
    picture_text(m, centred(l), y, l.text, "middle");
  }
}

void draw_lengths(Markup& m, const Labels& labels, const Places& at, const Scale& scale) {
  std::string ticks;
  for (const Label& l : labels.all()) {
    for (const double x : {l.from, l.to})
      ticks += "M" + px(x) + " " + px(at.bores + 2) + "V" + px(at.below - 10);
    picture_text(m, centred(l), at.below + 4 + row_height * l.row, l.text, "middle");
  }
  ticks += "M" + px(scale.left()) + " " + px(at.overall) + "H" + px(scale.right());
  for (const double x : {scale.left(), scale.right()})
    ticks += "M" + px(x) + " " + px(at.overall - 5) + "v10";
  m.shape("path", {{"class", "thin"}, {"d", ticks}});
}

// Grooves in the end faces, which are no part of the outline.
std::string face_cuts(const Job& job, const Scale& scale) {
  std::string path;
  for (const FaceCut& cut : job.face_cuts) {
    const FaceGroove& g = cut.groove;
    const double face = scale.x(cut.left ? job.left() : Length(0.0));
    const double floor = scale.x(cut.left ? job.left() + g.depth : -g.depth);
    const Length inner = g.inner / 2.0, outer = inner + g.width;
    path += "M" + px(face) + " " + px(scale.y(outer)) + "H" + px(floor) + "V" + px(scale.y(inner)) +
            "H" + px(face) + "Z";
  }
  return path;
}

}  // namespace

void draw_part(PageWriter& page, const Job& job) {
  Markup& m = page.markup();
  const Words& words = page.words();
  const Scale scale(job.left(), Length(0.0), job.finished.largest(), drawing_width - 60, 210);
  const Dimensions dimensions(job, scale, words);
  const Places at(dimensions, scale);
  begin_picture(m, drawing_width, at.height(),
                words({"page.part-drawing", {{"unit", words.unit(unit::mm)}}}));
  m.open("g", {{"transform", "translate(0 " + px(at.top) + ")"}});
  draw_body(m, job.finished, job.hollow(), scale, "body edge", face_cuts(job, scale));
  draw_axis(m, scale);
  m.close();
  draw_diameters(m, dimensions.above, at);
  draw_bores(m, dimensions.bores, at);
  draw_lengths(m, dimensions.below, at, scale);
  picture_text(m, (scale.left() + scale.right()) / 2, at.overall - 4,
               length_text(job.part.overall, words), "middle");
  m.close();
}

}  // namespace turnwright
