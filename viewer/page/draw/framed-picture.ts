import { svg } from "./node.ts";
import { dress, dressedCopy } from "./picture-look.ts";

/** What stands around a picture that leaves the page, so that it can be understood alone. */
export interface Frame {
  readonly title: string;
  /** What the picture shows, in words. */
  readonly caption: string;
  /** Where it comes from: study, day, record. */
  readonly foot: string;
  /** The words of the legend by the class of what they stand for. */
  readonly legend: Readonly<Record<LegendKey, string>>;
}

/** What a legend can explain: the first part of the picture with the class has the look of the sample. */
const SAMPLES = {
  trials: { find: ".trials-area, .trials-line, .trials-rule", shape: "line" },
  linear: { find: ".linear-line", shape: "line" },
  linearised: { find: ".linearised-line", shape: "line" },
  dots: { find: ".trials-dot", shape: "dot" },
  observed: { find: ".observed", shape: "dot" },
  tolerance: { find: ".tolerance", shape: "field" },
  limits: { find: ".tolerance-limit", shape: "line" },
  acceptance: { find: ".acceptance", shape: "line" },
  moves: { find: ".move", shape: "field" },
  contribution: { find: ".contribution", shape: "field" },
  cumulative: { find: ".cumulative", shape: "line" },
  control: { find: ".control-limit", shape: "line" },
} as const;
export type LegendKey = keyof typeof SAMPLES;

const MARGIN = 20;
const SAMPLE = 24;
const GAP = 18;
/** Narrowest drawing: below it a title would stand in a column of words. */
const NARROWEST = 420;
const LINE = { title: 20, caption: 16, legend: 18, foot: 15 } as const;

/** Widths of text in a face of the page. */
function measure(font: string): (text: string) => number {
  const context = document.createElement("canvas").getContext("2d")!;
  context.font = font;
  // A file is drawn with another face where the page's is not installed, which may be wider.
  return (text) => 1.06 * context.measureText(text).width;
}

/** A text in lines of at most a width. */
function wrapped(text: string, width: number, widthOf: (text: string) => number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/[^\S\u00a0\u202f]+/)) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(`${last} ${word}`) <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A picture of the page within its frame: an SVG element that depends on nothing outside it. */
export function framedPicture(picture: SVGSVGElement, { title, caption, foot, legend }: Frame): SVGSVGElement {
  const look = getComputedStyle(picture);
  const face = look.fontFamily;
  const ink = getComputedStyle(document.documentElement).getPropertyValue("--ink").trim() || "#000000";
  const { width, height } = picture.viewBox.baseVal;
  const inner = Math.max(width, NARROWEST);
  const whole = inner + 2 * MARGIN;
  let y = MARGIN;
  const words = (text: string, size: number, line: number, weight = 400): SVGElement[] =>
    wrapped(text, inner, measure(`${weight} ${size}px ${face}`)).map((part) => {
      y += line;
      return svg("text", { x: MARGIN, y: y - 5, "font-size": size, "font-weight": weight, fill: ink }, part);
    });
  const parts: Element[] = [
    ...words(title, 16, LINE.title, 600),
    ...(caption === "" || caption === title ? [] : words(caption, 12, LINE.caption)),
  ];
  // The samples of what the picture has, one after the other.
  let x = MARGIN;
  const legendWidth = measure(`400 12px ${face}`);
  const keys = (Object.keys(SAMPLES) as LegendKey[]).filter((key) => picture.querySelector(SAMPLES[key].find) !== null);
  if (keys.length > 0) y += LINE.legend;
  for (const key of keys) {
    const { find, shape } = SAMPLES[key];
    const room = SAMPLE + 6 + legendWidth(legend[key]) + GAP;
    if (x > MARGIN && x + room - GAP > MARGIN + inner) {
      x = MARGIN;
      y += LINE.legend;
    }
    const sample =
      shape === "line"
        ? svg("path", { d: `M${x} ${y - 4}H${x + SAMPLE}` })
        : shape === "dot"
          ? svg("circle", { cx: x + SAMPLE / 2, cy: y - 4, r: 3 })
          : svg("rect", { x, y: y - 10, width: SAMPLE, height: 11 });
    dress(sample, picture.querySelector(find)!);
    if (shape === "line" && sample.getAttribute("stroke") === "none") {
      sample.setAttribute("stroke", sample.getAttribute("fill")!);
      sample.setAttribute("stroke-width", "6");
    }
    parts.push(sample, svg("text", { x: x + SAMPLE + 6, y, "font-size": 12, fill: ink }, legend[key]));
    x += room;
  }
  y += 12;
  const inside = dressedCopy(picture);
  for (const name of ["role", "aria-label", "id"]) inside.removeAttribute(name);
  for (const [name, value] of Object.entries({ x: MARGIN, y, width, height, overflow: "visible" }))
    inside.setAttribute(name, String(value));
  y += height + 4;
  const below = words(foot, 11, LINE.foot);
  const total = Math.ceil(y + MARGIN - 4);
  const hatch = document.getElementById("hatch");
  const root = svg(
    "svg",
    {
      width: whole,
      height: total,
      viewBox: `0 0 ${whole} ${total}`,
      role: "img",
      "aria-label": `${title}. ${picture.getAttribute("aria-label") ?? caption}`,
      "font-family": face,
    },
    svg("title", {}, title),
    svg("desc", {}, `${picture.getAttribute("aria-label") ?? caption} ${foot}`),
    svg("rect", { width: "100%", height: "100%", fill: "#ffffff" }),
  );
  if (hatch !== null && picture.querySelector(".tolerance") !== null) {
    // The pattern itself keeps its attributes: a look of its own would paint nothing.
    const pattern = hatch.cloneNode(false) as Element;
    pattern.append(...[...hatch.children].map(dressedCopy));
    root.append(pattern);
  }
  root.append(...parts, inside, ...below);
  for (const part of root.querySelectorAll("[class]")) part.removeAttribute("class");
  return root;
}
