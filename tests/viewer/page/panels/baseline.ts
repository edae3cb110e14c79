import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";

const folder = join(import.meta.dirname, "../baselines");
/** A picture of a part of the page. What stands above may end between two pixels, which would smooth every letter otherwise. */
async function atWholePixels(part: Locator): Promise<Buffer> {
  await part.evaluate((element) => {
    const { style } = element as HTMLElement;
    style.position = "relative";
    style.top = "0";
    const y = element.getBoundingClientRect().top + scrollY;
    style.top = `${Math.round(y) - y}px`;
  });
  return part.screenshot();
}

/**
 * Share of pixels that differ visibly from the baseline; 1 where its size differs. A pixel differs where a channel is more
 * than 60 of 255 away: edges that are smoothed otherwise stay below.
 */
export async function differenceFrom(page: Page, name: string, part: Locator): Promise<number> {
  const picture = await atWholePixels(part);
  const path = join(folder, `${name}.png`);
  if (process.env.TRIALBAND_BASELINES === "write" || !existsSync(path)) {
    if (process.env.TRIALBAND_BASELINES !== "write") return 1;
    writeFileSync(path, picture);
  }
  return page.evaluate(
    async (pictures) => {
      const pixels = await Promise.all(
        pictures.map(async (data) => {
          const image = new Image();
          image.src = `data:image/png;base64,${data}`;
          await image.decode();
          const canvas = document.createElement("canvas");
          [canvas.width, canvas.height] = [image.width, image.height];
          const context = canvas.getContext("2d")!;
          context.drawImage(image, 0, 0);
          return context.getImageData(0, 0, image.width, image.height);
        }),
      );
      const [a, b] = pixels as [ImageData, ImageData];
      if (a.width !== b.width || a.height !== b.height) return 1;
      let differing = 0;
      for (let i = 0; i < a.data.length; i += 4) {
        if ([0, 1, 2].some((k) => Math.abs(a.data[i + k]! - b.data[i + k]!) > 60)) differing += 1;
      }
      return (4 * differing) / a.data.length;
    },
    [readFileSync(path).toString("base64"), picture.toString("base64")],
  );
}
