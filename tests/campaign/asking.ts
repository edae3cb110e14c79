import { request } from "node:http";

/** An answer, whole. */
export interface Answer {
  readonly status: number;
  readonly ok: boolean;
  json(): unknown;
}

/**
 * Asks a server, over a connection of its own: one that is used again may have been closed by the server a moment before,
 * which on a busy machine looks as if the server had ended.
 *
 * @param path below `api/`
 */
export function ask(url: string, method: string, path: string, body?: unknown): Promise<Answer> {
  const sent = body === undefined ? null : JSON.stringify(body);
  return new Promise((resolve, reject) => {
    const headers =
      sent === null ? {} : { "content-type": "application/json", "content-length": Buffer.byteLength(sent) };
    const asking = request(new URL(`api/${path}`, url), { method, agent: false, headers }, (response) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("error", reject);
      response.on("end", () => {
        const status = response.statusCode ?? 0;
        const text = Buffer.concat(chunks).toString();
        resolve({ status, ok: status >= 200 && status < 300, json: () => JSON.parse(text) as unknown });
      });
    });
    asking.on("error", reject);
    asking.end(sent ?? undefined);
  });
}
