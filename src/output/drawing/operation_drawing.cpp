// SPDX-License-Identifier: MIT
#include "drawing/operation_drawing.hpp"

#include "drawing/clamping_shapes.hpp"
#include "drawing/outline_shapes.hpp"
#include "drawing/size_labels.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr double bold = 3, thin = 0.8;
constexpr double width = 940, most_wide = width - 150, most_high = 200;

// Work before and after.
struct Change {
  const Outline &before, &hollow_before, &after, &hollow_after;
  bool supported = true;  // by the centre, where the operation has one
  std::vector<std::size_t> gauged = {};
};

Scale scale_of(const Operation& o) {
  const Scale scale(clamped_from(o), max(o.before.right(), o.grip_to), o.before.largest(),
                    most_wide, most_high, width);
  return o.from_left ? scale.turned_round() : scale;
}

std::vector<SizeLabel> sizes_of(const Job& job, const Change& change, const Scale& scale,
                                const Words& words) {
  std::vector<SizeLabel> sizes;
  for (const std::size_t n : change.gauged) {
    const Surface& s = job.surfaces[n];
    sizes.push_back({words(s.name), (scale.x(s.left) + scale.x(s.right)) / 2,
                     scale.y((s.left_radius + s.right_radius) / 2.0)});
  }
  return sizes;
}

void draw_change(paper::Drawing& drawing, const Change& change, const Scale& scale) {
  drawing.shapes.push_back(
      {body_path(change.before, change.hollow_before, scale), paper::Colour::cut, thin});
  drawing.shapes.push_back(
      {body_path(change.after, change.hollow_after, scale), paper::Colour::body, thin});
  for (const paper::Path& path :
       {new_path(change.after, change.before, Envelope::lower, scale),
        new_path(change.hollow_after, change.hollow_before, Envelope::upper, scale)})
    if (!path.empty()) drawing.shapes.push_back({path, paper::Colour::none, bold});
}

paper::Drawing drawing_of(const Job& job, const Operation& operation, const Change& change,
                          const Message& label, const Words& words) {
  Scale scale = scale_of(operation);
  std::vector<SizeLabel> sizes = sizes_of(job, change, scale, words);
  const double above = label_row * static_cast<double>(put_in_rows(sizes, width)) + jaw_height + 8;
  scale.move_down(above);
  for (SizeLabel& size : sizes) size.y += above;
  paper::Drawing drawing;
  drawing.label = words(label);
  drawing.width = width;
  drawing.height = 2 * scale.axis() - above + jaw_height + jaw_label + 4;
  drawing.letters = label_letters;
  drawing.highest = 62;
  draw_bar(drawing, operation, scale);
  draw_change(drawing, change, scale);
  draw_jaws(drawing, operation, scale, words);
  draw_centres(drawing, operation, change.supported,
               change.after.empty() ? change.before : change.after, scale, words);
  drawing.shapes.push_back(axis_shape(scale, 24, 34));
  draw_labels(drawing, sizes, above - jaw_height - 8, -label_row);
  return drawing;
}

Message label_of(const Operation& operation, const Step& step) {
  return {"page.step-drawing",
          {{"step", step_label(operation, step)},
           {"work", word_of(step.kind)},
           {"from", measure(-step.to, unit::mm)},
           {"to", measure(-step.from, unit::mm)}}};
}

}  // namespace

paper::Drawing operation_drawing(const Job& job, const Operation& operation, const Words& words) {
  Change change{operation.before, operation.hollow_before, operation.after, operation.hollow_after};
  for (const Step& step : operation.steps)
    change.gauged.insert(change.gauged.end(), step.gauged.begin(), step.gauged.end());
  return drawing_of(job, operation, change, {"sheet.drawing", {{"op", operation_label(operation)}}},
                    words);
}

paper::Drawing step_drawing(const Job& job, const Operation& operation, std::size_t k,
                            const Words& words) {
  const Step& step = operation.steps[k];
  const Step* before = k == 0 ? nullptr : &operation.steps[k - 1];
  // The tailstock comes when the end is faced and centred.
  const bool supported = step.kind != StepKind::face && step.kind != StepKind::centre;
  return drawing_of(job, operation,
                    {before != nullptr ? before->work_after : operation.before,
                     before != nullptr ? before->hollow_after : operation.hollow_before,
                     step.work_after, step.hollow_after, supported, step.gauged},
                    label_of(operation, step), words);
}

}  // namespace turnwright
