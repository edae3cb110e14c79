import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { html, svg } from "../draw/node.ts";
import { figure } from "../evidence/text.ts";
import type { Place, SetUp } from "./draft.ts";
import { typedHead, typedTable } from "../evidence/typed-table.ts";
import { button, cell, field, input, select, redrawTyping } from "../evidence/field.ts";

const WIDTH = 420;
const HEIGHT = 300;
const LEFT = 50;
const TOP = 24;
const BOTTOM = 26;

/** The positions: a table to type in, beside a drawing of the bath to click in. */
export function createPositionPart(changed: () => void): {
  readonly element: HTMLElement;
  readonly draw: (draft: SetUp) => void;
} {
  const body = html("div", {});
  const part = {
    element: html(
      "section",
      { class: "panel", id: "setup-positions", "aria-labelledby": "setup-positions-title" },
      html("h2", { id: "setup-positions-title", tabindex: -1 }, pageWords.surveySetup.positions),
      html("p", { class: "note" }, pageWords.surveySetup.positionsHelp),
      html("span", { class: "field-problem", id: "setup-positions-problem" }),
      body,
    ),
    draw: (draft: SetUp): void => {
      const picture = html("div", { class: "bath-drawing" });
      const drawAgain = (): void => picture.replaceChildren(drawing(draft, add));
      const add = (place: Partial<Place>): void => {
        draft.positions.push({ name: freeName(draft, place), depth: "", radius: "", direction: "", ...place });
        draft.reference ||= draft.positions[0]!.name;
        part.draw(draft);
        changed();
        document.getElementById(`setup-position-${draft.positions.length - 1}-name`)?.focus();
      };
      redrawTyping(body, () => {
        drawAgain();
        body.replaceChildren(
          html("div", { class: "positions-and-drawing" }, tableOf(draft, drawAgain, part.draw, changed, add), picture),
        );
      });
    },
  };
  return part;
}

function freeName(draft: SetUp, { depth, radius, direction }: Partial<Place>): string {
  const taken = new Set(draft.positions.map(({ name }) => name));
  const stem =
    draft.positions.length === 0
      ? pageWords.surveySetup.centre
      : direction !== undefined && direction !== "" && radius !== "0"
        ? direction
        : depth !== undefined && depth !== ""
          ? fillText(pageWords.surveySetup.depthOf, { depth })
          : "position";
  let name = stem;
  for (let k = 2; taken.has(name); k += 1) name = `${stem} ${k}`;
  return name;
}

function tableOf(
  draft: SetUp,
  drawAgain: () => void,
  redrawAll: (draft: SetUp) => void,
  changed: () => void,
  add: (place: Partial<Place>) => void,
): HTMLElement {
  const chosen = html("div", {});
  const reference = (): void =>
    chosen.replaceChildren(
      ...(draft.positions.length === 0
        ? []
        : [
            field(
              "setup-reference",
              pageWords.surveySetup.reference,
              select(
                draft.reference,
                draft.positions.map(({ name }) => [name, name] as const),
                (name) => {
                  draft.reference = name;
                  drawAgain();
                  changed();
                },
              ),
              pageWords.surveySetup.referenceHelp,
            ),
          ]),
    );
  reference();
  const rows = draft.positions.map((place, k) => {
    const id = `setup-position-${k}`;
    const words = fillText(pageWords.surveySetup.positionN, { n: String(k + 1) });
    const renaming = input(place.name, () => undefined);
    renaming.addEventListener("change", () => {
      const name = renaming.value.trim();
      const before = place.name;
      if (name === before) return;
      if (name === "" || draft.positions.some((other) => other !== place && other.name === name)) {
        renaming.value = before;
        document.getElementById(`${id}-name-problem`)!.textContent =
          name === "" ? pageWords.surveySetup.positionUnnamed : fillText(pageWords.surveySetup.positionTwice, { name });
        return;
      }
      place.name = name;
      if (draft.reference === before) draft.reference = name;
      for (const { at } of draft.steps) for (const one of Object.keys(at)) if (at[one] === before) at[one] = name;
      // The row stays as it is: the key that left the field is still on its way to the next one.
      document.getElementById(`${id}-name-problem`)!.textContent = "";
      reference();
      drawAgain();
      changed();
    });
    const typed = (name: "depth" | "radius" | "direction", label: string): HTMLElement =>
      cell(
        `${id}-${name}`,
        fillText(pageWords.surveySetup.of, { label, what: words }),
        input(
          place[name],
          (value) => {
            place[name] = value;
            drawAgain();
            changed();
          },
          name === "direction" ? {} : { class: "figure" },
        ),
      );
    const remove = (): void => {
      draft.positions.splice(k, 1);
      if (draft.reference === place.name) draft.reference = draft.positions[0]?.name ?? "";
      for (const { at } of draft.steps) for (const one of Object.keys(at)) if (at[one] === place.name) at[one] = "";
      redrawAll(draft);
      changed();
      document.getElementById("setup-position-add")?.focus();
    };
    return html(
      "tr",
      {},
      cell(`${id}-name`, fillText(pageWords.surveySetup.positionName, { n: String(k + 1) }), renaming),
      typed("depth", pageWords.surveySetup.depth),
      typed("radius", pageWords.surveySetup.distance),
      typed("direction", pageWords.surveySetup.direction),
      html(
        "td",
        {},
        button(`${id}-remove`, pageWords.library.remove, remove, {
          "aria-label": fillText(pageWords.surveySetup.removeOne, { what: words }),
          class: "quiet small",
        }),
      ),
    );
  });
  return html(
    "div",
    {},
    rows.length === 0
      ? html("p", { class: "note" }, pageWords.surveySetup.noPositions)
      : typedTable(
          pageWords.surveySetup.positionTable,
          [
            typedHead(pageWords.surveySetup.heads.name),
            typedHead(pageWords.surveySetup.heads.depth),
            typedHead(pageWords.surveySetup.heads.fromAxis),
            typedHead(pageWords.surveySetup.heads.direction),
            typedHead(html("span", { class: "hidden-words" }, pageWords.surveySetup.heads.remove)),
          ],
          rows,
        ),
    html(
      "p",
      { class: "buttons" },
      button("setup-position-add", pageWords.surveySetup.addPosition, () => add({})),
    ),
    chosen,
  );
}

