import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Express } from "express";
import { createApp } from "../../../server/app.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import type { QueueState } from "../../../viewer/api/queue.ts";
import { FixedRuns } from "./fixed-runs.ts";

const shelf = studyShelf(join(import.meta.dirname, "../../../examples"));

/** The real app over fixed runs: everything but a run's figures is what the server says. */
export class FixedServer extends FixedRuns {
  readonly #server: Server;
  readonly #newApp: () => Express;
  #app: Express;
  #down = false;

  /**
   * @param page folder of the built page
   * @param queue what the workers of a queue are at, if there is one
   */
  constructor(page: string, queue: (() => Promise<QueueState>) | null = null) {
    super();
    this.#newApp = () => createApp({ runs: this, shelf, workers: 2, queue, page, hosts: new Set(["127.0.0.1"]) });
    this.#app = this.#newApp();
    this.#server = createServer((request, response) => {
      if (this.#down) request.socket.destroy();
      else this.#app(request, response);
    });
  }

  /** Forgets every run, draft and study of its own, at the same address. */
  renew(): void {
    this.forget();
    this.#app = this.#newApp();
    this.comeBack();
  }

  /** @returns the page's address, which ends in a slash */
  async listen(): Promise<string> {
    await new Promise<void>((resolve) => this.#server.listen(0, "127.0.0.1", resolve));
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}/`;
  }

  async close(): Promise<void> {
    this.#server.closeAllConnections();
    await new Promise((resolve) => this.#server.close(resolve));
  }

  /** Cuts every connection and refuses new ones until `comeBack`. */
  goDown(): void {
    this.#down = true;
    this.#server.closeAllConnections();
  }

  comeBack(): void {
    this.#down = false;
  }
}
