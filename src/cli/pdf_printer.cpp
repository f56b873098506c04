// SPDX-License-Identifier: MIT
#include "pdf_printer.hpp"

#include "files.hpp"
#include "plugin_library.hpp"

namespace turnwright::cli {
namespace {

constexpr Plugin plugin{"libturnwright-pdf.so", "libpango1.0-dev",     "libpangocairo-1.0-0",
                        pdf::version_name,      pdf::boundary_version, "pdf.no-plugin",
                        "pdf.no-library",       "pdf.other-plugin"};

}  // namespace

PdfPrinter::PdfPrinter() {
  PluginLibrary library(plugin);
  draw_ = library.function<pdf::DrawFunction>(pdf::draw_name);
  picture_ = library.function<pdf::PictureFunction>(pdf::picture_name);
  fault_ = library.fault();
}

std::string PdfPrinter::drawn(const paper::Paper& paper) const {
  std::string bytes;
  const int done = draw_(&paper, &bytes);
  if (done == 2) throw DiskFailed("pdf.no-font");
  if (done == 3) throw DiskFailed("pdf.too-high");
  if (done != 1) throw DiskFailed("pdf.not-drawn");
  return bytes;
}

std::string PdfPrinter::picture(const paper::Drawing& drawing, double pixels) const {
  std::string bytes;
  if (picture_ != nullptr) picture_(&drawing, pixels, &bytes);
  return bytes;
}

}  // namespace turnwright::cli
