/** Properties that carry the look of a picture; written onto its parts, they make it independent of the page. */
const LOOKS = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-linejoin",
  "stroke-opacity",
  "paint-order",
  "opacity",
  "font-family",
  "font-size",
  "font-style",
  "font-weight",
  "white-space",
] as const;

/** Pixels of a PNG for one of the page: sharp in print. */
const PNG_SCALE = 3;

/**
 * A picture of the page as a file of its own: in light colours on paper, with its look written onto its parts and the
 * hatching it refers to inside.
 */
export function pictureText(picture: SVGSVGElement): string {
  const root = document.documentElement;
  const theme = root.dataset.theme;
  // Nothing is painted between the two, so that the reader sees no change.
  root.dataset.theme = "light";
  try {
    const copy = picture.cloneNode(true) as SVGSVGElement;
    const hatch = document.getElementById("hatch");
    const sources: Element[] = [picture, ...picture.querySelectorAll("*")];
    const targets: Element[] = [copy, ...copy.querySelectorAll("*")];
    sources.forEach((source, i) => dress(targets[i]!, source));
    if (hatch !== null && copy.querySelector(".tolerance") !== null) {
      const inside = hatch.cloneNode(true) as Element;
      [...hatch.querySelectorAll("*")].forEach((source, i) => dress([...inside.querySelectorAll("*")][i]!, source));
      copy.prepend(inside);
    }
    const paper = document.createElementNS(copy.namespaceURI, "rect");
    for (const [name, value] of Object.entries({ width: "100%", height: "100%", fill: "#ffffff" }))
      paper.setAttribute(name, value);
    copy.prepend(paper);
    for (const part of [copy, ...copy.querySelectorAll("[class]")]) part.removeAttribute("class");
    copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
    return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(copy)}\n`;
  } finally {
    if (theme === undefined) delete root.dataset.theme;
    else root.dataset.theme = theme;
  }
}

function dress(target: Element, source: Element): void {
  const look = getComputedStyle(source);
  for (const name of LOOKS)
    target.setAttribute(
      name,
      name === "fill" || name === "stroke" ? inside(look.getPropertyValue(name)) : look.getPropertyValue(name),
    );
}

/** A reference to a pattern with the page's address in it, as one within the file. */
const inside = (paint: string): string => paint.replace(/^url\("?[^#"]*#([\w-]+)"?\)/, "url(#$1)");

/** The picture in pixels. @throws {Error} a browser that cannot draw it */
export async function picturePixels(picture: SVGSVGElement): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([pictureText(picture)], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const { width, height } = picture.viewBox.baseVal;
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
