import { words as pageWords } from "./language.ts";
import { fillText } from "../present/fill.ts";
import type { Session } from "../api/access.ts";
import { readSession, RequestError, signOut, SIGNED_OUT } from "./api.ts";
import { html } from "./draw/node.ts";

const MAY: Readonly<Record<Session["role"], string>> = {
  read: pageWords.frame.roles.read,
  run: pageWords.frame.roles.run,
  administer: pageWords.frame.roles.administer,
};

/**
 * Shows who is signed in with the way out, and has the page offer what they may do. On a server that asks nobody who they
 * are there is nothing to show.
 */
export function mountSignedIn(place: HTMLElement, notice: HTMLElement): void {
  const show = ({ name, role, by }: Session): void => {
    document.documentElement.dataset.role = role;
    notice.hidden = true;
    place.hidden = by !== "sign-in";
    if (by !== "sign-in") return;
    place.replaceChildren(
      html("span", {}, pageWords.frame.signedInAs, html("strong", {}, name ?? ""), `, ${MAY[role]}`),
      html(
        "button",
        { type: "button", class: "quiet", id: "sign-out", onclick: () => void leave() },
        pageWords.frame.signOut,
      ),
    );
  };
  const leave = async (): Promise<void> => {
    try {
      await signOut();
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      // Without a session there is nothing left to end; without the server nothing can be said to have ended.
      if (error.status !== 401)
        return say(fillText(pageWords.frame.stillSignedIn, { why: error.fault.message }), false);
    }
    location.assign("sign-in");
  };
  const say = (words: string, way: boolean): void => {
    notice.replaceChildren(
      html("strong", {}, words),
      ...(way
        ? [
            " ",
            html("a", { href: "sign-in", target: "_blank", id: "sign-in-again" }, pageWords.frame.signInAgain),
            pageWords.frame.thenGoOn,
          ]
        : []),
    );
    notice.hidden = false;
  };
  let ended = 0;
  const ask = async (): Promise<void> => {
    const before = ended;
    try {
      const session = await readSession();
      // An answer from before the session ended comes too late.
      if (before === ended) show(session);
    } catch (error) {
      // A server that does not answer says so where its lists would stand.
      if (!(error instanceof RequestError)) throw error;
    }
  };
  addEventListener(SIGNED_OUT, () => {
    ended += 1;
    place.hidden = true;
    say(pageWords.frame.signedOut, true);
  });
  // Back from the tab where they signed in again, perhaps as another.
  addEventListener("focus", () => {
    if (!notice.hidden) void ask();
  });
  void ask();
}