/** A section of the bath: depth downwards, distance from the axis to both sides, a direction a side. */
function drawing(draft: SetUp, add: (place: Partial<Place>) => void): SVGSVGElement {
  const places = draft.positions.flatMap(({ name, depth, radius, direction }) => {
    const [d, r] = [figure(depth), figure(radius) ?? 0];
    return typeof d === "number" && typeof r === "number" ? [{ name, d, r, direction }] : [];
  });
  const deepest = Math.max(200, ...places.map(({ d }) => 1.25 * d));
  const widest = Math.max(60, ...places.map(({ r }) => 1.5 * r));
  const middle = (LEFT + WIDTH) / 2;
  const y = (depth: number): number => TOP + (depth / deepest) * (HEIGHT - TOP - BOTTOM);
  const half = (WIDTH - LEFT) / 2 - 10;
  const directions = [...new Set(places.filter(({ r }) => r > 0).map(({ direction }) => direction))];
  const side = (direction: string): number => (directions.indexOf(direction) % 2 === 1 ? -1 : 1);
  const picture: SVGSVGElement = svg(
    "svg",
    {
      class: "bath-section",
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      role: "img",
      "aria-label": fillText(pageWords.surveySetup.section, {
        n: String(places.length),
        list:
          places
            .map(({ name, d, r, direction }) =>
              fillText(r > 0 ? pageWords.surveySetup.placeAside : pageWords.surveySetup.place, {
                name,
                depth: String(d),
                radius: String(r),
                direction: direction || pageWords.surveySetup.fromAxis,
              }),
            )
            .join("; ") || pageWords.surveySetup.noneYet,
      }),
      onclick: (event: MouseEvent) => {
        const box = picture.getBoundingClientRect();
        const scale = WIDTH / box.width;
        const depth = (((event.clientY - box.top) * scale - TOP) / (HEIGHT - TOP - BOTTOM)) * deepest;
        const away = (((event.clientX - box.left) * scale - middle) / half) * widest;
        // As near as a hand sets a probe: whole five millimetres.
        const [d, r] = [5 * Math.round(Math.max(0, depth) / 5), 5 * Math.round(Math.abs(away) / 5)];
        add({
          depth: String(d),
          radius: String(r),
          direction: r === 0 ? "" : (directions[away > 0 ? 0 : 1] ?? (away > 0 ? "right" : "left")),
        });
      },
    },
    svg("path", { class: "surface", d: `M${LEFT} ${TOP}H${WIDTH - 4}` }),
    svg("path", { class: "wall", d: `M${LEFT} ${TOP - 14}V${HEIGHT - BOTTOM}H${WIDTH - 4}V${TOP - 14}` }),
    svg("path", { class: "bath-axis", d: `M${middle} ${TOP}V${HEIGHT - BOTTOM}` }),
    [0.25, 0.5, 0.75, 1].map((part) =>
      svg("text", { x: LEFT - 6, y: y(part * deepest) + 4, "text-anchor": "end" }, String(Math.round(part * deepest))),
    ),
    svg("text", { x: LEFT - 6, y: TOP + 4, "text-anchor": "end" }, "0"),
    svg("text", { x: middle, y: HEIGHT - 6, "text-anchor": "middle" }, pageWords.surveySetup.axes),
    places.map(({ name, d, r, direction }) => {
      const x = middle + (r / widest) * half * side(direction);
      return svg(
        "g",
        { class: name === draft.reference ? "place reference-place" : "place" },
        svg("circle", { cx: x, cy: y(d), r: 5 }),
        svg("text", { x: x + 9, y: y(d) + 4 }, name),
      );
    }),
  );
  return picture;
}
