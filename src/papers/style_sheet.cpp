#include "papers/style_sheet.hpp"

namespace tideover::papers {

namespace {

// Contrast on #fffdf8: #1b1b1a 16.9, #55524b 7.6, #8c2f1b 7.7 to 1 (WCAG 2.1 asks for 4.5).
constexpr std::string_view rules = R"css(
:root { color-scheme: light; --paper: #fffdf8; --ink: #1b1b1a; --quiet: #55524b;
  --rule: #cfc9bb; --warn: #8c2f1b; }
* { box-sizing: border-box; }
html { background: #ece8de; }
body { margin: 2.5rem auto; max-width: 60rem; padding: 4rem 5rem; background: var(--paper);
  color: var(--ink); font: 1.0625rem/1.6 "Charter", "Bitstream Charter", "Source Serif 4",
  "Liberation Serif", Georgia, serif; }
h1 { font-size: 2.25rem; line-height: 1.15; font-weight: 600; margin: 0 0 .4rem; }
h2 { font-size: 1.45rem; font-weight: 600; margin: 3.6rem 0 1rem; line-height: 1.25; }
h3 { font-size: 1.06rem; font-weight: 600; margin: 2rem 0 .4rem; }
p, ul, ol { margin: 0 0 .9rem; max-width: 40rem; }
a { color: inherit; text-underline-offset: .15em; }
header p { color: var(--quiet); }
nav ol { columns: 2; column-gap: 2.5rem; padding: 1.2rem 0 0 1.3rem; margin-top: 1.6rem;
  border-top: 1px solid var(--rule); font-size: .95rem; max-width: none; }
.said { font-size: 1.28rem; line-height: 1.45; margin-bottom: .7rem; }
.judged { list-style: none; padding: 0; max-width: none; margin-top: 1.8rem; }
.judged li { display: grid; grid-template-columns: 5.6rem 1fr; column-gap: 1rem; margin: 0;
  padding: .65rem 0; border-top: 1px solid var(--rule); }
.mark { justify-self: stretch; align-self: start; padding: 0 .45em; margin-top: .12rem;
  border: 1px solid var(--quiet); text-align: center; font-size: .85rem; letter-spacing: .02em; }
.mark.fails { border: 2px solid var(--warn); color: var(--warn); font-weight: 700; }
.mark.tight { border: 1px dashed var(--ink); font-weight: 600; }
.mark.unknown { border: 1px dotted var(--ink); font-style: italic; }
.mark.class { border: 1px solid var(--rule); }
.remedy { grid-column: 2; margin-top: .2rem; }
.remedy.quiet { color: var(--quiet); font-size: .92rem; line-height: 1.45; }
.remedy.beware { border-left: 3px solid var(--ink); padding-left: .7rem; margin-top: .45rem; }
figure { margin: 1.6rem 0 2rem; }
figure svg { width: 100%; height: auto; display: block; }
figcaption, caption { color: var(--quiet); font-size: .92rem; text-align: left; }
figcaption { margin-top: .5rem; max-width: 40rem; }
caption { padding-bottom: .5rem; }
.wide { overflow-x: auto; margin: 1.2rem 0 1.8rem; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; line-height: 1.4;
  font-variant-numeric: tabular-nums lining-nums; }
th, td { text-align: left; vertical-align: top; padding: .34rem .9rem .34rem 0; font-weight: 400;
  border-bottom: 1px solid var(--rule); }
th:last-child, td:last-child { padding-right: 0; }
thead th { font-weight: 600; border-bottom: 1.5px solid var(--ink); vertical-align: bottom; }
tr.group th { font-weight: 600; padding-top: 1.1rem; border-bottom: 1px solid var(--quiet); }
.small table { font-size: .84rem; }
.small th, .small td { padding: .22rem .7rem .22rem 0; }
.columns { columns: 2; column-gap: 2.6rem; margin: 1.2rem 0 1.6rem; }
.part { margin: 0 0 1.3rem; font-size: .84rem; line-height: 1.38; overflow-wrap: anywhere; }
.part h3 { margin: 0 0 .15rem; font-size: .95rem; border-bottom: 1px solid var(--quiet); }
.part p, .part dl { margin: 0 0 .25rem; }
.part .remark { font-style: italic; color: var(--quiet); }
.part dl div { display: flex; gap: .8rem; border-bottom: 1px dotted var(--rule); }
.part dt { flex: 0 0 43%; }
.part dd { margin: 0; flex: 1; }
.part i { color: var(--quiet); }
.typical { color: var(--quiet); font-size: .78rem; line-height: 1.35; }
.typical b { font-weight: 600; }
.ref { font-size: .72em; vertical-align: .3em; line-height: 0; text-decoration: none;
  padding-left: .15em; }
.sources { columns: 2; column-gap: 2.6rem; max-width: none; font-size: .78rem; line-height: 1.35;
  padding-left: 1.9em; }
.prose table { table-layout: fixed; min-width: 44rem; overflow-wrap: break-word; }
.prose thead .c0 { width: 27%; }
.prose thead .c1 { width: 33%; }
.prose thead .c3 { width: 18%; }
.line { display: block; }
.line + .line { margin-top: .22em; }
.ticks { list-style: none; padding: 0; max-width: 46rem; }
.ticks li { position: relative; padding: .15rem 0 .35rem 2rem; line-height: 1.45; }
.ticks li::before { content: ""; position: absolute; left: .1rem; top: .42rem; width: .95rem;
  height: .95rem; border: 1.5px solid var(--ink); }
.ticks .note { display: block; color: var(--quiet); font-size: .88rem; line-height: 1.4; }
.number { text-align: right; white-space: nowrap; }
.caution { border: 2px solid var(--ink); padding: .4rem 1.4rem .6rem; margin: 1.6rem 0; }
.caution h3 { margin-top: .8rem; }
code { font: .88em/1 "DejaVu Sans Mono", "Liberation Mono", monospace; }
footer { margin-top: 4rem; padding-top: 1rem; border-top: 1px solid var(--rule);
  color: var(--quiet); font-size: .88rem; }
.skip { position: absolute; left: -100rem; background: var(--ink); color: var(--paper);
  padding: .5rem 1rem; }
.skip:focus { left: 1rem; top: 1rem; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
@media (max-width: 46rem) {
  body { margin: 0; padding: 1.6rem 1.2rem; }
  nav ol, .columns, .sources { columns: 1; }
  figure { overflow-x: auto; }
  figure svg { min-width: 38rem; }
}
@page { margin: 17mm 16mm 18mm; }
@media print {
  html { background: #fff; font-size: 9.6pt; }
  body { margin: 0; padding: 0; max-width: none; background: #fff; line-height: 1.45; }
  h1 { font-size: 19pt; }
  h2 { margin: 7mm 0 2.5mm; font-size: 13pt; }
  h3 { margin: 3.5mm 0 1mm; }
  .said { font-size: 11pt; margin-bottom: 1.2mm; }
  .judged { margin-top: 3mm; }
  .judged li { padding: 1.2mm 0; }
  figure { margin: 2.5mm 0 3mm; }
  figcaption, caption { font-size: 8.3pt; }
  .wide { margin: 2mm 0 3mm; }
  table { font-size: 8.3pt; line-height: 1.32; }
  th, td { padding: .8mm 3mm .8mm 0; }
  h2, h3, caption, tr.group, p:has(+ figure) { break-after: avoid; }
  tr, figure, .caution, .judged li { break-inside: avoid; }
  tbody:first-of-type tr:first-child { break-before: avoid; }
  .small table { font-size: 7.2pt; line-height: 1.22; }
  .small th, .small td { padding: .45mm 2.2mm .45mm 0; }
  .part { font-size: 7.2pt; line-height: 1.25; margin-bottom: 3mm; }
  .part h3 { font-size: 8.2pt; break-after: avoid; }
  .part dl div { break-inside: avoid; }
  .typical, .sources { font-size: 6.4pt; line-height: 1.24; }
  .columns, .sources { column-gap: 6mm; }
  .columns { margin: 3mm 0; }
  .prose table { font-size: 7.6pt; line-height: 1.26; min-width: 0; }
  .ticks { max-width: none; }
  .ticks li { break-inside: avoid; padding: .3mm 0 .9mm 6.5mm; }
  .ticks li::before { width: 3.2mm; height: 3.2mm; top: .9mm; left: .3mm; border-width: .3mm; }
  .ticks .note { font-size: 7.6pt; line-height: 1.28; }
  thead { display: table-header-group; }
  .wide { overflow: visible; }
  .skip, nav { display: none; }
  footer { margin-top: 4mm; padding-top: 1.5mm; font-size: 7.2pt; }
  .caution { padding: 1mm 4mm 1.5mm; margin: 2.5mm 0; font-size: 8.6pt; }
  ul { margin-bottom: 1.5mm; }
  a { text-decoration: none; }
  p, ul, ol { orphans: 3; widows: 3; max-width: none; }
}
)css";

}  // namespace

std::string_view style_sheet() { return rules; }

}  // namespace tideover::papers
