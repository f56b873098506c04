// SPDX-License-Identifier: MIT
// What a person would ask about before cutting: slips of the pen that can be read all the same.
#include "turnwright/route/doubts.hpp"

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Of a pin of 22 with a head of 32; invented.
std::vector<std::string> doubts_about(const std::string& first, const std::string& more = "") {
  const Job job = job_of("part: {number: X}\nmaterial: C45\nstock: auto\noutside:\n  - " + first +
                         "\n  - 32 x14\n" + more);
  std::vector<std::string> said;
  for (const Problem& doubt : doubts_of(job, shipped_shop())) {
    CHECK(std::count(job.unconfirmed.begin(), job.unconfirmed.end(), doubt.what) == 1);
    said.push_back(std::to_string(doubt.at.line) + ":" + std::to_string(doubt.at.column) + ": " +
                   english(doubt.what));
  }
  return said;
}

using Said = std::vector<std::string>;

}  // namespace

TEST_CASE("a fit of the other kind is asked about", "[route][doubts]") {
  CHECK(doubts_about("22 H7 x38") ==
        Said{"5:5: to confirm: 22 H7 x38: H7 is a fit of holes, and this is the outside: is h7 "
             "meant?"});
  CHECK(doubts_about("22 h7 x38", "bore from right: [10 h7 x20]\n") ==
        Said{"7:19: to confirm: 10 h7 x20: h7 is a fit of shafts, and this is a bore: is H7 "
             "meant?"});
  for (const char* right : {"22 h7 x38", "22 JS9 x38", "22 js9 x38", "22 +0.02/-0.02 x38"})
    CHECK(doubts_about(right, "bore from right: [10 H7 x20]\n").empty());
}

TEST_CASE("a thread of the other kind, or of no pitch that there is, is asked about",
          "[route][doubts]") {
  CHECK(doubts_about("M22x1.5-6H x38, undercut DIN 76-A").size() == 1);
  CHECK(doubts_about("M22x1.5-6g x38, undercut DIN 76-A").empty());
  CHECK(doubts_about("M22x1.5 x38, undercut DIN 76-A").empty());
  CHECK(doubts_about("M22x1.7 x38, undercut DIN 76-A") ==
        Said{"5:5: to confirm: M22x1.7 x38: 1.7 mm is no pitch of the metric series"});
  CHECK(doubts_about("22 x38", "bore from right: [M10-6g x15]\n").size() == 1);
}

TEST_CASE("a tolerance or roughness beyond the coarsest grade is asked about", "[route][doubts]") {
  CHECK(doubts_about("22 +5/-5 x38") ==
        Said{"5:5: to confirm: 22 +5/-5 x38: a tolerance of 10 mm, wider than IT18"});
  CHECK(doubts_about("22 +1/-1 x38").empty());
  CHECK(doubts_about("22 x38, Ra 160").size() == 1);
  CHECK(doubts_about("22 x38", "drawing: {Ra: 160}\n").size() == 1);
  CHECK(doubts_about("22 x38, Ra 50").empty());
  // What looks like another unit is said already.
  CHECK(doubts_about("22 x38, Ra 125").empty());
}

TEST_CASE("a keyway fits on its diameter", "[route][doubts]") {
  const auto keyway = [](const std::string& what) {
    return doubts_about("22 h7 x38", "other work: [\"" + what + ", 5 min\"]\n");
  };
  CHECK(keyway("keyway 6 P9 x30 on 22 h7").empty());
  CHECK(keyway("keyway 6 P9 x90 on 22 h7") == Said{"7:14: to confirm: keyway 6 P9 x90 on 22 h7: "
                                                   "longer than the land of 22 mm, which is 38 mm "
                                                   "long"});
  CHECK(keyway("keyway 6 P9 x30 on 23 h7") ==
        Said{"7:14: to confirm: keyway 6 P9 x30 on 23 h7: nothing on the drawing has 23 mm"});
  // What is not said cannot be asked about.
  CHECK(keyway("keyway").empty());
  CHECK(keyway("keyway on the seat").empty());
}
