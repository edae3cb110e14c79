/** What differs from certificate to certificate, as CSS strings. */
export interface CertificateSheetTexts {
  /** Stands on every page, so that each is recognised as part of the whole (ISO/IEC 17025:2017, 7.8.2.1 d). */
  readonly head: string;
  readonly laboratory: string;
  readonly page: string;
  readonly pageOf: string;
  readonly paper: "A4" | "Letter" | null;
  /** Printed across every page of a draft, or `null`. */
  readonly draft: string | null;
}

/** The certificate's own layout: laboratory and customer beside each other, then facts, results, statements, signature. */
export const certificateSheet = ({ head, laboratory, page, pageOf, paper, draft }: CertificateSheetTexts): string => `
:root { --text: "Charter", "Bitstream Charter", "Iowan Old Style", "P052", "Palatino Linotype", "Palatino", "Book Antiqua", "DejaVu Serif", serif; }
* { box-sizing: border-box; }
html { background: #fff; color: #000; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
body { font: 10.5pt/1.42 var(--text); font-variant-numeric: lining-nums tabular-nums; max-width: 174mm; margin: 12mm auto; padding: 0 5mm; counter-reset: figure table; }
p, ul, dl, table, figure { margin: 0 0 3mm; } p { text-wrap: pretty; orphans: 3; widows: 3; } ul { padding-left: 5mm; }
h1, h2 { line-height: 1.2; break-after: avoid; } h2 + p { break-after: avoid; break-inside: avoid; } h1, h2 { text-wrap: balance; }
h1 { font-size: 22pt; font-weight: normal; margin: 0 0 1mm; } h1 + p { font-size: 12pt; margin: 0 0 5mm; }
h2 { font-size: 11pt; margin: 6mm 0 2mm; padding-top: 1.5mm; border-top: 0.5pt solid #000; }
.parties { display: grid; grid-template-columns: 1fr 1fr; gap: 0 8mm; border-top: 1.5pt solid #000; border-bottom: 0.5pt solid #000; padding: 3mm 0 0; }
.parties h2 { border: 0; margin: 0 0 1mm; padding: 0; } .parties p { margin: 0 0 3mm; overflow-wrap: anywhere; }
dl.facts > div { display: grid; grid-template-columns: 48mm 1fr; column-gap: 4mm; padding: 0.6mm 0; break-inside: avoid; }
dl.facts dt { font-weight: bold; } dl.facts dd { margin: 0; min-width: 0; overflow-wrap: anywhere; }
.draft-note { border: 1.5pt solid #000; padding: 3mm 4mm 1mm; } .draft-note ul { columns: 2; column-gap: 8mm; margin-bottom: 2mm; } .draft-note li { break-inside: avoid; }
.missing { font-style: italic; }
var { font-style: italic; } sub, sup { font-size: 72%; line-height: 0; } .fine { font-size: 8.5pt; color: #333; } .digest { overflow-wrap: anywhere; }
table { border-collapse: collapse; width: 100%; font-size: 9.5pt; line-height: 1.3; break-inside: avoid; }
caption { caption-side: top; text-align: left; font-size: 9.5pt; padding: 1mm 0 1.5mm; break-after: avoid; }
caption .label, figcaption .label { font-weight: bold; }
caption .label::after { counter-increment: table; content: " " counter(table) "."; } figcaption .label::after { counter-increment: figure; content: " " counter(figure) "."; }
thead { display: table-header-group; border-top: 0.75pt solid #000; border-bottom: 0.5pt solid #000; } tbody { border-bottom: 0.75pt solid #000; }
tr { break-inside: avoid; } tbody tr + tr { border-top: 0.25pt solid #bbb; }
th, td { text-align: left; vertical-align: baseline; padding: 0.9mm 1.6mm; font-weight: normal; } thead th { font-weight: bold; vertical-align: bottom; }
th:first-child, td:first-child { padding-left: 0; } th:last-child, td:last-child { padding-right: 0; }
.number { text-align: right; } td.number { white-space: nowrap; } .pad::after { content: attr(data-pad); visibility: hidden; }
figure { break-inside: avoid; margin: 3mm 0; } figure svg { width: 100%; height: auto; } figcaption { font-size: 9.5pt; }
svg text { font: 11px var(--text); font-variant-numeric: lining-nums tabular-nums; fill: #000; } svg .halo { paint-order: stroke; stroke: #fff; stroke-width: 4px; }
svg .axis path, svg .axis-line { stroke: #000; stroke-width: 0.8; fill: none; } svg .axis .grid, svg .axis .gridline, svg .grid-line { stroke: #ccc; stroke-width: 0.6; }
.trials-area, .band { fill: #cfcfcf; } .trials-rule { stroke: #000; stroke-width: 1.8; fill: none; } .trials-rule.thin { stroke-width: 0.8; } .trials-line { stroke: #000; stroke-width: 1.1; fill: none; } .linear-line { stroke: #000; stroke-width: 1.5; stroke-dasharray: 6 3; fill: none; } .solid { stroke-dasharray: none; } .observed { fill: #fff; stroke: #000; stroke-width: 1.1; }
.signature { display: grid; grid-template-columns: 1fr 1fr; gap: 0 12mm; margin-top: 14mm; break-inside: avoid; } .signature p { border-top: 0.5pt solid #000; padding-top: 1mm; margin: 12mm 0 0; }
.end { text-align: center; margin-top: 8mm; }
${
  draft === null
    ? ""
    : `body::before { content: ${draft}; position: fixed; inset: 0; display: grid; place-items: center; font: bold 88pt var(--text); color: #0000001f; transform: rotate(-35deg); pointer-events: none; z-index: 1; }`
}
@page { ${paper === null ? "" : `size: ${paper};`} margin: 20mm 18mm 18mm;
  @top-left { content: ${head}; font: 8pt "Charter", "P052", "Palatino Linotype", serif; width: 60%; }
  @top-right { content: ${laboratory}; font: 8pt "Charter", "P052", "Palatino Linotype", serif; }
  @bottom-left { content: ${head}; font: 8pt "Charter", "P052", "Palatino Linotype", serif; }
  @bottom-right { content: ${page} counter(page) ${pageOf} counter(pages); font: 8pt "Charter", "P052", "Palatino Linotype", serif; } }
@page :first { @top-left { content: ""; } @top-right { content: ""; } }
@media print { body { margin: 0; max-width: none; padding: 0; font-size: 10pt; } tbody tr:nth-child(-n + 2) { break-after: avoid; } tbody tr:nth-last-child(-n + 2) { break-before: avoid; } figure svg { max-height: 62mm; } }
@media screen and (max-width: 700px) { .parties, .signature, dl.facts > div { grid-template-columns: 1fr; } .draft-note ul { columns: 1; } .scroll { overflow-x: auto; } }
`;
