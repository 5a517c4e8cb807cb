// How a review's page looks: black on white and two greys, so that a copy of a print reads as well.
#pragma once

#include <string_view>

namespace halfsplit::report {

inline constexpr std::string_view review_style = R"(
@page { margin: 14mm; }
* { box-sizing: border-box; }
html { background: #ffffff; color: #000000; -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; padding: 12px; max-width: 60rem; font: 16px/1.4 "DejaVu Sans", "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.4rem; line-height: 1.2; margin: 0 0 4px; }
h2 { font-size: 1.15rem; margin: 28px 0 8px; border-bottom: 2px solid #000000; }
h3 { font-size: 1rem; margin: 0 0 4px; }
p { margin: 0 0 8px; }
a { color: #000000; }
.quiet { color: #4d4d4d; }
.badge { display: inline-block; min-width: 3.2em; padding: 0 6px; border: 2px solid #000000; text-align: center; font-weight: bold; overflow-wrap: normal; }
.no { background: #000000; color: #ffffff; }
.head { border: 3px solid #000000; padding: 10px; margin: 10px 0; }
.head h2 { border: 0; margin: 0 0 8px; font-size: 1.3rem; }
.head h3 { margin-top: 12px; }
.bill { font-size: 1.3rem; font-weight: bold; }
.note { border: 2px solid #000000; padding: 6px; font-weight: bold; }
ol, ul { margin: 0 0 8px; padding-left: 1.6em; }
dl { margin: 0 0 8px; }
dt { font-weight: bold; }
dd { margin: 0 0 6px 1em; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 0.9rem; }
caption { text-align: left; color: #4d4d4d; padding: 2px 0; }
th, td { border-top: 1px solid #808080; padding: 4px 6px; text-align: left; vertical-align: top; }
th { overflow-wrap: normal; }
.figure { text-align: right; white-space: nowrap; }
.wide { min-width: 34rem; }
.time td:nth-child(2) { width: 70%; padding-left: 0; padding-right: 0; }
svg { display: block; max-width: 100%; }
svg text { font-size: 11px; fill: #000000; }
.plot text { text-anchor: middle; }
.plot .first { text-anchor: start; }
.rail { fill: #808080; }
.step { border-top: 1px solid #808080; padding: 8px 0; display: flow-root; }
.void .said { text-decoration: line-through; }
.step figure { margin: 6px 0; max-width: 32rem; }
.facts { display: grid; grid-template-columns: max-content 1fr; gap: 0 10px; font-size: 0.9rem; }
.facts dt, .facts dd { margin: 0; }
.day { font-weight: bold; margin: 12px 0 4px; }
.hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
code { font-family: "DejaVu Sans Mono", "Liberation Mono", monospace; font-size: 0.85em; }
:target { outline: 3px solid #000000; outline-offset: 2px; }
@media (min-width: 50rem) {
  .step figure { float: right; width: 28rem; margin: 0 0 6px 1rem; }
}
@media print {
  html { font-size: 10pt; }
  body { padding: 0; max-width: none; font-size: 10pt; }
  nav, .turn { display: none; }
  a { text-decoration: none; }
  .scroll { overflow: visible; }
  .wide { min-width: 0; }
  .list { columns: 2; column-gap: 8mm; }
  .step { display: block; }
  .step figure { float: none; width: auto; margin: 6px 0; }
  .step svg { max-height: 86mm; }
  h2, h3, caption, .day { break-after: avoid; }
  tr, .head, figure, dd { break-inside: avoid; }
}
)";

}  // namespace halfsplit::report
