import type { RequestHandler } from "express";

/** Upper limits of the classes of durations, s. */
const CLASSES = [0.005, 0.025, 0.1, 0.5, 2.5, 10];

/** A figure that is read when it is asked for. */
export interface Gauge {
  readonly name: string;
  readonly help: string;
  /** By labels, as `state="running"`; an empty one for the figure as a whole. */
  readonly values: Readonly<Record<string, number>>;
}

export interface Metrics {
  /** Counts a request and its duration once it is answered or cut. */
  readonly count: RequestHandler;
  /** Everything counted, and the gauges, in the text format of Prometheus, version 0.0.4. */
  text(gauges: readonly Gauge[]): string;
}

export const METRICS_TYPE = "text/plain; version=0.0.4; charset=utf-8";

export function openMetrics(): Metrics {
  const requests = new Map<string, number>();
  const classes = CLASSES.map(() => 0);
  let all = 0;
  let seconds = 0;
  return {
    count(request, response, next) {
      const began = performance.now();
      response.on("close", () => {
        const labels = `method="${request.method}",status="${response.statusCode}"`;
        requests.set(labels, (requests.get(labels) ?? 0) + 1);
        const lasted = (performance.now() - began) / 1000;
        all += 1;
        seconds += lasted;
        CLASSES.forEach((limit, i) => {
          if (lasted <= limit) classes[i]! += 1;
        });
      });
      next();
    },
    text(gauges) {
      const duration = "trialband_request_duration_seconds";
      return [
        ...family("trialband_requests_total", "counter", "Requests answered or cut."),
        ...Array.from(requests, ([labels, count]) => `trialband_requests_total{${labels}} ${count}`),
        ...family(
          duration,
          "histogram",
          "Time until a request was answered or cut; of event streams, until they ended.",
        ),
        ...CLASSES.map((limit, i) => `${duration}_bucket{le="${limit}"} ${classes[i]!}`),
        `${duration}_bucket{le="+Inf"} ${all}`,
        `${duration}_sum ${seconds}`,
        `${duration}_count ${all}`,
        ...gauges.flatMap(({ name, help, values }) => [
          ...family(name, "gauge", help),
          ...Object.entries(values).map(([labels, value]) => `${name}${labels === "" ? "" : `{${labels}}`} ${value}`),
        ]),
        "",
      ].join("\n");
    },
  };
}

const family = (name: string, type: string, help: string): string[] => [
  `# HELP ${name} ${help}`,
  `# TYPE ${name} ${type}`,
];
