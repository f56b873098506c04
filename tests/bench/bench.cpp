// SPDX-License-Identifier: MIT
// bench SHOP-FILE PART: times in one run. Ratios against the raw libraries underneath bind;
// absolute times are printed beside them.
#include <sys/stat.h>
#include <xlsxwriter.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <functional>
#include <sstream>

#include "../one_method.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/compare/inputs.hpp"
#include "turnwright/compare/tuned.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/output/page.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/tune/multi_pass.hpp"

using namespace turnwright;

namespace {

std::string bytes_of(const char* path) {
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

// Best of several runs, microseconds.
double best(int runs, const std::function<void()>& work) {
  double least = 1e300;
  for (int i = 0; i < runs; ++i) {
    const auto start = std::chrono::steady_clock::now();
    work();
    least = std::min(
        least, std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start)
                   .count());
  }
  return least;
}

// The same numbers of cells, formulas and sheets through the raw library.
void raw_workbook(const char* path, int numbers, int formulas, int strings) {
  lxw_workbook* book = workbook_new(path);
  lxw_format* format = workbook_add_format(book);
  format_set_num_format(format, "0.000");
  lxw_worksheet* sheets[6];
  for (auto& sheet : sheets) sheet = workbook_add_worksheet(book, nullptr);
  for (int i = 0; i < numbers; ++i)
    worksheet_write_number(sheets[i % 6], static_cast<lxw_row_t>(i / 60),
                           static_cast<lxw_col_t>(i / 6 % 10), i * 0.37, format);
  for (int i = 0; i < formulas; ++i)
    worksheet_write_formula_num(sheets[i % 6], static_cast<lxw_row_t>(i / 60),
                                static_cast<lxw_col_t>(10 + i / 6 % 10),
                                "=1000*B4/(PI()*C4)+Sheet2!E7*H12", format, i * 0.37);
  for (int i = 0; i < strings; ++i) {
    const std::string text = "a text of usual length " + std::to_string(i);
    worksheet_write_string(sheets[i % 6], static_cast<lxw_row_t>(i / 60),
                           static_cast<lxw_col_t>(20 + i / 6 % 10), text.c_str(), format);
  }
  lxw_chart* chart = workbook_add_chart(book, LXW_CHART_COLUMN);
  chart_add_series(chart, nullptr, "=Sheet1!$A$1:$A$3");
  worksheet_insert_chart(sheets[0], 1, 30, chart);
  lxw_chart* second = workbook_add_chart(book, LXW_CHART_COLUMN);
  chart_add_series(second, nullptr, "=Sheet2!$A$1:$A$3");
  worksheet_insert_chart(sheets[1], 1, 30, second);
  workbook_close(book);
}

int count_of(const std::string& path, const std::string& what) {
  const std::string command =
      "unzip -p " + path + " 'xl/worksheets/*.xml' | grep -o '" + what + "' | wc -l";
  int n = 0;
  if (FILE* pipe = popen(command.c_str(), "r")) {
    if (fscanf(pipe, "%d", &n) != 1) n = 0;
    pclose(pipe);
  }
  return n;
}

// One pass under feed, power and finish; several passes with their proof; a whole part.
void optimum(const Part& part, const Shop& shop) {
  const CutTerm minutes{12.57, -1, -1, 0};
  CutTerm tool = minutes * power(power(CutTerm{140, -1, -0.29, 0}, 4), -1);
  tool.factor *= 5.5;
  CutProblem p;
  p.cost = {minutes, tool};
  p.speed = {1, 2000};
  p.feed = {1e-4, 0.005};
  p.depth = {1, 1};
  p.limits = {{LimitId::power, {3.58, 0.91, 0.78, 0}, 10},
              {LimitId::roughness, {1.36e8, -1.52, 1.004, 0}, 100}};
  const double one = best(200, [&] {
    if (!least_cost(p).proved()) std::abort();
  });
  std::vector<double> times;
  for (const double stock : {6.0, 8.0, 8.5, 9.0, 9.5, 10.0})
    for (const double weight : {0.2, 0.5, 0.8}) {
      MultiPassProblem m;
      m.diameter = 50;
      m.length = 300;
      m.stock = stock;
      m.life = {6e11, 5, 1.75, 0.75};
      m.rough.speed = {50, 500};
      m.rough.feed = {0.1, 0.9};
      m.rough.depth = {1, 3};
      m.rough.life = {25, 45};
      m.rough.limits = {{LimitId::cutting_force, {108, 0, 0.75, 0.95}, 200},
                        {LimitId::power, {108 / (6120 * 0.85), 1, 0.75, 0.95}, 5}};
      m.finish = m.rough;
      m.minute = 0.5;
      m.edge = 2.5;
      m.fixed = 0.75;
      m.each_pass = 0.51;
      m.change_edge = 1.5;
      m.life_weight = weight;
      m.feed_ratio = 2.5;
      times.push_back(best(5, [&] {
        if (!least_cost(m).proved()) std::abort();
      }));
    }
  std::sort(times.begin(), times.end());
  const double whole = best(9, [&] { (void)test::tune_on(part, shop, "", TuneRule::cost); });
  std::printf(
      "optimum of one pass               %8.1f us (at most 50); several passes with proof, median "
      "%.2f ms, worst %.1f (30); the part %.1f ms (200)\n",
      one, times[times.size() / 2] / 1000, times.back() / 1000, whole / 1000);
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) return 2;
  auto files = shipped_rates();
  const std::size_t own = files.size();
  files.push_back({words[1], bytes_of(words[1])});
  const std::string part_text = bytes_of(words[2]);
  const auto shop = read_shop(files, own);
  const auto part = read_part(words[2], part_text);
  const auto job = prepare(*part, *shop);
  const std::string out = "/tmp/turnwright-bench.xlsx", raw_out = "/tmp/turnwright-bench-raw.xlsx";

