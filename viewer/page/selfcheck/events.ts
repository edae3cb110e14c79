import { words } from "../language.ts";
import type { SelfcheckEvent } from "../../api/selfcheck.ts";
import { faultIn, RequestError } from "../api.ts";

const lost = (): RequestError =>
  new RequestError(0, {
    code: "unreachable",
    message: words.selfcheck.lost,
    problems: [],
  });

/**
 * Carries out a selfcheck and yields what happens. By `fetch`, not by an `EventSource`: that would begin anew after a
 * cut, and cannot tell why a server refused.
 *
 * @throws {RequestError} the server refuses, or the connection is lost before the end
 * @throws {DOMException} `AbortError` if the reader stopped it
 */
export async function* selfcheckEvents(quick: boolean, signal: AbortSignal): AsyncGenerator<SelfcheckEvent> {
  const response = await fetch(`api/selfcheck?quick=${quick ? 1 : 0}`, { method: "POST", signal }).catch(
    (cause: unknown) => {
      throw signal.aborted ? cause : lost();
    },
  );
  if (!response.ok || response.body === null) {
    const body: unknown = await response.json().catch(() => null);
    throw new RequestError(response.status, faultIn(body, response.status));
  }
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  let ended = false;
  for (;;) {
    const { value, done } = await reader.read().catch((cause: unknown) => {
      throw signal.aborted ? cause : lost();
    });
    if (done) break;
    const parts = (rest + value).split("\n\n");
    rest = parts.pop()!;
    for (const part of parts) {
      if (!part.startsWith("data: ")) continue;
      const event = JSON.parse(part.slice("data: ".length)) as SelfcheckEvent;
      ended ||= event.type === "done" || event.type === "failed";
      yield event;
    }
  }
  if (!ended) throw lost();
}
