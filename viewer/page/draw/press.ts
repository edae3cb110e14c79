/** What is pressed and not released yet; it acts when it is released. */
let pressed: Element | null = null;
let released: () => void = () => undefined;

const ACTS_ON_RELEASE = "a, button, summary, label, input[type=checkbox], input[type=radio]";

/** Whether something inside an element is pressed: taken away before it is released, it would never act. */
export const isPressedIn = (element: Element): boolean => pressed !== null && element.contains(pressed);

/** Calls back after each release, once what was pressed has acted. */
export const onRelease = (act: () => void): void => void (released = act);

/** Follows what is pressed, by a pointer or by the space bar. */
export function watchPresses(): void {
  const begin = ({ target }: Event): void => {
    pressed = target instanceof Element ? target.closest(ACTS_ON_RELEASE) : null;
  };
  const end = (): void => {
    if (pressed === null) return;
    pressed = null;
    // The click follows the release in the same turn.
    setTimeout(() => released());
  };
  addEventListener("pointerdown", (event) => (event.button === 0 ? begin(event) : undefined), { capture: true });
  addEventListener("keydown", (event) => (event.key === " " ? begin(event) : undefined), { capture: true });
  for (const name of ["pointerup", "pointercancel", "keyup", "dragend"]) addEventListener(name, end, { capture: true });
  // The window's own: that of a field which loses the focus to what is pressed does not bubble.
  addEventListener("blur", end);
}
