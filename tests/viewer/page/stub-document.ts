import { afterAll, beforeAll, vi } from "vitest";

/** As much of a document as a panel needs to be drawn without a browser: a tree of elements with attributes and texts. */
export class StubElement {
  readonly tag: string;
  readonly attributes = new Map<string, string>();
  readonly dataset: Record<string, string> = {};
  readonly style: { cssText: string; top?: string; height?: string } = { cssText: "" };
  readonly listeners = new Map<string, () => void>();
  children: (StubElement | string)[] = [];
  constructor(tag: string) {
    this.tag = tag;
  }
  append(...children: (StubElement | string)[]): void {
    this.children.push(...children);
  }
  replaceChildren(...children: (StubElement | string)[]): void {
    this.children = children;
  }
  insertBefore(child: StubElement, before: StubElement | null): void {
    const at = before === null ? -1 : this.children.indexOf(before);
    this.children.splice(at < 0 ? this.children.length : at, 0, child);
  }
  setAttribute(name: string, value: string): void {
    this.attributes.set(name, value);
  }
  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }
  removeAttribute(name: string): void {
    this.attributes.delete(name);
  }
  addEventListener(name: string, listener: () => void): void {
    this.listeners.set(name, listener);
  }
  contains(): boolean {
    return false;
  }
  get id(): string {
    return this.getAttribute("id") ?? "";
  }
  set className(value: string) {
    this.setAttribute("class", value);
  }
  get textContent(): string {
    return this.children.map((child) => (typeof child === "string" ? child : child.textContent)).join("");
  }
  set textContent(text: string) {
    this.children = [text];
  }
  /** The element and all below it. */
  get all(): StubElement[] {
    return [this, ...this.children.flatMap((child) => (typeof child === "string" ? [] : child.all))];
  }
  /** By tag, `#id` or `.class`. */
  querySelectorAll(selector: string): StubElement[] {
    const [kind, name] = [selector[0], selector.slice(1)];
    return this.all.filter((element) =>
      kind === "#"
        ? element.id === name
        : kind === "."
          ? (element.getAttribute("class") ?? "").split(" ").includes(name)
          : element.tag === selector,
    );
  }
  querySelector(selector: string): StubElement | null {
    return this.querySelectorAll(selector)[0] ?? null;
  }
}

/** Every text of an element in order, words apart from each other as a reader sees them. */
export const textOf = (element: StubElement): string =>
  element.all
    .flatMap(({ children }) => children.filter((child) => typeof child === "string"))
    .join(" ")
    .replaceAll(/\s+/g, " ");

/** Puts the stub in the place of the browser's document for the tests of a file. */
export function stubDocument(): void {
  beforeAll(() => {
    vi.stubGlobal("Node", StubElement);
    vi.stubGlobal("document", {
      activeElement: null,
      createElement: (tag: string) => new StubElement(tag),
      createElementNS: (_: string, tag: string) => new StubElement(tag),
    });
  });
  afterAll(() => {
    vi.unstubAllGlobals();
  });
}
