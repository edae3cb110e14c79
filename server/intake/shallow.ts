import { Fault } from "../errors.ts";

/** Lists and objects within each other; a study or a record has some dozen. */
const DEEPEST = 100;

const [QUOTE, BACKSLASH] = [0x22, 0x5c];
const OPENS: ReadonlySet<number> = new Set([0x5b, 0x7b]);
const CLOSES: ReadonlySet<number> = new Set([0x5d, 0x7d]);

/**
 * Refuses JSON whose depth would exhaust the stack of what reads it on. It is looked at as bytes, before it is parsed: a walk
 * through its values would take several times as long as parsing them.
 *
 * @param json in UTF-8, whose further bytes of a character are none of those looked for
 * @throws {Fault} `bad-input`
 */
export function requireShallow(json: Uint8Array): void {
  let depth = 0;
  let inText = false;
  for (let i = 0; i < json.length; i++) {
    const byte = json[i]!;
    if (inText) {
      if (byte === BACKSLASH) i += 1;
      else if (byte === QUOTE) inText = false;
    } else if (byte === QUOTE) inText = true;
    else if (OPENS.has(byte)) {
      depth += 1;
      if (depth > DEEPEST) refuseDeep();
    } else if (CLOSES.has(byte)) depth -= 1;
  }
}

function refuseDeep(): never {
  throw new Fault("bad-input", "The request cannot be used.", [
    {
      place: "",
      value: `lists or objects more than ${DEEPEST} deep`,
      accepted: `lists and objects at most ${DEEPEST} deep`,
    },
  ]);
}
