// SPDX-License-Identifier: MIT
#include "offer_command.hpp"

#include <algorithm>
#include <ostream>

#include "files.hpp"
#include "load_command.hpp"
#include "print.hpp"
#include "request_files.hpp"
#include "turnwright/estimate/quote.hpp"
#include "turnwright/output/offer.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {
const std::vector<NamedText>& offer_files();  // built in from templates/offer
}

namespace turnwright::cli {
namespace {

// The shop's own file of this name in its templates folder, else the one that ships.
std::optional<NamedText> template_file(const Options& o, const std::string& name) {
  const std::string own = o.shop + "/templates/" + name;
  if (!o.shop.empty() && exists(own)) return NamedText{own, read_file(own)};
  for (const NamedText& file : offer_files())
    if (file.name == name) return file;
  return std::nullopt;
}

struct Template {
  OfferWords words;
  OfferTexts texts;
};

Checked<Template> read_template(const Options& o, const CustomerQuote& quote) {
  const std::string language = o.language.empty() ? "en" : o.language;
  const auto file = template_file(o, "words." + language + ".yaml");
  auto missing = [&](const std::string& name) {
    Problem p;
    p.file = "--language " + language;
    p.what = "there is no '" + name + "'";
    p.expected = "en or de, or such a file in the templates folder of the shop folder";
    return Problems{p};
  };
  if (!file) return missing("words." + language + ".yaml");
  const auto words = read_offer_words(file->name, file->text);
  if (!words) return words.problems();
  Template t{*words, {}};
  Problems problems;
  for (const auto& [name, into] : {std::pair{std::string("sender.txt"), &t.texts.sender},
                                   {"opening." + language + ".txt", &t.texts.opening},
                                   {"terms." + language + ".txt", &t.texts.terms},
                                   {"closing." + language + ".txt", &t.texts.closing}}) {
    const auto text = template_file(o, name);
    if (!text) {
      problems = missing(name);
      continue;
    }
    const auto done = filled(text->name, text->text, quote, t.words);
    if (done)
      *into = *done;
    else
      problems.insert(problems.end(), done.problems().begin(), done.problems().end());
  }
  if (!problems.empty()) return problems;
  return t;
}

std::optional<Quote> quoted(const OrderedPart& ordered, const Request& request, const Shop& shop,
                            const Options& o, std::ostream& err) {
  const auto job = job_of(ordered.part, ordered.text, shop, err);
  if (!job) return std::nullopt;
  const Route route = plan_route(*job, shop, {o.machine, MethodKind::rough_then_finish});
  if (!route.feasible) {
    err << ordered.path << ": not possible: " << route.why_not << "\n";
    return std::nullopt;
  }
  Quote quote = make_quote(route, shop);
  mark_old_price(quote, request.date, shop.policy);
  return quote;
}

}  // namespace

Exit offer_command(const Options& o, const Streams& s, const Shop& shop) {
  const std::string& path = o.operands[0];
  auto request = read_request(path, read_file(path));
  if (!request) {
    print(request.problems(), s.err);
    return Exit::input_wrong;
  }
  if (!o.week.empty())
    if (const Exit exit = put_weeks(o, s, shop, *request); exit != Exit::done) return exit;
  std::vector<Quote> quotes;
  std::size_t refused = 0;
  for (const OrderedPart& part : ordered_parts(*request)) {
    auto quote = quoted(part, *request, shop, o, s.err);
    if (quote)
      quotes.push_back(std::move(*quote));
    else
      ++refused;
  }
  if (refused > 0) {
    s.err << "no offer written: " << refused << " of " << request->parts.size()
          << " parts cannot be priced\n";
    return refused == request->parts.size() ? Exit::input_wrong : Exit::answer_is_no;
  }
  const CustomerQuote quote = customer_quote(*request, quotes, shop.policy);
  const auto made = read_template(o, quote);
  if (!made) {
    print(made.problems(), s.err);
    return Exit::input_wrong;
  }
  // What the estimator must know before it is sent stays here.
  for (const Quote& q : quotes)
    for (const std::string& u : q.unconfirmed)
      s.err << "not confirmed: " << q.route.job.part.number << ": " << u << "\n";
  if (o.output.empty()) {
    s.out << offer_page(quote, made->words, made->texts);
    return Exit::done;
  }
  if (o.output.ends_with(".html"))
    write_text(o.output, offer_page(quote, made->words, made->texts));
  else
    write_whole(o.output, [&](const std::string& temporary) {
      write_offer_workbook(quote, made->words, made->texts, temporary);
      verify_workbook(temporary);
    });
  s.err << "written: " << o.output << "\n";
  return Exit::done;
}

}  // namespace turnwright::cli
