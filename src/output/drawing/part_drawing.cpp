// SPDX-License-Identifier: MIT
#include "turnwright/output/part_drawing.hpp"

#include "drawing/outline_shapes.hpp"
#include "drawing/size_labels.hpp"
#include "formatting.hpp"

namespace turnwright {
namespace {

std::string size_text(const Surface& surface, const Words& words) {
  if (surface.ra.si <= 0) return words(surface.name);
  return words({"page.size-and-roughness",
                {{"size", surface.name}, {"ra", words.bare(measure(surface.ra, unit::um, 3))}}});
}

double middle_of(const Surface& surface, const Scale& scale) {
  return (scale.x(surface.left) + scale.x(surface.right)) / 2;
}

// Diameters above, those of bores and lengths below; as high as they are from the centre line.
struct Dimensions {
  std::vector<SizeLabel> above, bores, lengths;
  std::size_t rows_above = 0, rows_of_bores = 0, rows_of_lengths = 0;

  Dimensions(const Job& job, const Scale& scale, double width, const Words& words) {
    for (const Surface& s : job.surfaces) {
      const double x = middle_of(s, scale);
      if (s.region == Region::outside) {
        above.push_back({size_text(s, words), x, scale.y(max(s.left_radius, s.right_radius))});
        lengths.push_back({length_number(s.right - s.left, words), x});
      } else {
        const double y = scale.y(min(s.left_radius, s.right_radius));
        bores.push_back({size_text(s, words), x, 2 * scale.axis() - y});
      }
    }
    rows_above = put_in_rows(above, width);
    rows_of_bores = put_in_rows(bores, width);
    rows_of_lengths = put_in_rows(lengths, width);
  }
  void move_down(double room) {
    for (std::vector<SizeLabel>* labels : {&above, &bores})
      for (SizeLabel& label : *labels) label.y += room;
  }
};

double height_of(std::size_t rows) { return label_row * static_cast<double>(rows); }

// Where the rows of the drawing are, from the top.
struct Places {
  double top = 0, bores = 0, lengths = 0, overall = 0;

  Places(const Dimensions& dimensions, double body)
      : top(height_of(dimensions.rows_above) + 14),
        bores(top + body + (dimensions.rows_of_bores > 0 ? 18 : 0)),
        lengths(bores + height_of(dimensions.rows_of_bores) + 22),
        overall(lengths + height_of(dimensions.rows_of_lengths) + 12) {}
  double height() const { return overall + 14; }
};

paper::Shape pale_lines(paper::Path path) {
  return {std::move(path), paper::Colour::none, 0.8, false, true};
}

// Ticks at the ends of surfaces, over all of it a line.
void draw_lengths(paper::Drawing& drawing, const Job& job, const Dimensions& dimensions,
                  const Places& at, const Scale& scale, const Words& words) {
  paper::Path ticks;
  auto tick = [&](double x, double from, double to) {
    ticks.push_back({paper::Motion::move, x, from});
    ticks.push_back({paper::Motion::line, x, to});
  };
  for (const Surface& s : job.outside())
    for (const Length end : {s.left, s.right}) tick(scale.x(end), at.bores + 2, at.lengths - 10);
  for (const double x : {scale.left(), scale.right()}) tick(x, at.overall - 5, at.overall + 5);
  ticks.push_back({paper::Motion::move, scale.left(), at.overall});
  ticks.push_back({paper::Motion::line, scale.right(), at.overall});
  drawing.shapes.push_back(pale_lines(std::move(ticks)));
  for (const SizeLabel& l : dimensions.lengths)
    drawing.labels.push_back(
        {l.middle, at.lengths + 4 + label_row * static_cast<double>(l.row), l.text});
  drawing.labels.push_back(
      {(scale.left() + scale.right()) / 2, at.overall - 4, length_text(job.part.overall, words)});
}

// Grooves in the end faces, which are no part of the outline.
std::vector<Cut> face_cuts(const Job& job) {
  std::vector<Cut> cuts;
  for (const FaceCut& cut : job.face_cuts) {
    const FaceGroove& g = cut.groove;
    const Length face = cut.left ? job.left() : Length(0.0), inner = g.inner / 2.0;
    cuts.push_back({face, cut.left ? face + g.depth : face - g.depth, inner, inner + g.width});
  }
  return cuts;
}

}  // namespace

paper::Drawing part_drawing(const Job& job, const Words& words, double width) {
  Scale scale(job.left(), Length(0.0), job.finished.largest(), width - 60, 210, width);
  Dimensions dimensions(job, scale, width, words);
  const Places at(dimensions, 2 * scale.axis());
  scale.move_down(at.top);
  dimensions.move_down(at.top);
  paper::Drawing drawing;
  drawing.label = words({"page.part-drawing", {{"unit", words.unit(unit::mm)}}});
  drawing.width = width;
  drawing.height = at.height();
  drawing.letters = label_letters;
  drawing.shapes.push_back(
      {body_path(job.finished, job.hollow(), scale, face_cuts(job)), paper::Colour::body, 1});
  drawing.shapes.push_back(axis_shape(scale, 14, 14));
  draw_labels(drawing, dimensions.above, at.top - 10, -label_row);
  draw_labels(drawing, dimensions.bores, at.bores, label_row);
  draw_lengths(drawing, job, dimensions, at, scale, words);
  return drawing;
}

}  // namespace turnwright
