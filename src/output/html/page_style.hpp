// SPDX-License-Identifier: MIT
#pragma once
// The look of the inside page. Every ink has at least 4.5:1 on its ground in both schemes
// (WCAG 2.1, 1.4.3); tests/output/page_test.mjs measures it.

namespace turnwright {

inline constexpr const char* page_style = R"css(
:root { color-scheme: light dark; --ground: #fff; --raised: #f2f4f6; --ink: #1c2126; --soft: #4d5660;
  --rule: #c3cad1; --line: #79838c; --body: #c9d3dc; --cut: #b4430f; --warn: #8f1d14;
  --k0: #1f5f8b; --k1: #b4430f; --k2: #3d7a3a; --k3: #7a4fa3; --k4: #806300; --k5: #0b7272; --k6: #a3386c; --k7: #555f69; }
@media screen and (prefers-color-scheme: dark) { :root { --ground: #14181c; --raised: #20262c; --ink: #e8ecef;
  --soft: #b1bbc4; --rule: #3b444d; --line: #8a95a0; --body: #3f4c58; --cut: #ff9a5c; --warn: #ff9d94;
  --k0: #7cc0ee; --k1: #ff9a5c; --k2: #8fcf8b; --k3: #c3a2ea; --k4: #dcc14f; --k5: #62cfcf; --k6: #ef8fbb; --k7: #b4bec8; } }
* { box-sizing: border-box; }
html { font: 15px/1.5 "Liberation Sans", Arial, sans-serif; background: var(--ground); color: var(--ink); }
body { max-width: 1000px; margin: 0 auto; padding: 18px 24px 60px; }
h1 { font-size: 25px; margin: 4px 0 2px; } h2 { font-size: 19px; margin: 40px 0 10px; } h3 { font-size: 16px; margin: 24px 0 6px; }
p { margin: 6px 0; } .soft { color: var(--soft); } .warn { color: var(--warn); font-weight: 600; }
nav { margin: 10px 0; display: flex; flex-wrap: wrap; gap: 4px 16px; } a { color: var(--k0); }
a:focus-visible, input:focus-visible + label, [tabindex]:focus-visible, summary:focus-visible, figure:focus-visible { outline: 3px solid var(--k0); outline-offset: 2px; }
.wide { overflow-x: auto; } table { border-collapse: collapse; font-variant-numeric: tabular-nums; margin: 8px 0; }
th, td { padding: 3px 12px 3px 0; text-align: right; vertical-align: top; border-bottom: 1px solid var(--rule); }
th { font-weight: 600; } th:first-child, td:first-child, .left { text-align: left; } td.text, th.text { text-align: left; max-width: 420px; }
td.strong { font-weight: 700; } 
svg { max-width: 100%; height: auto; display: block; } svg text { fill: var(--ink); font-size: 13.5px; }
.fill-none { fill: none; } .fill-body { fill: var(--body); } .fill-cut { fill: var(--cut); } .fill-white { fill: var(--ground); }
.pen { stroke: var(--ink); } .pen-pale { stroke: var(--line); } .thin { fill: none; stroke: var(--line); stroke-width: 0.8; } .grid { fill: none; stroke: var(--rule); stroke-width: 1; }
.axis { fill: none; stroke: var(--ink); stroke-width: 0.8; stroke-dasharray: 14 4 3 4; } .line { fill: none; stroke-width: 2.2; }
.k0 { fill: var(--k0); } .k1 { fill: var(--k1); } .k2 { fill: var(--k2); } .k3 { fill: var(--k3); } .k4 { fill: var(--k4); } .k5 { fill: var(--k5); } .k6 { fill: var(--k6); } .k7 { fill: var(--k7); }
.s0 { stroke: var(--k0); } .s1 { stroke: var(--k1); } .s2 { stroke: var(--k2); } .s3 { stroke: var(--k3); } .s4 { stroke: var(--k4); } .s5 { stroke: var(--k5); } .s6 { stroke: var(--k6); } .s7 { stroke: var(--k7); }
rect { stroke: var(--ground); stroke-width: 1; } .faint { fill-opacity: 0.45; }
.key { display: inline-block; width: 11px; height: 11px; margin-right: 6px; background: var(--c); }
fieldset { border: 1px solid var(--rule); margin: 14px 0; padding: 8px 14px 12px; min-width: 0; } legend { font-weight: 600; padding: 0 6px; }
.step input { position: absolute; opacity: 0; width: 1px; height: 1px; } .step label { display: inline-block; padding: 3px 9px; margin: 2px 2px 2px 0; border: 1px solid var(--line); border-radius: 3px; cursor: pointer; }
.step input:checked + label { background: var(--ink); color: var(--ground); }
figure { margin: 10px 0 0; } figcaption { margin: 4px 0; } figure figcaption p { margin: 2px 0; }
details { margin: 8px 0; } summary { cursor: pointer; color: var(--k0); }
@media screen and (max-width: 700px) { figure { overflow-x: auto; } figure svg { max-width: none; } body { padding: 12px 12px 40px; } }
.beside { display: flex; flex-wrap: wrap; gap: 0 24px; align-items: flex-start; } .beside > .wide { flex: 0 1 auto; } .beside > figure { flex: 0 0 350px; max-width: 350px; margin: 0; }
ul { margin: 4px 0; padding-left: 22px; }
@media print { html { font-size: 9pt; line-height: 1.35; } body { max-width: none; padding: 0; } nav, details, .choices, .on-screen, #sources { display: none; }
  .risks { float: left; width: 42%; } .questions { float: right; width: 55%; } .times { clear: both; }
  ul { columns: 2; column-gap: 8mm; } li { break-inside: avoid; } .cautions { font-size: 8pt; }
  h1 { font-size: 15pt; } h2, h3 { break-after: avoid; } h2 { font-size: 12pt; margin: 9px 0 3px; } h3 { font-size: 9.5pt; margin: 6px 0 2px; } p { margin: 1px 0; }
  figure, tr, svg, fieldset, .risks, .questions { break-inside: avoid; } thead { display: table-header-group; } .step figure:not(.n0) { display: none; }
  fieldset { margin: 6px 0; padding: 2px 8px 6px; } figure { margin: 4px 0 0; } figure svg { max-height: 36mm; } .step svg { max-height: 29mm; } .beside > figure { flex-basis: 70mm; }
  .wide { overflow: visible; } table { font-size: 8pt; margin: 4px 0; } th, td { padding: 1px 9px 1px 0; }
  svg path, rect, circle, .key { print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
@page { margin: 11mm 13mm 12mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt Arial, sans-serif; } }
)css";

}  // namespace turnwright
