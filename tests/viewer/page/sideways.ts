import type { Page } from "playwright-core";

/** A desk, both sides of each width at which the page is laid out anew, and a phone. */
export const WIDTHS = [1440, 1100, 1040, 965, 820, 360] as const;

/** What reaches beyond a page of this width: the page itself if it scrolls sideways, and texts of pictures. */
export const sticksOut = (page: Page, width: number): Promise<string[]> =>
  page.evaluate((most) => {
    const { scrollWidth } = document.documentElement;
    const texts = [...document.querySelectorAll("svg text")].filter((node) => {
      const { left, right } = node.getBoundingClientRect();
      return right > most || left < 0;
    });
    return [
      ...(scrollWidth > most ? [`the page: ${scrollWidth}`] : []),
      ...texts.map((node) => node.textContent ?? ""),
    ];
  }, width);
