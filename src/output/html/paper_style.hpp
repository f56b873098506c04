// SPDX-License-Identifier: MIT
#pragma once
// The look of documents for paper, also on a screen. Its colours are those of the palette, which
// are set before it.

namespace turnwright {

inline constexpr const char* paper_style = R"css(
html { font-family: "Liberation Sans", Arial, sans-serif; line-height: 1.2; color: var(--ink); background: #fff; }
body { margin: 10mm auto; padding: 0 5mm; }
h1, h2, h3, p, ul, li, pre { margin: 0; font-size: 1em; font-weight: 400; }
h2, h3 { break-after: avoid; }
ul { padding-left: 4.5mm; } li { break-inside: avoid; }
.bold { font-weight: 700; } .slant { font-style: italic; }
.wide { overflow-x: auto; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: baseline; padding: 0.15em 0.4em; }
th { font-weight: 700; vertical-align: bottom; } .n { text-align: right; } td.n, .groups th { white-space: nowrap; } td.tight { width: 1%; white-space: nowrap; }
td.what { vertical-align: top; } td small { display: block; font-size: 0.82em; color: var(--grey); }
.rows th, .grid th, .groups th { border-bottom: 0.4mm solid var(--ink); }
.rows td { border-bottom: 0.15mm solid var(--line); } .grid td { border: 0.15mm solid #888; }
tbody { break-inside: avoid; } thead { display: table-header-group; }
.groups tbody { border-bottom: 0.15mm solid var(--line); }
.groups tbody tr:first-child td { padding-top: 1.8mm; } .groups tbody tr:last-child td { padding-bottom: 1.8mm; }
td, svg path { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.plain td:first-child { padding-left: 0; padding-right: 1em; }
.beside { display: grid; gap: 0 7mm; align-items: start; margin-top: 2mm; } .beside > div { min-width: 0; }
svg { max-width: 100%; height: auto; display: block; margin: 2mm auto 0; } svg text { fill: var(--ink); }
.pen { stroke: var(--ink); } .pen-pale { stroke: var(--line); }
hr { border: 0; border-top: 0.4mm dashed #888; margin: 8mm 0; }
svg.across { position: fixed; inset: 0; width: 100%; height: 100%; max-width: none; margin: 0; z-index: -1; pointer-events: none; }
[tabindex]:focus-visible { outline: 3px solid #1f5f8b; outline-offset: 2px; }
@media screen and (max-width: 700px) { .beside { grid-template-columns: 1fr !important; } p, li, td { overflow-wrap: anywhere; } }
@media print { body { margin: 0; padding: 0; max-width: none !important; } .wide { overflow: visible; } .beside { break-inside: avoid; }
  hr { break-after: page; visibility: hidden; margin: 0; } }
)css";

}  // namespace turnwright
