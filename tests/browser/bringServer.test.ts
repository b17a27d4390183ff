/** What the live server lets a page write, and what it keeps out: nobody else, and nothing half. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { plainName } from "../../notebooks/plugins/bring.ts";
import { openLibrary } from "../../src/library/library.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-bring-test-"));
const dir = join(scratch, "library");
const start = "hitter,bats\r\nAna,R\r\n";
let served: Served;
let token = "";

interface Answer {
  readonly status: number;
  readonly text: string;
}

function post(
  path: string,
  body: string | Buffer,
  headers: Record<string, string> = {},
  to: Served = served,
): Promise<Answer> {
  const { hostname, port, origin } = new URL(to.address);
  const all = {
    origin,
    "content-type": "application/octet-stream",
    "x-batted-token": token,
    "content-length": String(Buffer.byteLength(body)),
    ...headers,
  };
  const given = Object.fromEntries(Object.entries(all).filter(([, value]) => value !== ""));
  return new Promise((done, fail) => {
    const sent = request({ hostname, port, path, method: "POST", headers: given }, (response) => {
      let text = "";
      response.setEncoding("utf8").on("data", (piece: string) => (text += piece));
      response.on("end", () => done({ status: response.statusCode ?? 0, text }));
    });
    sent.on("error", fail);
    sent.end(body);
  });
}

const tokenOf = async (to: Served): Promise<string> => {
  const page = await (await fetch(`${to.address}bring-a-file.html`)).text();
  return /<meta name="batted-token" content="([^"]*)"/.exec(page)![1]!;
};

const rows =
  "hitter,input,exit_velocity_mph,launch_angle_deg\r\nBo,tee,81.5,12\r\nBo,tee,84,9\r\nBo,cage,84,9\r\n";
const call = (more: object = {}): string =>
  `${JSON.stringify({ name: "a.csv", map: null, fill: { session: "s1" }, ...more })}\n`;
const swings = async (): Promise<number> => (await openLibrary(dir)).swings.length;
/** Everything in the library's folder, and its hitters as they stand. */
const state = (): string =>
  JSON.stringify([
    readdirSync(dir, { recursive: true }).sort(),
    readFileSync(join(dir, "hitters.csv"), "utf8"),
  ]);

beforeAll(async () => {
  mkdirSync(dir);
  writeFileSync(join(dir, "hitters.csv"), start);
  served = await serveNotebooks({ library: dir });
  token = await tokenOf(served);
}, 120_000);

afterAll(async () => {
  await served?.close();
  rmSync(scratch, { recursive: true, force: true });
});

