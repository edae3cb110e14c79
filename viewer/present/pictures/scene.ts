/** A text of a picture: words, and symbols that print sets in italics with their subscripts lowered. */
export type Label = string | readonly (string | { readonly symbol: string })[];

/** A mark of a picture. Its class states what it stands for; each medium has a look for it. */
export type Mark =
  | { readonly mark: "path"; readonly class: string; readonly d: string }
  | { readonly mark: "circle"; readonly class: string; readonly x: number; readonly y: number; readonly r: number }
  | {
      readonly mark: "rect";
      readonly class: string;
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    }
  | {
      readonly mark: "text";
      readonly class: string;
      readonly x: number;
      readonly y: number;
      readonly anchor: "start" | "middle" | "end";
      readonly label: Label;
    }
  | { readonly mark: "group"; readonly class: string; readonly marks: readonly Mark[] };

/** A picture as plain data: where everything stands, in pixels from the upper left corner. */
export interface Scene {
  readonly class: string;
  readonly width: number;
  readonly height: number;
  /** For people who do not see the picture, with its numbers. */
  readonly name: string;
  readonly marks: readonly Mark[];
}

/** A coordinate to a hundredth of a pixel. */
export const px = (value: number): number => Math.round(value * 100) / 100;

export const path = (className: string, d: string): Mark => ({ mark: "path", class: className, d });

export const text = (
  className: string,
  x: number,
  y: number,
  label: Label,
  anchor: "start" | "middle" | "end" = "start",
): Mark => ({ mark: "text", class: className, x: px(x), y: px(y), anchor, label });

export const circle = (className: string, x: number, y: number, r: number): Mark => ({
  mark: "circle",
  class: className,
  x: px(x),
  y: px(y),
  r,
});

export const rect = (className: string, x: number, y: number, width: number, height: number): Mark => ({
  mark: "rect",
  class: className,
  x: px(x),
  y: px(y),
  width: px(width),
  height: px(height),
});

export const group = (className: string, marks: readonly Mark[]): Mark => ({ mark: "group", class: className, marks });
