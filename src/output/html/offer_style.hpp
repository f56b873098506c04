// SPDX-License-Identifier: MIT
#pragma once
// The look of a quotation, on paper first.

namespace turnwright {

inline constexpr const char* offer_style = R"css(
html { font: 10pt/1.4 "Liberation Sans", Arial, sans-serif; color: #1b1b1b; background: #fff; }
body { max-width: 178mm; margin: 12mm auto; padding: 0 5mm; }
header { display: grid; grid-template-columns: 1fr auto; gap: 10mm; align-items: start;
  margin-bottom: 7mm; }
.from { font-size: 9pt; color: #4a4a4a; margin: 0 0 9mm; }
.from b { display: block; font-size: 12.5pt; color: #1b1b1b; }
h1 { font-size: 19pt; margin: 0 0 3mm; font-weight: 600; }
dl { display: grid; grid-template-columns: auto 1fr; gap: 0.6mm 5mm; margin: 0; }
dt { color: #555; } dd { margin: 0; }
table { width: 100%; border-collapse: collapse; margin: 7mm 0; font-variant-numeric: tabular-nums; }
th { font-weight: 600; text-align: right; border-bottom: 0.4mm solid #1b1b1b; padding: 1.2mm 2mm; }
th:first-child, td.what { text-align: left; }
td { text-align: right; padding: 0.9mm 2mm; vertical-align: top; }
tbody { break-inside: avoid; }
tbody tr:last-child td { padding-bottom: 3mm; border-bottom: 0.2mm solid #b5b5b5; }
tbody tr.title td { padding-top: 3mm; font-weight: 600; border: 0; }
tr.facts td { color: #4a4a4a; font-size: 9.5pt; border: 0; }
.block { break-inside: avoid; margin: 5mm 0; }
p { margin: 0 0 2.5mm; orphans: 3; widows: 3; }
thead { display: table-header-group; }
@media print { body { margin: 0; padding: 0; max-width: none; } }
)css";

}  // namespace turnwright
