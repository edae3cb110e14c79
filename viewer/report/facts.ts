import { html, type Child, type Markup } from "./markup.ts";

/** Facts as terms with what they are, one below the other. */
export const factList = (facts: readonly (readonly [term: Child, value: Child])[]): Markup =>
  html`<dl class="facts">
    ${facts.map(
      ([term, value]) =>
        html`<div>
          <dt>${term}</dt>
          <dd>${value}</dd>
        </div>`,
    )}
  </dl>`;
