import { html, type Child } from "../draw/node.ts";
import { messages } from "../language.ts";

/** A text as it is set on the page: what has no words in its language is marked as English. */
type Said = (english: string) => Child;

/** How the view says what the checks say, which is English. */
export interface CheckSpeech {
  readonly text: Said;
  readonly source: Said;
  /** @param put what is done with the figure, such as adding its unit */
  readonly figures: (english: string, put: (figure: string) => string) => Child;
  /** Without marks, for what is heard alone. */
  readonly spoken: (english: string) => string;
}

const ENGLISH: CheckSpeech = {
  text: (english) => english,
  source: (english) => english,
  figures: (english, put) => put(english),
  spoken: (english) => english,
};

/** The words are loaded with the view: no other needs them. */
export async function checkSpeech(): Promise<CheckSpeech> {
  if (messages.language === "en") return ENGLISH;
  const { germanCheckWords } = await import("../../present/check-words.ts");
  const { text, source, figures } = germanCheckWords(messages);
  const marked = (translated: string | null, english: string): Child =>
    translated ?? html("span", { lang: "en" }, english);
  return {
    text: (english) => marked(text(english), english),
    source: (english) => marked(source(english), english),
    figures: (english, put) => {
      const translated = figures(english);
      return marked(translated === null ? null : put(translated), put(english));
    },
    spoken: (english) => text(english) ?? english,
  };
}
