import express from "express";
import request from "supertest";
import { describe, expect, test } from "vitest";
import { quiet } from "../../../server/http/log.ts";
import { refuse } from "../../../server/http/refuse.ts";
import { answerList } from "../../../server/routes/paging.ts";

const ids = Array.from({ length: 7 }, (_, i) => ({ id: `r&${i}` }));
let list = ids;
const app = express();
app.use(
  "/api",
  express.Router().get("/things", (asked, response) => answerList(asked, response, list)),
);
app.use(refuse(quiet));

/** RFC 8288, 3: `<address>; rel="next"`. */
const nextOf = (link: string | undefined): string | null => /^<([^>]+)>; rel="next"$/.exec(link ?? "")?.[1] ?? null;

describe("a list", () => {
  test("comes whole if no part is asked for", async () => {
    const { body, headers } = await request(app).get("/api/things");
    expect(body).toEqual(ids);
    expect(headers).not.toHaveProperty("link");
  });

  test.each([1, 2, 3, 6, 7, 1000])("comes in parts of %i, each with the address of the next", async (limit) => {
    const found: unknown[] = [];
    let parts = 0;
    for (let next: string | null = `/api/things?limit=${limit}`; next !== null; parts++) {
      const { body, headers }: request.Response = await request(app).get(next);
      found.push(...(body as unknown[]));
      next = nextOf(headers["link"]);
    }
    expect(found).toEqual(ids);
    expect(parts).toBe(Math.ceil(ids.length / limit));
  });

  test("what is added in front while it is read moves nothing", async () => {
    const { headers } = await request(app).get("/api/things?limit=3");
    list = [{ id: "new" }, ...ids];
    const { body } = await request(app).get(nextOf(headers["link"])!);
    list = ids;
    expect(body).toEqual(ids.slice(3, 6));
  });

  test.each([
    ["limit=0", "limit"],
    ["limit=1001", "limit"],
    ["limit=1.5", "limit"],
    ["limit=", "limit"],
    ["limit=1&limit=2", "limit"],
    ["after=none", "after"],
    ["after=", "after"],
  ])("%s is refused", async (query, place) => {
    const { body, status } = await request(app).get(`/api/things?${query}`);
    expect(status).toBe(422);
    expect((body as { problems: { place: string }[] }).problems[0]!.place).toBe(place);
  });

  test("is not sent again to one who has it, RFC 9110, 13.1.2 and 15.4.5", async () => {
    const { headers } = await request(app).get("/api/things?limit=2");
    const again = await request(app).get("/api/things?limit=2").set("if-none-match", headers["etag"]!);
    expect({ status: again.status, text: again.text }).toEqual({ status: 304, text: "" });
    list = ids.slice(1);
    const changed = await request(app).get("/api/things?limit=2").set("if-none-match", headers["etag"]!);
    list = ids;
    expect(changed.status).toBe(200);
  });
});
