// SPDX-License-Identifier: MIT
#pragma once
// The priced table as it is asked for: text to standard output or a file, or a workbook. Whole or
// not at all.
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "files.hpp"
#include "paths.hpp"
#include "session.hpp"
#include "turnwright/output/price_table.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright::cli {

class PriceOutput {
 public:
  PriceOutput(const Session& session, const std::string& path)
      : words_(session.words), out_(session.streams.out) {
    if (format_of(path) == FileFormat::workbook) {
      file_.emplace(path);
      book_.emplace(file_->temporary(), words_);
    } else if (!path.empty()) {
      text_.emplace(path);
    }
  }
  void add(const std::vector<PriceRow>& rows) {
    if (!begun_ && !book_) stream() << price_head();
    begun_ = true;
    for (const PriceRow& row : rows)
      if (book_)
        book_->add(row);
      else
        stream() << price_line(row);
  }
  /// All is added: the file to be kept, where there is one.
  PendingFile* finished() {
    if (text_) return &text_->finished();
    if (!book_) return nullptr;
    book_->close();
    return &*file_;
  }

 private:
  std::ostream& stream() { return text_ ? text_->stream() : out_; }

  const Words& words_;
  std::ostream& out_;
  std::optional<WholeFile> text_;
  std::optional<PendingFile> file_;
  std::optional<PriceBook> book_;
  bool begun_ = false;
};

}  // namespace turnwright::cli
