/** A moment as a date, with the time in UTC where asked; the text itself where it is not one. */
export function momentText(text: string, language: string, withTime: boolean): string {
  const time = new Date(text);
  if (Number.isNaN(time.getTime())) return text;
  const date = new Intl.DateTimeFormat(language === "en" ? "en-GB" : language, {
    dateStyle: "long",
    timeZone: "UTC",
  }).format(time);
  return withTime ? `${date}, ${time.toISOString().slice(11, 16)} UTC` : date;
}