  const double ours = best(15, [&] {
    const auto s = read_shop(files, own);
    const auto p = read_part(words[2], part_text);
    const auto j = prepare(*p, *s);
    write_workbook(*quote_part(*j, *s, {}), *s, {}, Words(), out);
  });
  const int formulas = count_of(out, "<f>"), strings = count_of(out, "t=\"s\""),
            all = count_of(out, "<v>");
  const double raw = best(15, [&] {
    for (const NamedText& file : files) (void)YAML::Load(file.text);
    (void)YAML::Load(part_text);
    raw_workbook(raw_out.c_str(), all - formulas - strings, formulas, strings);
  });
  std::printf(
      "one quote, files to workbook      %8.0f us, raw libraries %8.0f us, ratio %.2f (at most "
      "1.5)\n",
      ours, raw, ours / raw);
  const double reading = best(15, [&] { (void)read_shop(files, own); });
  const double yaml = best(15, [&] {
    for (const NamedText& file : files) (void)YAML::Load(file.text);
  });
  std::printf("  of it reading the rates         %8.0f us, raw yaml      %8.0f us\n", reading,
              yaml);
  const double writing =
      best(15, [&] { raw_workbook(raw_out.c_str(), all - formulas - strings, formulas, strings); });
  std::printf("  cells: %d numbers, %d formulas, %d strings; raw workbook %.0f us\n",
              all - formulas - strings, formulas, strings, writing);
  const double plan = best(200, [&] {
    const Quote q = make_quote(*plan_route(*job, *shop, {}), *shop);
    if (q.prices.empty()) std::abort();
  });
  std::printf(
      "plan, times and costs             %8.0f us (a shaft at most 400, bore and thread 500)\n",
      plan);

  const Quote quote = make_quote(*plan_route(*job, *shop, {}), *shop);
  const double draws = best(50, [&] {
    if (with_band(quote, *shop).prices.front().causes.empty()) std::abort();
  });
  std::printf("4,096 draws of every price        %8.0f us (at most 4000)\n", draws);

  const double choosing = best(50, [&] { (void)quote_part(*job, *shop, {}); });
  const double pricing = best(50, [&] { (void)price_part(*job, *shop, {}); });
  const PartQuote chosen = *quote_part(*job, *shop, {});
  std::printf(
      "%zu practised methods, chosen     %8.0f us (at most 5000); the prices alone %.0f us\n",
      chosen.methods.methods.size(), choosing, pricing);
  std::size_t size = 0;
  const double page = best(50, [&] { size = quote_page(chosen, *shop, {}, Words()).size(); });
  std::printf("the inside page                   %8.0f us, %zu KB (at most 20000 us, 300 KB)\n",
              page, size / 1024);

  optimum(*part, *shop);
  Combining combining;
  const double all_methods =
      best(9, [&] { (void)compare_all(*job, *shop, {}, {}, true, combining); });
  const Comparison c = compare_all(*job, *shop, {}, {}, true, combining);
  const double changes = best(3, [&] { (void)winner_changes(*part, *shop, c, 50); });
  const double mapped = best(3, [&] { (void)method_map(*part, *shop, c, 40, 40); });
  std::printf(
      "all methods, %d pairs, lead to 1,000 %6.1f ms (at most 100), changes of the winner %.0f ms "
      "(1000), map 40 x 40 %.0f ms (2000)\n",
      combining.planned, all_methods / 1000, changes / 1000, mapped / 1000);
  constexpr int n = 2000000;
  volatile double sink = 0;
  const double hand = best(9, [&] {
    double sum = 0;
    for (int i = 1; i <= n; ++i) sum += 2.0 / (pi * (0.00001 * i));
    sink = sum;
  });
  const double figure_time = best(9, [&] {
    double sum = 0;
    for (int i = 1; i <= n; ++i)
      sum += figure::SpindleSpeed::work_out<>({Speed(2.0), Length(0.00001 * i)}).spindle_speed.si;
    sink = sum;
  });
  (void)sink;
  std::printf(
      "a figure                          %8.3f ns, by hand %8.3f ns, ratio %.3f (at most 1.05)\n",
      figure_time * 1000 / n, hand * 1000 / n, figure_time / hand);
  return 0;
}