describe("the live server, written to", { timeout: 120_000 }, () => {
  it("gives its page a token that nobody could guess, and no other page one", async () => {
    expect(token).toMatch(/^[0-9a-f]{64}$/);
    for (const page of ["index.html", "drill-report.html", "library.json"])
      expect(await (await fetch(`${served.address}${page}`)).text()).not.toContain(token);
  });

  it("takes nothing without the token, from another origin, under another name, or in another form", async () => {
    const before = state();
    const { host } = new URL(served.address);
    const tries: [Record<string, string>, number][] = [
      [{ "x-batted-token": "" }, 403],
      [{ "x-batted-token": `${token.slice(1)}0` }, 403],
      [{ "x-batted-token": "0" }, 403],
      [{ origin: "" }, 403],
      [{ origin: "null" }, 403],
      [{ origin: "http://pages.example" }, 403],
      [{ origin: `https://${host}` }, 403],
      [{ origin: "http://127.0.0.1:1" }, 403],
      [{ host: "pages.example", origin: "http://pages.example" }, 403],
      [{ host: "127.0.0.1.pages.example", origin: "http://127.0.0.1.pages.example" }, 403],
      [{ "sec-fetch-site": "cross-site" }, 403],
      [{ "sec-fetch-site": "same-site", "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" }, 403],
      [{ "content-type": "text/plain" }, 415],
      [{ "content-type": "multipart/form-data; boundary=x" }, 415],
      [{ "content-type": "" }, 415],
    ];
    for (const [headers, status] of tries)
      for (const [path, body] of [
        ["/bring/add", call() + rows],
        ["/bring/rows", JSON.stringify({ table: "hitters", rows: [{ hitter: "Cy" }] })],
      ] as const)
        expect((await post(path, body, headers)).status, `${path} ${JSON.stringify(headers)}`).toBe(status);
    expect(state()).toBe(before);
  });

  it("writes at two addresses alone, and with POST alone", async () => {
    const before = state();
    for (const path of [
      "/bring",
      "/bring/",
      "/bring/add/",
      "/bring/add?x",
      "/bring/../bring/add",
      "/bring/ADD",
      "/bring/constructor",
      "/bring/__proto__",
      "/library.json",
      "/bring-a-file.html",
    ])
      expect((await post(path, call() + rows)).status, path).toBe(405);
    for (const method of ["PUT", "PATCH", "DELETE", "OPTIONS"])
      expect((await fetch(`${served.address}bring/add`, { method })).status).toBe(405);
    expect((await fetch(`${served.address}bring/add`)).status).toBe(404);
    expect(state()).toBe(before);
  });

  it("says in one sentence what it can't use, and writes nothing", async () => {
    const before = state();
    const tries: [string, string | Buffer, number, RegExp][] = [
      ["/bring/add", "", 400, /can't be read/],
      ["/bring/add", "{}\n", 400, /can't be read/],
      ["/bring/add", "no json\n", 400, /can't be read/],
      ["/bring/add", "[]\n", 400, /can't be read/],
      ["/bring/add", "x".repeat(1_100_000), 400, /can't be read/],
      ["/bring/add", call({ map: { columns: { A: "no_such_field" } } }) + rows, 422, /no field of swings/],
      ["/bring/add", call({ fill: { session: 5 } }) + rows, 400, /can't be read/],
      ["/bring/add", call({ fill: { input: "cage" } }) + rows, 422, /can't be filled/],
      ["/bring/add", call(), 422, /^a\.csv is empty\.$/],
      [
        "/bring/add",
        Buffer.concat([Buffer.from(call()), Buffer.from([0x50, 0x4b, 3, 4])]),
        422,
        /a spreadsheet/,
      ],
      ["/bring/rows", "[]", 400, /can't be read/],
      ["/bring/rows", JSON.stringify({ table: "swings", rows: [] }), 400, /can't be read/],
      ["/bring/rows", JSON.stringify({ table: "hitters", rows: [{ hitter: 5 }] }), 400, /can't be read/],
      ["/bring/rows", '{"table":"hitters","rows":[{"hitter":"Cy","__proto__":"x"}]}', 422, /is no field/],
      [
        "/bring/rows",
        JSON.stringify({ table: "hitters", rows: [{ hitter: "Cy", level: "x", bats: "Q" }] }),
        422,
        /bats "Q" is not one of/,
      ],
      ["/bring/rows", "x".repeat(1_100_000), 413, /MB/],
    ];
    for (const [path, body, status, why] of tries) {
      const { status: got, text } = await post(path, body);
      const { trouble } = JSON.parse(text) as { trouble: string };
      expect([got, trouble], String(body).slice(0, 90)).toEqual([status, expect.stringMatching(why)]);
      expect(trouble).toMatch(/^[^<>]+\.$/);
      expect(trouble).not.toContain(tmpdir());
    }
    expect(await swings()).toBe(0);
    expect(readFileSync(join(dir, "hitters.csv"), "utf8")).toBe(start);
    expect(state().replace('"swings"', "").length).toBeLessThanOrEqual(before.length + 30);
  });

  it("takes no file over the limit, whatever its length is said to be", async () => {
    const { hostname, port, origin } = new URL(served.address);
    const head = (length: string): string =>
      `POST /bring/add HTTP/1.1\r\nHost: ${hostname}:${port}\r\nOrigin: ${origin}\r\nX-Batted-Token: ${token}\r\nContent-Type: application/octet-stream\r\n${length}\r\n\r\n`;
    const answered = (text: string): Promise<string> =>
      new Promise((done) => {
        let got = "";
        const socket = connect(Number(port), hostname, () => socket.write(text));
        socket.on("data", (piece) => (got += piece.toString("latin1")));
        socket.on("close", () => done(got)).on("error", () => {});
      });
    expect(await answered(head(`Content-Length: ${300 * 2 ** 20}`))).toMatch(/^HTTP\/1\.1 413 /);
    expect(await swings()).toBe(0);
  });

  it("adds nothing of a file that breaks off, and leaves nothing behind", async () => {
    const { hostname, port, origin } = new URL(served.address);
    const body = call() + rows;
    for (const sent of [10, call().length + 5, body.length - 3]) {
      await new Promise<void>((done) => {
        const socket = connect(Number(port), hostname, () => {
          socket.write(
            `POST /bring/add HTTP/1.1\r\nHost: ${hostname}:${port}\r\nOrigin: ${origin}\r\nX-Batted-Token: ${token}\r\nContent-Type: application/octet-stream\r\nContent-Length: ${body.length}\r\n\r\n${body.slice(0, sent)}`,
          );
          setTimeout(() => socket.destroy(), 300);
        });
        socket.on("close", () => done());
      });
    }
    await new Promise((done) => setTimeout(done, 500));
    expect(await swings()).toBe(0);
    expect(readdirSync(tmpdir()).filter((name) => /^batted-bring-\w{6}$/.test(name))).toEqual([]);
  });

  it("adds a file as the command does, once, under a lock, and keeps its map when it is asked to", async () => {
    const map = {
      columns: {
        Who: "hitter",
        Mode: { field: "input", words: { cage: "tee" } },
        EV: "exit_velocity_mph",
        LA: "launch_angle_deg",
      },
    };
    const sheet = "Who,Mode,EV,LA\r\nBo,cage,81.5,12\r\nBo,live,84,9\r\nBo,??,84,9\r\n";
    const body = call({ name: "..\\..\\<b>x</b>/day 1.csv", map, keep: true }) + sheet;
    const first = await post("/bring/add", body);
    expect(JSON.parse(first.text)).toMatchObject({
      file: "day 1.csv",
      read: 3,
      new: 2,
      refused: 1,
      sessions: ["s1"],
      map: "map.json",
    });
    expect(await swings()).toBe(2);
    expect(JSON.parse(readFileSync(join(dir, "map.json"), "utf8"))).toEqual(map);
    // At once and again: every row is there once.
    const more = await Promise.all([post("/bring/add", body), post("/bring/add", body)]);
    for (const { status, text } of more) {
      expect([status, text]).toEqual([200, expect.stringContaining('"copies":2')]);
    }
    expect(await swings()).toBe(2);
    // A map under which most is refused is not kept.
    const bad = call({
      map: { columns: { Who: "hitter", Mode: "input", EV: "exit_velocity_mph", LA: "launch_angle_deg" } },
      keep: true,
    });
    expect(
      JSON.parse((await post("/bring/add", `${bad}Who,Mode,EV,LA\r\nBo,a,81,12\r\n`)).text),
    ).toMatchObject({ new: 0, refused: 1, map: null });
    expect(readdirSync(dir).filter((name) => /^map/.test(name))).toEqual(["map.json"]);
  });

  it("asks before it takes what looks wrong, and takes it when it is told to", async () => {
    const fast = Array.from({ length: 40 }, (_, i) => `Di,tee,${118 + (i % 9)}.${i % 10},${i % 30}`).join(
      "\r\n",
    );
    const body = `hitter,input,exit_velocity_mph,launch_angle_deg\r\n${fast}\r\n`;
    const before = await swings();
    const asked = await post("/bring/add", call() + body);
    expect(asked.status).toBe(409);
    expect(JSON.parse(asked.text)).toMatchObject({ doubts: [expect.stringContaining("looks like km/h")] });
    expect(await swings()).toBe(before);
    expect((await post("/bring/add", call({ anyway: true }) + body)).status).toBe(200);
    expect(await swings()).toBe(before + 40);
  });

  it("adds a file that came whole, once, though the page is gone before the answer, and says so when it is asked", async () => {
    const { hostname, port, host, origin } = new URL(served.address);
    const before = await swings();
    const at = Date.now();
    const became = async (name: string): Promise<unknown> =>
      JSON.parse((await post("/bring/became", JSON.stringify({ name, at }))).text);
    const lines = Array.from({ length: 2_000 }, (_, i) => `Ed,tee,${60 + (i % 300) / 10},${i % 30},${i}`);
    const body = `${call({ name: "gone.csv", fill: { session: "gone" } })}hitter,input,exit_velocity_mph,launch_angle_deg,note\r\n${lines.join("\r\n")}\r\n`;
    const head = `POST /bring/add HTTP/1.1\r\nHost: ${host}\r\nOrigin: ${origin}\r\nX-Batted-Token: ${token}\r\nContent-Type: application/octet-stream\r\nContent-Length: ${Buffer.byteLength(body)}\r\n\r\n`;
    expect(await became("gone.csv")).toEqual({ state: "nothing" });
    await new Promise<void>((done) => {
      const socket = connect(Number(port), hostname, () => {
        socket.write(head + body, () => socket.destroy());
      });
      socket.on("close", () => done());
    });
    await expect
      .poll(() => became("gone.csv"), { timeout: 60_000 })
      .toEqual({ state: "added", counts: { read: 2_000, new: 2_000, corrected: 0, refused: 0 } });
    expect(await swings()).toBe(before + 2_000);
    // Asked of a later visit than that, and of another file, it knows of nothing.
    expect(
      JSON.parse((await post("/bring/became", JSON.stringify({ name: "gone.csv", at: Date.now() }))).text),
    ).toEqual({ state: "nothing" });
    expect((await post("/bring/became", JSON.stringify({ name: 1, at }))).status).toBe(400);
    const left = (): string[] => readdirSync(tmpdir()).filter((name) => /^batted-bring-\w{6}$/.test(name));
    await expect.poll(left, { timeout: 30_000 }).toEqual([]);
  });

  it("writes rows beside the swings", async () => {
    const body = JSON.stringify({ table: "hitters", rows: [{ hitter: "Bo", bats: "L" }] });
    expect(await post("/bring/rows", body)).toEqual({ status: 200, text: '{"added":1,"changed":0}' });
    expect(readFileSync(join(dir, "hitters.csv"), "utf8")).toBe(`${start}Bo,L\r\n`);
  });

  it("writes nowhere when it is started to be read from", async () => {
    const reading = await serveNotebooks({ library: dir, readOnly: true });
    try {
      expect(await tokenOf(reading)).toBe("");
      const before = state();
      for (const given of [token, ""])
        expect((await post("/bring/add", call() + rows, { "x-batted-token": given }, reading)).status).toBe(
          405,
        );
      expect(state()).toBe(before);
    } finally {
      await reading.close();
    }
  });
});

describe("a file's name as it is kept", () => {
  it.each([
    ["../../etc/passwd", "passwd"],
    ["C:\\Users\\a.csv", "a.csv"],
    ["...csv", "file.csv"],
    ["a\u0000\u202eb\n.csv", "ab.csv"],
    ["", "file.csv"],
    [".hidden.csv", "hidden.csv"],
    ["\u{1f3af}".repeat(300), "\u{1f3af}".repeat(60)],
  ])("of %j is %j", (given, kept) => {
    expect(plainName(given)).toBe(kept);
    expect(Buffer.byteLength(kept)).toBeLessThan(255);
  });
});
