// SPDX-License-Identifier: MIT
// From a customer's solid models to part files to read through, complete and quote.
#include <cmath>
#include <deque>
#include <filesystem>
#include <ostream>

#include "command.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "model_reader.hpp"
#include "outputs.hpp"
#include "turnwright/output/draft.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

constexpr double same_volume = 1e-4;  // of the outline; sizes are written rounded

// "a/bolt.step" is the part "bolt", its second solid "bolt-2".
std::string number_of(const std::string& path, const Recognition& model) {
  const std::string stem = std::filesystem::path(path).stem().string();
  return model.solids.size() > 1 ? stem + "-" + std::to_string(model.solid) : stem;
}

// The part that the draft describes, as `check` sees it; nothing where it is refused.
std::optional<Job> job_of(const Session& session, const std::string& text) {
  const auto part = read_part("", text, session.shop.currencies);
  if (!part) return std::nullopt;
  const auto job = prepare(*part, session.shop);
  if (!job) return std::nullopt;
  return *job;
}

void ask_for_difference(DraftedModel& drafted) {
  const Recognition& m = drafted.model;
  if (!drafted.job) {
    drafted.draft.to_confirm.push_back("draft.does-not-fit");
    return;
  }
  const Volume drawn = draft_volume(*drafted.job) - drafted.draft.other_recesses;
  const double share = (drawn / m.outline_volume).si - 1;
  if (std::abs(share) > same_volume)
    drafted.draft.to_confirm.push_back({"draft.differs", {{"share", Share{std::abs(share)}}}});
}

// With edges and grooves as a drawing has them, or, where those do not fit, surface by surface.
void make_draft(const Session& session, DraftedModel& drafted) {
  const std::string number = number_of(drafted.file, drafted.model);
  for (const DraftDetail detail : {DraftDetail::features, DraftDetail::surfaces}) {
    drafted.draft = draft_of(drafted.model, {number, session.options.flip, detail});
    drafted.job = job_of(session, draft_file(drafted, session.words_for(drafted.model.inch)));
    if (drafted.job) break;
  }
  ask_for_difference(drafted);
}

class Drafting {
 public:
  explicit Drafting(Session& session)
      : session_(session),
        o_(session.options),
        several_(o_.operands.size() > 1),
        names_(o_.output) {}

  Exit run() {
    if (!plugin_.fault().empty()) {
      session_.say(plugin_.fault());
      return Exit::disk_failed;
    }
    const Exit exit = for_each_input(o_.operands, [&](const std::string& path) {
      start_more();
      Started started = std::move(running_.front());
      running_.pop_front();
      return one(path, started.reading ? started.reading->wait()
                                       : ModelAnswer{std::nullopt, std::move(started.fault)});
    });
    if (several_ && !o_.json) session_.streams.out << draft_table(done_, session_.words);
    return exit;
  }

 private:
  // A model being read, or why it is not.
  struct Started {
    std::optional<ModelReading> reading;
    Message fault;
  };
  // Among many, a file that is not there is a row that failed.
  Message fault_of_file(const std::string& path) const {
    try {
      const InputFile there(path);
    } catch (const DiskFailed& failed) {
      if (!several_) throw;
      return failed.why;
    }
    return {};
  }
  // As many models at once as there are processors.
  void start_more() {
    while (next_ < o_.operands.size() &&
           running_.size() < static_cast<std::size_t>(session_.threads())) {
      const std::string& path = o_.operands[next_++];
      Started started{std::nullopt, fault_of_file(path)};
      session_.streams.out.flush();
      if (started.fault.empty())
        started.reading.emplace(plugin_, path, ModelOptions{o_.solid, o_.flip, o_.seconds});
      running_.push_back(std::move(started));
    }
  }
  // Of many, the table says it.
  void refused(DraftedModel& drafted, Message why) {
    if (!several_ || o_.json)
      session_.note({"draft.refused", {{"file", drafted.file}, {"why", why}}});
    drafted.why_not = std::move(why);
  }

  Exit one(const std::string& path, ModelAnswer answer) {
    DraftedModel drafted;
    drafted.file = std::filesystem::path(path).filename().string();
    if (answer.model) drafted.model = std::move(*answer.model);
    Message why = answer.model ? why_none(drafted.model) : std::move(answer.fault);
    if (why.empty()) make_draft(session_, drafted);
    const Exit exit = why.empty() ? written(drafted) : not_written(drafted, std::move(why));
    done_.push_back(std::move(drafted));
    done_.back().job.reset();
    return exit;
  }

  Message why_none(const Recognition& model) const {
    const std::size_t solids = model.solids.size();
    if (solids > 0 && o_.solid > static_cast<int>(solids))
      return {"draft.no-such-solid", {{"solid", o_.solid}, {"n", solids}}};
    return why_no_draft(model);
  }
  Exit not_written(DraftedModel& drafted, Message why) {
    const Recognition& model = drafted.model;
    refused(drafted, std::move(why));
    if (o_.json) put_text("", draft_json(drafted));
    if (!several_)
      for (const Message& line : solid_lines(model)) session_.note(line);
    if (model.solid == 0) return Exit::input_wrong;
    if (!several_) session_.note(recognition_line(model));
    return Exit::answer_is_no;
  }
  Exit written(DraftedModel& drafted) {
    const Words words = session_.words_for(drafted.model.inch);
    const std::string to = target(drafted);
    const FileFormat format = to.empty() && o_.json ? FileFormat::json : format_of(to);
    if (format != FileFormat::json && !to.empty() && exists(to)) {
      refused(drafted, {"cli.there-already", {{"path", to}}});
      return Exit::input_wrong;
    }
    put_text(to, format == FileFormat::json   ? draft_json(drafted)
                 : format == FileFormat::page ? draft_page(drafted, words)
                                              : draft_file(drafted, words));
    drafted.written = to;
    if (!several_ && !to.empty()) session_.note(recognition_line(drafted.model));
    return Exit::done;
  }
  std::string target(const DraftedModel& drafted) {
    if (o_.output.empty() || !is_folder(o_.output)) return o_.output;
    return names_.path(drafted.draft.number, o_.json ? ".json" : ".yaml");
  }
  void put_text(const std::string& to, const std::string& text) {
    if (several_ && to.empty())
      outputs().put_json(to, text);
    else if (to.empty())
      session_.streams.out << text;
    else
      write_text(to, text);
  }
  Outputs outputs() const { return Outputs(session_, several_); }

  Session& session_;
  const Options& o_;
  bool several_;
  FileNames names_;
  ModelPlugin plugin_;
  std::size_t next_ = 0;
  std::deque<Started> running_;
  std::vector<DraftedModel> done_;
};

Message fault_of(const Session& session) {
  const Options& o = session.options;
  if (o.operands.empty()) return "draft.which-model";
  const bool folder = !o.output.empty() && is_folder(o.output);
  if (o.operands.size() > 1 && !folder && !o.json) return "cli.output-folder";
  for (const std::string& path : o.operands)
    if (is_standard_input(path) || is_folder(path))
      return {"draft.no-model-file", {{"path", path}}};
  return output_fault(session, {".yaml", ".html", ".json"}, true);
}

}  // namespace

Exit draft(Session& session) {
  if (const Message fault = fault_of(session); !fault.empty()) return session.wrong(fault);
  if (!read_shop_files(session)) return Exit::input_wrong;
  return Drafting(session).run();
}

}  // namespace turnwright::cli
