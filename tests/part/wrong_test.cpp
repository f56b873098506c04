// SPDX-License-Identifier: MIT
// What is said of wrong drawings and requests: every word, with its place.
#include "../wrong_texts.hpp"
#include "turnwright/part/bench_work.hpp"
#include "turnwright/part/request.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const std::string head = "part: {number: X}\nmaterial: C45\n";

std::string without_end(std::string text) {
  text.pop_back();
  return text;
}

}  // namespace

TEST_CASE("of a wrong element everything is said where it is wrong", "[part][wrong]") {
  check_wrong("part/wrong/elements.txt", 100, [](const std::string& element) {
    return read_part("x.yaml", head + "outside:\n  - 60 x10\n  - " + element + "  - 70 x10\n")
        .problems();
  });
}

TEST_CASE("of a wrong bore everything is said where it is wrong", "[part][bore][wrong]") {
  check_wrong("part/wrong/bores.txt", 10, [](const std::string& bore) {
    return read_part("x.yaml", head + "outside: [90 x120]\n" + bore).problems();
  });
}

TEST_CASE("of a wrong section of a part everything is said where it is wrong", "[part][wrong]") {
  check_wrong("part/wrong/sections.txt", 100, [](const std::string& section) {
    return read_part("x.yaml", head + "outside: [40 x50]\n" + section).problems();
  });
}

TEST_CASE("of a wrong part file everything is said where it is wrong", "[part][wrong]") {
  check_wrong("part/wrong/files.txt", 5,
              [](const std::string& text) { return read_part("x.yaml", text).problems(); });
}

TEST_CASE("of a wrong request everything is said where it is wrong", "[part][request][wrong]") {
  check_wrong("part/wrong/requests.txt", 55,
              [](const std::string& text) { return read_request("r.yaml", text).problems(); });
}

TEST_CASE("of wrong work at the bench the first fault is said", "[part][bench][wrong]") {
  check_wrong("part/wrong/bench.txt", 30, [](const std::string& line) {
    TextFault fault;
    const std::string text = without_end(line);
    const bool settings = text.starts_with("settings ");
    const bool refused = settings ? !read_bench_settings(text.substr(9), false, fault)
                                  : !read_bench_work(text, false, fault);
    Problem p;
    p.what = fault.what;
    p.expected = fault.expected;
    p.suggestion = fault.suggestion;
    return refused ? Problems{p} : Problems{};
  });
}
