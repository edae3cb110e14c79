import type { Evidence } from "../../engine/index.ts";
import { beside } from "./document.ts";
import type { OpenLogFile } from "./load.ts";
import { watchFile, type OnRead, type WatchedFile } from "./watched-file.ts";

/** The files of a log, opened as they are asked for. */
export interface WatchedLog {
  readonly open: OpenLogFile;
  /** Names and digests. Only to be asked for once all have been read. */
  traces(): Evidence["files"];
}

/** The files of a log that a way leads to by their names. */
export function watchedLog(find: (file: string | undefined) => WatchedFile | Promise<WatchedFile>): WatchedLog {
  const watched: WatchedFile[] = [];
  return {
    async open(file) {
      const opened = await find(file);
      watched.push(opened);
      return opened.source;
    },
    traces: () => watched.map((file) => file.trace()),
  };
}

/** The files of a log beside its description. @throws {Fault} `no-such-file` for the first, at once */
export async function watchLog(
  description: string,
  { file: first }: { readonly file: string },
  onRead?: OnRead,
): Promise<WatchedLog> {
  const begun = await watchFile(beside(description, first), onRead);
  return watchedLog((file) => (file === first ? begun : watchFile(beside(description, file!), onRead)));
}
