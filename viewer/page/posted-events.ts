import { faultIn, RequestError } from "./api.ts";

/**
 * Posts a request and yields the events of its answer. By `fetch`, not by an `EventSource`: that would begin anew after a
 * cut, and cannot tell why a server refused.
 *
 * @param lost what is said when the connection ends before the last event, done or failed
 * @throws {RequestError} the server refuses, or the connection is lost before the end
 * @throws {DOMException} `AbortError` if the reader stopped it
 */
export async function* postedEvents<T extends { readonly type: string }>(
  path: string,
  { signal, ...request }: RequestInit & { readonly signal: AbortSignal },
  lost: string,
): AsyncGenerator<T> {
  const cut = (): RequestError => new RequestError(0, { code: "unreachable", message: lost, problems: [] });
  const response = await fetch(path, { ...request, method: "POST", signal }).catch((cause: unknown) => {
    throw signal.aborted ? cause : cut();
  });
  if (!response.ok || response.body === null) {
    const body: unknown = await response.json().catch(() => null);
    throw new RequestError(response.status, faultIn(body, response.status));
  }
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  let ended = false;
  for (;;) {
    const { value, done } = await reader.read().catch((cause: unknown) => {
      throw signal.aborted ? cause : cut();
    });
    if (done) break;
    const parts = (rest + value).split("\n\n");
    rest = parts.pop()!;
    for (const part of parts) {
      if (!part.startsWith("data: ")) continue;
      const event = JSON.parse(part.slice("data: ".length)) as T;
      ended ||= event.type === "done" || event.type === "failed";
      yield event;
    }
  }
  if (!ended) throw cut();
}
