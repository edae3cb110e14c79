import { describe, expect, test } from "vitest";
import type { Response } from "express";
import { identityOf, nameIdentity, requireRole } from "../../../server/access/identity.ts";
import { ROLES, type Role } from "../../../viewer/api/access.ts";

const asking = (role: Role): Response => {
  const response = { set: () => undefined } as unknown as Response;
  nameIdentity(response, { name: "anna", role, by: "sign-in" });
  return response;
};

describe("a role may do what it says and what those before it may", () => {
  test.each(ROLES.flatMap((has) => ROLES.map((needs) => [has, needs] as const)))(
    "%s asks for what needs %s",
    (has, needs) => {
      const ask = (): void => requireRole(asking(has), needs);
      if (ROLES.indexOf(has) >= ROLES.indexOf(needs)) expect(ask).not.toThrow();
      else
        expect(ask).toThrow(
          expect.objectContaining({ code: "not-allowed", message: expect.stringContaining(`“${needs}”`) }),
        );
    },
  );
});

test("a request that nobody has put a name to is refused, not taken for the owner's", () => {
  const stranger = {} as Response;
  expect(() => identityOf(stranger)).toThrow(expect.objectContaining({ code: "sign-in-needed" }));
  expect(() => requireRole(stranger, "read")).toThrow(expect.objectContaining({ code: "sign-in-needed" }));
});
