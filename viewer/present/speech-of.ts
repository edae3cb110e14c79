import type { Messages } from "./messages/messages.ts";
import { translated } from "./messages/phrases/index.ts";
import { numbersWith } from "./numbers.ts";
import type { Speech } from "./statement.ts";

/** How a document speaks a language: its messages, its signs in numbers, and a record's texts where it has words for them. */
export const speechOf = (messages: Messages): Speech => ({
  messages,
  numbers: numbersWith(messages.decimalSign, messages.separator, messages.to),
  translate: (text) => translated(text, messages.language) ?? text,
});
