// Style sheet of the report: light, large, and whole on paper.
#pragma once

#include <string_view>

namespace driftbench::classroom {

inline constexpr std::string_view kReportStyle = R"(
:root { color-scheme: light; }
body { font: 20px/1.5 "Inter", "Open Sans", system-ui, sans-serif; color: #1b1b1f; background: #fff;
  max-width: 1120px; margin: 0 auto; padding: 32px 40px 80px; }
h1 { font-size: 40px; line-height: 1.2; margin: 0 0 8px; }
h2 { font-size: 32px; margin: 64px 0 8px; border-top: 3px solid #1b1b1f; padding-top: 16px; }
h3 { font-size: 26px; margin: 48px 0 4px; }
p { margin: 8px 0; max-width: 62em; }
.answer { font-size: 28px; line-height: 1.35; margin: 16px 0; }
.order { border-left: 8px solid #b00020; padding-left: 16px; font-weight: 600; }
.caption { color: #3c3c44; font-size: 18px; }
table { border-collapse: collapse; margin: 12px 0; font-size: 19px; }
th, td { text-align: left; padding: 6px 20px 6px 0; border-bottom: 1px solid #c9c9d0; vertical-align: top; }
td:first-child { white-space: nowrap; }
td.number, th.number { text-align: right; font-variant-numeric: tabular-nums; }
ul { padding-left: 1.2em; }
figure { margin: 16px 0; }
figure > svg, .legend > svg { width: 100%; height: auto; display: block; overflow: visible; }
svg.clip { overflow: hidden; }
svg text { font-size: 18px; fill: #1b1b1f; }
svg text.name { font-weight: 600; }
svg text.small { font-size: 15px; }
svg text.faint { fill: #55555f; }
.axis { stroke: #1b1b1f; stroke-width: 2; }
.grid { stroke: #dcdce2; stroke-width: 1; }
.field { fill: #fafafc; stroke: #1b1b1f; stroke-width: 1.5; }
.ring { fill: none; stroke: #d2d2da; stroke-width: 1.5; }
.limit { fill: none; stroke: #1b1b1f; stroke-width: 2; stroke-dasharray: 2 5; }
.zero { stroke: #1b1b1f; stroke-width: 2; stroke-dasharray: 8 5; }
.freehand { fill: #E69F00; stroke: #000; stroke-width: 2; }
.sleeve { fill: #7B3294; stroke: #000; stroke-width: 2; }
.pilot { fill: #56B4E9; stroke: #000; stroke-width: 2; }
.hollow { fill: #fff; }
.hole { stroke-width: 1; opacity: 0.45; }
.dot { fill: #fff; }
.estimate { fill: none; stroke: #000; stroke-width: 2; }
.plan-casing { fill: none; stroke: #000; stroke-width: 5; }
.plan-core { fill: none; stroke: #fff; stroke-width: 2; }
circle.plan-casing, circle.plan-core { stroke-dasharray: 7 5; }
.link { stroke: #77777f; stroke-width: 2; }
.arrow { stroke: #1b1b1f; stroke-width: 2.5; fill: none; }
.head { fill: #1b1b1f; }
.ellipse-freehand { fill: #E69F00; fill-opacity: 0.12; stroke: #9a6a00; stroke-width: 4; }
.ellipse-sleeve { fill: #7B3294; fill-opacity: 0.12; stroke: #7B3294; stroke-width: 4; }
.ellipse-pilot { fill: #56B4E9; fill-opacity: 0.12; stroke: #1f6f9f; stroke-width: 4; }
.dashed { stroke-dasharray: 12 8; }
.curve-freehand { fill: none; stroke: #E69F00; stroke-width: 1.5; opacity: 0.65; }
.curve-sleeve { fill: none; stroke: #7B3294; stroke-width: 1.5; opacity: 0.5; }
.curve-pilot { fill: none; stroke: #1f6f9f; stroke-width: 1.5; opacity: 0.5; }
.median { fill: none; stroke: #000; stroke-width: 4; }
.difference { fill: #fff; stroke: #000; stroke-width: 2.5; }
.interval { stroke: #000; stroke-width: 5; }
.mean { fill: #000; }
.legend > svg { width: 700px; max-width: 100%; }
@media print {
  @page { margin: 14mm; }
  body { font-size: 11pt; padding: 0; max-width: none; }
  h1 { font-size: 20pt; } h2 { font-size: 16pt; } h3 { font-size: 13pt; }
  .answer { font-size: 13pt; } table, .caption { font-size: 10pt; }
  figure > svg, tr { break-inside: avoid; }
  h2, h3 { break-after: avoid; }
  figure > svg { max-height: 225mm; }
  * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
)";

}  // namespace driftbench::classroom
