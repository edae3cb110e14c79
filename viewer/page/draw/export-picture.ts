import { framedPicture, type Frame } from "./framed-picture.ts";

/** Pixels of a PNG for one of the page: sharp in print. */
const PNG_SCALE = 3;

/** A picture within its frame, in light colours, on paper: made while the page is, so that the reader sees no change. */
function onPaper(picture: SVGSVGElement, frame: Frame): SVGSVGElement {
  const root = document.documentElement;
  const theme = root.dataset.theme;
  root.dataset.theme = "light";
  try {
    return framedPicture(picture, frame);
  } finally {
    if (theme === undefined) delete root.dataset.theme;
    else root.dataset.theme = theme;
  }
}

const textOf = (picture: SVGSVGElement): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(picture)}\n`;

/** A picture of the page as a file of its own, with its look written onto its parts and what it refers to inside. */
export const pictureText = (picture: SVGSVGElement, frame: Frame): string => textOf(onPaper(picture, frame));

/** The picture in pixels. @throws {Error} a browser that cannot draw it */
export async function picturePixels(picture: SVGSVGElement, frame: Frame): Promise<Blob> {
  const framed = onPaper(picture, frame);
  const { width, height } = framed.viewBox.baseVal;
  const address = URL.createObjectURL(new Blob([textOf(framed)], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(width * PNG_SCALE);
    canvas.height = Math.round(height * PNG_SCALE);
    canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/png"));
    if (blob === null) throw new Error("this browser made no PNG of the picture");
    return blob;
  } finally {
    URL.revokeObjectURL(address);
  }
}
