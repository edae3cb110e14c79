import type { KeptFile, LogLook, LogSeries, SurveyPlan } from "../../api/evidence.ts";
import { keepFile, lookAtLogs, readLogSeries, RequestError } from "../api.ts";
import type { FormContext } from "../evidence/frame.ts";
import type { LoggedDraft } from "./draft.ts";
import { newThermometer } from "./log-part.ts";

/** The files of a log as a form holds them: sent to the server, looked at, read as the draft says. */
export interface Logged {
  readonly looks: ReadonlyMap<string, LogLook>;
  /** The log as it was read last; `null` if it was not, or cannot be. */
  readonly series: () => LogSeries | null;
  /** Takes files into the log; the only log there was gives way to a single other one if steps were set up for it. */
  readonly take: (added: readonly File[]) => Promise<void>;
  readonly remove: (name: string) => void;
  /** Reads the log as the draft says, unless something newer is asked meanwhile. */
  readonly read: () => Promise<void>;
  /** Looks at the files of a draft that was opened. */
  readonly opened: () => void;
}

/**
 * @param drawn what depends on the log as it was read is drawn anew
 * @param plan takes the steps or the positions of a survey, which a table beside the log states
 */
export function createLogged<Draft extends LoggedDraft>(
  context: FormContext<Draft>,
  drawn: () => void,
  plan?: (stated: SurveyPlan) => void,
): Logged {
  const looks = new Map<string, LogLook>();
  let series: LogSeries | null = null;
  let reading = 0;

  async function read(): Promise<void> {
    const mine = (reading += 1);
    const put = (found: LogSeries | null): void => {
      series = found;
      drawn();
    };
    if (context.draft().thermometers.length === 0 || context.files().length === 0) return put(null);
    try {
      const files = context.files().map(({ name, sha256 }) => ({ name, sha256 }));
      const found = await readLogSeries({ document: context.document(), files });
      if (mine !== reading) return;
      put(found);
      context.complain([]);
    } catch (error) {
      if (mine !== reading) return;
      put(null);
      context.refused(error);
    }
  }

  /** How a file looks; what it seems to have is taken over if it is new to the draft. */
  function look(file: KeptFile, found: LogLook, propose: boolean): void {
    const draft = context.draft();
    looks.set(file.name, found);
    if (!propose || draft.thermometers.some((one) => one.file === file.name)) return;
    const { proposal } = found;
    const log = draft.logs.find((one) => one.file === file.name)!;
    if (proposal.headingRow === 0) log.fields["headingRow"] = "0";
    if (proposal.time !== null) log.fields["time"] = proposal.time;
    if (proposal.timeOfDay !== null) log.fields["timeOfDay"] = proposal.timeOfDay;
    if (proposal.dates !== null) log.fields["dates"] = proposal.dates;
    for (const { name, column, unit } of proposal.thermometers) {
      const made = newThermometer(draft, file.name, column ?? name, unit);
      draft.thermometers.push(made);
      // Steps that came before their log may name its thermometers.
      for (const step of draft.steps) step.at[made.name] ??= "";
    }
  }

  return {
    looks,
    series: () => series,
    read,
    take: async (added) => {
      try {
        for (const file of added) {
          const one = await keepFile(file);
          const [found] = await lookAtLogs({ files: [{ name: one.name, sha256: one.sha256 }] });
          if (plan !== undefined && found!.plan !== null) {
            plan(found!.plan);
            continue;
          }
          const draft = context.draft();
          const files = context.files();
          // A log in the place of the only one before: everything else stays as it was set up.
          const replaced = files.length === 1 && added.length === 1 && draft.steps.length > 0;
          if (replaced) {
            for (const thermometer of draft.thermometers) thermometer.file = one.name;
            draft.logs = [{ file: one.name, fields: draft.logs[0]?.fields ?? {} }];
            context.setFiles([one]);
          } else {
            context.setFiles([...files.filter(({ name }) => name !== one.name), one]);
            if (!draft.logs.some((log) => log.file === one.name)) draft.logs.push({ file: one.name, fields: {} });
          }
          look(one, found!, !replaced);
        }
        context.changed();
        context.redraw();
        await read();
        document.getElementById("setup-thermometers-title")?.scrollIntoView({ block: "nearest" });
      } catch (error) {
        context.refused(error);
        if (error instanceof RequestError)
          document.getElementById("setup-files-problem")!.textContent = error.fault.problems.reduce(
            (text, { place, value, accepted }) => `${text} ${place}: ${value}; ${accepted}`,
            error.fault.message,
          );
      }
    },
    remove: (name) => {
      const draft = context.draft();
      context.setFiles(context.files().filter((file) => file.name !== name));
      draft.logs = draft.logs.filter(({ file }) => file !== name);
      draft.thermometers = draft.thermometers.filter(({ file }) => file !== name);
      looks.delete(name);
      context.changed();
      context.redraw();
      void read();
    },
    opened: () => {
      looks.clear();
      series = null;
      void (async () => {
        try {
          for (const file of context.files()) {
            const [found] = await lookAtLogs({ files: [{ name: file.name, sha256: file.sha256 }] });
            look(file, found!, false);
          }
          await read();
        } catch (error) {
          context.refused(error);
        }
      })();
    },
  };
}
