import { html, type Child, type Markup } from "./markup.ts";
import type { Report } from "./report.ts";

/** A picture, or several side by side, over its numbered caption. */
export const figureMarkup = ({ messages }: Report, pictures: Child, caption: Child): Markup =>
  html`<figure>
    <div class="pictures">${pictures}</div>
    <figcaption><span class="label">${messages.figure}</span> ${caption}</figcaption>
  </figure>`;
