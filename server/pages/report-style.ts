/**
 * How a report looks: dark ink on white, deep greens and a brick red for what is high, so that it reads the same on
 * a screen, on paper and in shades of grey. All text has at least 4.5:1 against what it stands on, all bars 3:1
 * (WCAG 2.2, success criteria 1.4.3 and 1.4.11). Colours and face have names, for an editor to put its own in place.
 */
export const REPORT_STYLE = `
:root {
  color-scheme: light;
  --face: Georgia, "Times New Roman", serif;
  --ground: #ffffff; --ink: #1b2420; --quiet: #45524c; --rule: #4d5a54; --faint: #d3dad6; --shade: #e4e8e5;
  --bar: #2f5d50; --high: #9a3b26; --low: #24463d; --middle: #5f8d7e; --over: #8a2c18; --link: #1f4f43;
  --before: #8a948f;
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 1rem/1.45 var(--face); }
main { max-width: 72rem; margin: 0 auto; padding: 1rem; }
h1, h2, h3, h4 { line-height: 1.2; font-weight: 600; }
h1 { font-size: 1.6rem; margin: 0 0 .5rem; }
h2 { font-size: 1.35rem; margin: 2.5rem 0 .25rem; padding-top: .75rem; border-top: 3px solid var(--bar); }
h3 { font-size: 1.1rem; margin: 1.75rem 0 .25rem; }
h4 { font-size: 1rem; margin: 1rem 0 .15rem; }
a { color: var(--link); }
a:focus-visible, .scroll:focus-visible { outline: 3px solid var(--high); outline-offset: 2px; }
p { max-width: 44rem; margin: .25rem 0 .75rem; }
nav ul { padding-left: 1.25rem; margin: .25rem 0; }
nav a { display: inline-block; padding: .3rem 0; }
.pair { display: flex; flex-wrap: wrap; gap: .75rem 1.5rem; align-items: flex-start; }
.charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 26rem), 1fr)); gap: .75rem 1.5rem; }
.pair > .chart { flex: 1 1 22rem; min-width: 0; max-width: 36rem; }
.above > .chart { max-width: 44rem; }
.pair > .scroll { flex: 1 1 18rem; min-width: 0; }
.chart svg { display: block; width: 100%; height: auto; }
figure svg { display: block; max-width: 100%; height: auto; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; font-size: .85rem; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-style: italic; padding: .15rem 0; }
th, td { padding: .12rem .45rem; text-align: right; border-bottom: 1px solid var(--faint); white-space: nowrap; }
th[scope="row"], .words { text-align: left; font-weight: normal; }
thead th { white-space: normal; }
thead th, thead th.words { border-bottom: 2px solid var(--rule); vertical-align: bottom; font-weight: 600; }
td.over { color: var(--over); font-weight: 700; }
.note { color: var(--quiet); font-size: .9rem; }
.chart svg text { font: 12px var(--face); fill: var(--ink); }
.axis { stroke: var(--rule); stroke-width: 1; }
.grid { stroke: var(--faint); stroke-width: 1; }
.budget { stroke: var(--over); stroke-width: 1.5; stroke-dasharray: 5 3; fill: none; }
.bar { fill: var(--bar); }
.bar-over { fill: var(--high); }
.closed { fill: var(--shade); }
.concert { fill: var(--ink); }
.low { fill: var(--low); }
.middle { fill: var(--middle); }
.high { fill: var(--high); }
.line { stroke: var(--bar); stroke-width: 2; fill: none; }
.dot { fill: var(--bar); }
@media (max-width: 30rem) {
  body { font-size: .95rem; }
  main { padding: .6rem; }
  h1 { font-size: 1.3rem; }
}
@media print {
  @page { margin: 14mm; }
  html { font-size: 9.5pt; }
  .charts { grid-template-columns: 1fr 1fr; }
  .above > .chart { max-width: 13cm; }
  main { max-width: none; padding: 0; }
  nav { display: none; }
  h2 { break-before: page; }
  h2.first { break-before: auto; }
  h2, h3, h2 + p, h3 + .note { break-after: avoid; }
  .scroll { overflow: visible; }
  table { font-size: 7pt; }
  th, td { padding: .05rem .25rem; }
  tr, .chart, .scroll, .pair { break-inside: avoid; }
  thead { display: table-header-group; }
  .pair > .chart { max-width: 11cm; }
  svg, td.over { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
