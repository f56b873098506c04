// SPDX-License-Identifier: MIT
#pragma once
// The files of rates/ and of a shop folder as sections of records, with all that is wrong in them.
#include <deque>

#include "sections.hpp"

namespace turnwright {

/// Every section that a file of rates may have.
const std::vector<std::string>& section_names();

class RateFiles {
 public:
  /// In order, a later file's record over an earlier one's; from `own_from` on they are the shop's.
  RateFiles(const std::vector<NamedText>& files, std::size_t own_from);
  ~RateFiles() = default;
  RateFiles(const RateFiles&) = delete;
  RateFiles& operator=(const RateFiles&) = delete;

  const Sections& sections() const { return sections_; }
  /// What amounts may be written in from here on.
  void use(const Currencies& currencies);
  std::map<std::string, std::string> source_titles() const;
  Problems problems() const;

 private:
  struct File {
    Document document;
    std::unique_ptr<ProblemList> notes;
  };

  void gather(File& file, bool own);
  void gather_section(const Member& member, File& file, bool own);
  void lay_over(std::string_view section, RecordNode record, RecordNode& old);

  std::deque<File> files_;      // the sections point into them
  std::deque<Node> completed_;  // and into these: own records with what they leave out
  Problems unread_;
  Sections sections_;
};

}  // namespace turnwright
