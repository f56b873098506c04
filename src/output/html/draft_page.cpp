// SPDX-License-Identifier: MIT
// The draft as a page to read beside the drawing.
#include "html/drawing_svg.hpp"
#include "html/page_style.hpp"
#include "html/page_writer.hpp"
#include "turnwright/output/draft.hpp"
#include "turnwright/output/part_drawing.hpp"

namespace turnwright {
namespace {

void elements(PageWriter& page, const char* heading, const std::vector<std::string>& list) {
  if (list.empty()) return;
  page.heading(2, heading);
  page.list(verbatims(list));
}

void sentences(PageWriter& page, const char* heading, const Messages& list) {
  if (list.empty()) return;
  page.heading(2, heading);
  page.list(list);
}

Messages face_grooves(const Draft& draft) {
  Messages list;
  for (const auto& [grooves, id] : {std::pair{&draft.right_grooves, "draft.groove-right"},
                                    std::pair{&draft.left_grooves, "draft.groove-left"}})
    for (const DraftFaceGroove& g : *grooves)
      list.push_back({id, {{"width", g.width}, {"depth", g.depth}, {"from", g.from}}});
  return list;
}

}  // namespace

std::string draft_page(const DraftedModel& drafted, const Words& words) {
  PageWriter page(words);
  const Draft& draft = drafted.draft;
  const Message title{"draft.title", {{"file", drafted.file}}};
  page.begin(words(title), page_style);
  page.markup().open("main");
  page.heading(1, title);
  page.note(recognition_line(drafted.model));
  page.list(solid_lines(drafted.model));
  if (drafted.job) put_picture(page.markup(), part_drawing(*drafted.job, words));
  sentences(page, "draft.to-confirm", draft.to_confirm);
  elements(page, "draft.outside", draft.outside);
  elements(page, "draft.bore-right", draft.bore_right);
  elements(page, "draft.bore-left", draft.bore_left);
  sentences(page, "draft.faces", face_grooves(draft));
  sentences(page, "text.other-work", draft.other_work);
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
