// SPDX-License-Identifier: MIT
#include "pdf_printer.hpp"

#include "files.hpp"
#include "plugin_library.hpp"

namespace turnwright::cli {
namespace {

constexpr const char* plugin_name = "libturnwright-pdf.so";
constexpr const char* build_package = "libpango1.0-dev";
constexpr const char* runtime_package = "libpangocairo-1.0-0";

}  // namespace

PdfPrinter::PdfPrinter() {
  const PluginLibrary library(plugin_name);
  if (library.path().empty()) {
    fault_ = {"pdf.no-plugin", {{"file", plugin_name}, {"package", build_package}}};
    return;
  }
  if (!library.why().empty()) {
    fault_ = {"pdf.no-library", {{"package", runtime_package}, {"why", library.why()}}};
    return;
  }
  auto* const count = library.function<pdf::VersionFunction>(pdf::version_name);
  draw_ = library.function<pdf::DrawFunction>(pdf::draw_name);
  if (count == nullptr || draw_ == nullptr || count() != pdf::boundary_version)
    fault_ = {"pdf.other-plugin", {{"file", library.path()}}};
}

std::string PdfPrinter::drawn(const paper::Paper& paper) const {
  std::string bytes;
  const int done = draw_(&paper, &bytes);
  if (done == 2) throw DiskFailed("pdf.no-font");
  if (done == 3) throw DiskFailed("pdf.too-high");
  if (done != 1) throw DiskFailed("pdf.not-drawn");
  return bytes;
}

}  // namespace turnwright::cli
