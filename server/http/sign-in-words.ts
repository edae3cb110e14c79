import type { Language } from "../../viewer/present/messages/index.ts";
import type { Worded } from "../../viewer/present/messages/messages.ts";

const en = {
  lang: "en-GB",
  title: "Sign in",
  purpose: "The linear budget, tried by Monte Carlo",
  name: "Name",
  password: "Password",
  token: "Token",
  button: "Sign in",
  note: "Who administers this server gives names and passwords, and sets a new one if it is forgotten.",
  wrongPassword: "The name or the password is wrong.",
  wrongToken: "This is not the token of this server.",
  tooManyMinute: "Too many attempts failed. Try again in a minute.",
  tooManyMinutes: "Too many attempts failed. Try again in {minutes} minutes.",
} as const;

const de: SignInWords = {
  lang: "de",
  title: "Anmelden",
  purpose: "Das lineare Budget, mit Monte Carlo geprüft",
  name: "Name",
  password: "Passwort",
  token: "Token",
  button: "Anmelden",
  note: "Wer diesen Server verwaltet, vergibt Namen und Passwörter und setzt ein neues, wenn eines vergessen wurde.",
  wrongPassword: "Name oder Passwort ist falsch.",
  wrongToken: "Das ist nicht das Token dieses Servers.",
  tooManyMinute: "Zu viele Versuche sind fehlgeschlagen. Versuchen Sie es in einer Minute wieder.",
  tooManyMinutes: "Zu viele Versuche sind fehlgeschlagen. Versuchen Sie es in {minutes} Minuten wieder.",
};

/** What the sign-in page says, in one language. */
export type SignInWords = Worded<typeof en>;

/** The sign-in page has no script: the server fills its words in, in the language that the browser asks for. */
export const signInWords = { en, de } as const satisfies Readonly<Record<Language, SignInWords>>;
