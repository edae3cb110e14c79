/** What the benchmarks use of autocannon, which brings no types of its own. */
declare module "autocannon" {
  interface Options {
    readonly url: string;
    readonly method?: string;
    readonly headers?: Readonly<Record<string, string>>;
    readonly body?: string;
    /** Connections at once. */
    readonly connections: number;
    /** Seconds that requests are sent for, unless `amount` is given. */
    readonly duration?: number;
    /** Requests in all. */
    readonly amount?: number;
    /** Seconds until an answer counts as missing. */
    readonly timeout?: number;
    /** Answers for which this is false are counted as `mismatches`. */
    readonly verifyBody?: (body: string) => boolean;
  }
  interface Figures {
    readonly average: number;
    readonly p50: number;
    readonly p99: number;
    readonly max: number;
  }
  interface Result {
    /** ms from a request to the end of its answer. */
    readonly latency: Figures;
    /** Requests a second. */
    readonly requests: Figures & { readonly total: number };
    readonly errors: number;
    readonly timeouts: number;
    readonly mismatches: number;
    readonly statusCodeStats: Readonly<Record<string, { readonly count: number }>>;
  }
  export default function autocannon(options: Options): Promise<Result>;
}
