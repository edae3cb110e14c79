/** What differs from report to report, as CSS strings. */
export interface SheetTexts {
  readonly head: string;
  readonly laboratory: string;
  readonly foot: string;
  readonly page: string;
  readonly pageOf: string;
  readonly paper: "A4" | "Letter" | null;
}

/** The report's style sheet: black on white, with line and grey alone to distinguish; heads and numbers of pages in print. */
export const styleSheet = ({ head, laboratory, foot, page, pageOf, paper }: SheetTexts): string => `
:root { --text: "Charter", "Bitstream Charter", "Iowan Old Style", "P052", "Palatino Linotype", "Palatino", "Book Antiqua", "DejaVu Serif", serif;
  --code: "Liberation Mono", "Consolas", "Menlo", "DejaVu Sans Mono", monospace; }
* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
body { font: 10.5pt/1.42 var(--text); font-variant-numeric: lining-nums tabular-nums; max-width: 174mm; margin: 12mm auto; padding: 0 5mm; counter-reset: figure table; }
p, ul, dl, table, figure, pre { margin: 0 0 3mm; }
h2 + p, section.one > h3 + p { break-after: avoid; break-inside: avoid; } p { text-wrap: pretty; orphans: 3; widows: 3; }
h1, h2, h3 { line-height: 1.2; break-after: avoid; text-wrap: balance; }
h1 { font-size: 20pt; margin: 0 0 4mm; }
h2 { font-size: 13pt; margin: 8mm 0 2.5mm; border-bottom: 0.5pt solid #000; padding-bottom: 1mm; }
h2 .number { display: inline-block; min-width: 7mm; }
h3 { font-size: 11pt; margin: 5mm 0 2mm; }
.kind { font-size: 9.5pt; letter-spacing: 0.06em; text-transform: uppercase; margin: 0 0 2mm; }
header { border-bottom: 1.5pt solid #000; padding-bottom: 1mm; }
var { font-style: italic; }
sub, sup { font-size: 72%; line-height: 0; }
.q { white-space: nowrap; }
.fine { font-size: 8.5pt; color: #333; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.missing { font-style: italic; }
code { font-family: var(--code); font-size: 85%; }
.digest { overflow-wrap: anywhere; }
dl.facts > div { display: grid; grid-template-columns: 44mm 1fr; column-gap: 4mm; padding: 0.6mm 0; break-inside: avoid; }
dl.facts dt { font-weight: bold; } dl.facts dd { margin: 0; min-width: 0; overflow-wrap: anywhere; }
dl.words > div { grid-template-columns: 30mm 1fr; }
.mathematics math { font-family: inherit; text-align: left; width: max-content; margin: 0.5mm 0; }
.mathematics :is(msqrt, mroot) > * { font-family: inherit; } .mathematics :is(msqrt, mroot) { font-family: math; }
.equation { line-height: 1.75; } .equation > div { padding-left: 6mm; text-indent: -6mm; }
.stated { border: 0.75pt solid #000; padding: 3mm 4mm 1mm; margin: 0 0 4mm; break-inside: avoid; }
.stated p { margin: 0 0 2mm; } .stamp { font-weight: bold; }
.verdict-mark { vertical-align: -1px; } .verdict-mark path { fill: none; stroke: #000; stroke-width: 2; }
section.one { margin-bottom: 4mm; }
table { border-collapse: collapse; width: 100%; font-size: 9pt; line-height: 1.3; break-inside: avoid; }
table.inputs { break-inside: auto; }
caption { caption-side: top; text-align: left; font-size: 9pt; padding: 1mm 0 1.5mm; break-after: avoid; }
caption .label, figcaption .label { font-weight: bold; }
caption .label::after { counter-increment: table; content: " " counter(table) "."; }
figcaption .label::after { counter-increment: figure; content: " " counter(figure) "."; }
thead { display: table-header-group; border-top: 0.75pt solid #000; border-bottom: 0.5pt solid #000; }
tbody { border-bottom: 0.75pt solid #000; } tbody.total { font-weight: bold; }
table:not(:has(thead)) tbody { border-top: 0.75pt solid #000; }
tr { break-inside: avoid; } thead { break-after: avoid; } tbody:first-of-type tr:first-child { break-before: avoid; }
tbody tr + tr { border-top: 0.25pt solid #bbb; }
th, td { text-align: left; vertical-align: baseline; padding: 0.9mm 1.6mm; font-weight: normal; }
th:first-child, td:first-child { padding-left: 0; } th:last-child, td:last-child { padding-right: 0; }
thead th { font-weight: bold; vertical-align: bottom; }
tbody.total th, tbody.total td { font-weight: bold; }
.number { text-align: right; } td.number { white-space: nowrap; }
h2 .number { text-align: left; }
td.after { padding-left: 0; white-space: nowrap; } th.after { padding-left: 0; }
.pad::after { content: attr(data-pad); visibility: hidden; }
table.inputs th, table.inputs td { vertical-align: top; } table.inputs th:first-child { width: 40mm; } table.inputs td:nth-child(2) { width: 21mm; } table.inputs td:nth-child(3) { width: 27mm; }
table.inputs td:last-child { width: 37mm; overflow-wrap: anywhere; } table.inputs td:nth-child(4) { overflow-wrap: anywhere; } table.inputs svg { display: block; } .name { font-size: 78%; }

table.budget th, table.budget td { padding-left: 1mm; padding-right: 1mm; }
table.budget { font-size: 8.5pt; }
.part { padding-left: 4mm; }
svg.share { vertical-align: middle; } svg.share rect { fill: #777; }
table.provenance th { width: 44mm; font-weight: bold; } 
table.signatures { margin-top: 8mm; break-before: avoid; } table.signatures th { width: 30mm; } table.signatures td { vertical-align: bottom; height: 12mm; } table.signatures th { vertical-align: bottom; }
table.signatures caption { font-weight: bold; } table.signatures tbody { border: 0; } table.signatures tr + tr { border: 0; }
table.signatures .line { border-bottom: 0.5pt solid #000; } table.signatures td.fine { width: 42mm; padding-left: 4mm; }
pre { border: 0.5pt solid #777; padding: 2mm 3mm; overflow-x: auto; white-space: pre-wrap; overflow-wrap: anywhere; }
.again { break-inside: avoid; }
ul { padding-left: 5mm; } li { margin-bottom: 1mm; break-inside: avoid; }
figure { break-inside: avoid; margin: 4mm 0; }
.pictures > :only-child { margin-inline: auto; } .pictures { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 2mm 0; }
figure svg { width: 100%; height: auto; } figure svg.half, figure div.half { width: 48.6%; } div.half p.head { font-weight: bold; font-size: 9pt; margin: 0; }
figcaption { font-size: 9pt; line-height: 1.35; padding-top: 1mm; }
svg text { font: 11px var(--text); font-variant-numeric: lining-nums tabular-nums; fill: #000; }
svg .strong { font-weight: bold; } svg .halo { paint-order: stroke; stroke: #fff; stroke-width: 4px; stroke-linejoin: round; }
svg .axis path, svg .axis-line { stroke: #000; stroke-width: 0.8; fill: none; } svg .axis .grid, svg .axis .gridline, svg .grid-line { stroke: #ccc; stroke-width: 0.6; }
.trials-area, .band, .density .shape { fill: #cfcfcf; } .outside { fill: #333; }
.trials-line { stroke: #000; stroke-width: 1.1; fill: none; } .thick { stroke-width: 1.8; }
.linear-line { stroke: #000; stroke-width: 1.5; stroke-dasharray: 6 3; fill: none; } .solid { stroke-dasharray: none; }
.linearised-line { stroke: #000; stroke-width: 1.9; fill: none; }
.trials-rule { stroke: #000; stroke-width: 1.8; fill: none; } circle.trials-rule { fill: #000; } .trials-rule.thin { stroke-width: 0.8; } .trials-dot { fill: #000; fill-opacity: 0.45; } .whisker, .distance, .tolerance-rule { stroke: #000; stroke-width: 1; fill: none; } .tolerance { stroke: #777; stroke-width: 0.7; } .observed { fill: #fff; stroke: #000; stroke-width: 1.1; }
.density .shape { stroke: #000; stroke-width: 0.9; } .density .stroke { stroke: #000; stroke-width: 1.6; fill: none; } .density .ground { stroke: #000; stroke-width: 0.6; fill: none; }
.dot { stroke-dasharray: none; fill: #fff; } .mark { fill: #000; } .hollow { fill: #fff; stroke: #000; stroke-width: 1.1; }
.end-gap { stroke: #555; stroke-width: 0.7; fill: none; stroke-dasharray: 1.5 2; }
.hatch { stroke: #999; stroke-width: 1; } .tolerance-edge { stroke: #777; stroke-width: 0.7; fill: none; }
.contribution { fill: #bbb; stroke: #000; stroke-width: 0.5; } .cumulative { stroke: #000; stroke-width: 1.3; fill: none; } .cumulative-mark { fill: #fff; stroke: #000; stroke-width: 1.1; } .tolerance-field { fill: #999; fill-opacity: 0.16; }
.move { fill: #999; stroke: #000; stroke-width: 0.5; } .estimate { stroke-dasharray: none; fill: #fff; }
.tolerance-limit { stroke: #000; stroke-width: 1; fill: none; } .acceptance { stroke: #000; stroke-width: 2; fill: none; }
svg.index { display: block; margin-left: auto; } .index .ground { stroke: #999; stroke-width: 0.7; fill: none; } .index .linear-line { stroke-width: 1; stroke-dasharray: none; fill: #fff; }
.limit, .control-limit { stroke: #000; stroke-width: 1; stroke-dasharray: 1.5 2.5; fill: none; } .control-centre { stroke: #777; stroke-width: 0.8; fill: none; }
.trend-line { stroke: #bbb; stroke-width: 1; fill: none; } .trend-bar { stroke: #000; stroke-width: 1.1; fill: none; } .trend-mark { stroke: #000; stroke-width: 1.1; fill: #000; } .trend-mark.outside-limits { fill: #fff; stroke-width: 2; } .dots { stroke: #000; stroke-width: 1.6; stroke-linecap: round; opacity: 0.55; }
.small .mean-tick { stroke: #000; stroke-width: 0.8; }
@page { ${paper === null ? "" : `size: ${paper};`} margin: 20mm 18mm 18mm;
  @top-left { content: ${head}; font: 8pt "Charter", "P052", "Palatino Linotype", serif; width: 70%; }
  @top-right { content: ${laboratory}; font: 8pt "Charter", "P052", "Palatino Linotype", serif; }
  @bottom-left { content: ${foot}; font: 8pt "Charter", "P052", "Palatino Linotype", serif; }
  @bottom-right { content: ${page} counter(page) ${pageOf} counter(pages); font: 8pt "Charter", "P052", "Palatino Linotype", serif; } }
@page :first { @top-left { content: ""; } @top-right { content: ""; } }
@media print { body { margin: 0; max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.36; } pre { overflow: visible; } h2 { margin-top: 6mm; }
  /* A long table goes on overleaf, under its head again and never by one row alone, so that pages fill; a short one and the budget stay whole. */
  table:not(.budget, .signatures):has(tr:nth-child(11)) { break-inside: auto; } caption { break-inside: avoid; }
  tbody tr:nth-child(-n + 2):not(:last-child) { break-after: avoid; } tbody tr:nth-last-child(-n + 2):not(:first-child) { break-before: avoid; }
  figure svg { max-height: 66mm; } figure div.half svg { max-height: 42mm; }
  ul.cautions { columns: 2; column-gap: 8mm; font-size: 9pt; break-inside: avoid; } }
@media screen and (max-width: 700px) { dl.facts > div { grid-template-columns: 1fr; } figure svg.half, figure div.half { width: 100%; } .part { overflow-x: auto; } }
`;
