// A language that lacks a message must not compile. Checked by `npm run types`; nothing here runs.
import type { DistributionTitle } from "../../engine/distributions/titles.ts";
import { en } from "../../engine/sentences/en/index.ts";
import type { Messages, MessageTable } from "../../engine/sentences/messages.ts";
import type { VerdictFact } from "../../engine/validation/verdict-facts.ts";

const { displaced: _displaced, ...verdictWithout } = en.verdict;
// @ts-expect-error a fact has no message
const missingMessage: MessageTable<VerdictFact> = verdictWithout;
// @ts-expect-error a topic lacks a message
const missingInTopic: Messages = { ...en, verdict: verdictWithout };
const { remarks: _remarks, ...topicsWithout } = en;
// @ts-expect-error a topic is missing
const missingTopic: Messages = topicsWithout;
// @ts-expect-error no such fact
const unknownFact: MessageTable<VerdictFact> = { ...en.verdict, doubled: () => "" };
// @ts-expect-error the fact has no such figure
const unknownFigure: MessageTable<VerdictFact> = { ...en.verdict, displaced: ({ factor }) => String(factor) };
// @ts-expect-error a distribution without its name in one language
const missingName: DistributionTitle = { en: "normal" };

export { missingInTopic, missingMessage, missingName, missingTopic, unknownFact, unknownFigure };
