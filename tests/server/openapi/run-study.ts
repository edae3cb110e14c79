import createClient from "openapi-fetch";
import type { paths } from "trialband-api";

/**
 * Runs a listed study on a server: starts it, waits until it has ended, reads its record.
 *
 * @throws {Error} with the code of what the server refuses
 */
export async function runStudy(
  server: string,
  study: string,
  trials: number,
): Promise<{ readonly trials: number; readonly validated: boolean }> {
  const client = createClient<paths>({ baseUrl: server });
  const started = await client.POST("/api/runs", { body: { study, trials } });
  if (started.error !== undefined) throw new Error(`${started.error.code}: ${started.error.detail}`);
  const path = { id: started.data.id };
  for (;;) {
    const { data: run, error } = await client.GET("/api/runs/{id}", { params: { path } });
    if (error !== undefined) throw new Error(`${error.code}: ${error.detail}`);
    if (run === undefined) throw new Error("the run has no answer");
    if (run.error !== null) throw new Error(`${run.error.code}: ${run.error.message}`);
    if (run.record !== null) {
      const [measurand] = Object.values(run.record.measurands);
      return { trials: run.record.trials.count, validated: measurand!.validation.validated };
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
