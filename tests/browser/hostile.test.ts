/**
 * The live server and its pages under attack: from requests that no page of ours sends, and from a library whose
 * names, headings and file names are written to become markup. The library's folder holds links that lead out of it.
 */
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { pages } from "../../notebooks/pages.ts";
import { serveNotebooks, type Served } from "../../notebooks/serve.ts";
import { sessionFields, swingFields, targetFields, hitterFields } from "../../src/swing/fields.ts";
import { csvText } from "../../src/library/write.ts";
import { run } from "../cli/run.ts";
import { hostile } from "../fuzz/hostile.ts";
import { filesUnder, root } from "../house/files.ts";
import { launchChromium } from "./chromium.ts";
import { drawn, openPage, widths, type Watched } from "./watch.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-hostile-"));
const libraryDir = join(scratch, "library");
const outside = join(scratch, "outside");
/** Stands in files that no answer may hold. */
const secret = "kept-out-of-every-answer";
let browser: Browser;
let served: Served;

/** A library in which everything that is text is hostile: each hitter has a name of the list. */
function writeLibrary(): void {
  mkdirSync(libraryDir);
  mkdirSync(outside);
  writeFileSync(join(outside, "secret.html"), secret);
  writeFileSync(join(outside, "secret.txt"), secret);
  symlinkSync(join(outside, "secret.html"), join(libraryDir, "link.html"));
  symlinkSync(outside, join(libraryDir, "linked"));
  const swings = hostile.flatMap((hitter, h) =>
    (["tee", "flip", "live"] as const).flatMap((input) =>
      Array.from({ length: 8 }, (_, i) => ({
        session: `${hitter} day ${1 + (i % 2)}`,
        hitter,
        bats: "R",
        input,
        drill: hitter,
        exit_velocity_mph: 70 + ((i * 7 + h) % 23),
        launch_angle_deg: ((i * 13) % 40) - 8,
        spray_angle_deg: ((i * 17) % 70) - 35,
        contact_side_ft: ((i % 3) - 1) * 0.5,
        contact_depth_ft: 1 + (i % 4) * 0.4,
        contact_height_ft: 1.8 + (i % 4) * 0.4,
        pitch_speed_mph: input === "live" ? 60 + i : null,
        pitch_type: input === "live" ? hitter : null,
        pitcher: input === "live" ? hitter : null,
        note: hitter,
      })),
    ),
  );
  const sessions = hostile.flatMap((name) =>
    [1, 2].map((day) => ({
      session: `${name} day ${day}`,
      date: `2026-05-0${day}`,
      place: name,
      // A name that no table holds is refused with its row, and shown in the sentence that says so.
      ball: day === 1 ? "baseball" : name,
    })),
  );
  const files = {
    "<img src=x onerror=alert(1)>.csv": `${csvText(swings, swingFields)}${hostile[0]},tee,<b>x</b>,1\r\n`,
    "sessions.csv": csvText(sessions, sessionFields),
    "hitters.csv": csvText(
      hostile.map((hitter) => ({ hitter, bats: "R", level: hitter })),
      hitterFields,
    ),
    "targets.csv": csvText(
      hostile.map((drill) => ({ drill, exit_velocity_mph_low: 80 })),
      targetFields,
    ),
    "headings.csv": `<script>alert(1)</script>,__proto__,constructor\n1,2,3\n`,
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(libraryDir, name), text);
}

beforeAll(async () => {
  writeLibrary();
  ({ browser } = await launchChromium());
  served = await serveNotebooks({ library: libraryDir });
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(scratch, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly text: string;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
}

function ask(path: string, method = "GET", headers: Record<string, string> = {}): Promise<Answer> {
  const { hostname, port } = new URL(served.address);
  return new Promise((done, fail) => {
    request({ hostname, port, path, method, headers }, (response) => {
      let text = "";
      response.setEncoding("latin1").on("data", (piece: string) => (text += piece));
      response.on("end", () => done({ status: response.statusCode ?? 0, text, headers: response.headers }));
    })
      .on("error", fail)
      .end();
  });
}

/** The first line with which a socket's request is answered; empty when the connection is closed. */
function knock(headers: Record<string, string>, path = "/"): Promise<string> {
  const { hostname, port } = new URL(served.address);
  const all = {
    Host: `${hostname}:${port}`,
    Upgrade: "websocket",
    Connection: "Upgrade",
    // The example key of RFC 6455, section 1.2.
    "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ==",
    "Sec-WebSocket-Version": "13",
    "Sec-WebSocket-Protocol": "vite-hmr",
    ...headers,
  };
  const lines = Object.entries(all).map(([name, value]) => `${name}: ${value}`);
  return new Promise((done) => {
    let text = "";
    const socket = connect(Number(port), hostname, () =>
      socket.write(`GET ${path} HTTP/1.1\r\n${lines.join("\r\n")}\r\n\r\n`),
    );
    socket.on("data", (piece) => {
      text += piece.toString("latin1");
      socket.destroy();
    });
    socket.on("close", () => done(text.split("\r\n")[0]!));
    socket.on("error", () => {});
  });
}

describe("the live server", () => {
  it.each([
    "/../outside/secret.html",
    "/%2e%2e/outside/secret.html",
    "/%2e%2e%2foutside%2fsecret.html",
    "/..%5c..%5coutside%5csecret.html",
    "/..\\..\\outside\\secret.html",
    "/%252e%252e/outside/secret.html",
    "/index.html%00.css",
    "/%00",
    "/%",
    "/%ff",
    "//etc/passwd",
    "/link.html",
    "/linked/secret.txt",
    "/linked/",
    `/@fs${libraryDir}/link.html`,
    `/@fs${libraryDir}/linked/secret.txt?raw`,
    `/@fs${libraryDir}/linked/secret.txt?import&raw`,
    `/@fs${outside}/secret.txt`,
    `/@fs${outside}/secret.txt?url`,
    `/@fs${outside}/secret.txt?inline`,
    `/@fs${root}data/demo/../../package.json?raw`,
    `/@fs${root}src/%2e%2e/package.json?raw`,
    `/@fs${root}data/demo/swings.csv`,
    `/@fs${root}data/demo/swings.csv?raw`,
    `/@fs${root}node_modules/.package-lock.json`,
    `/@fs${root}.git/config`,
    "/@id/../package.json",
    "/library.json/x",
    "/library.json/../../package.json",
    "/library.jsonx",
    "/__open-in-editor?file=package.json",
    "/__Open-In-Editor?file=package.json",
    "/components/",
    "/components",
    "/page/",
    `/@fs${root}src/`,
    `/@fs${root}data/`,
    `/@fs${root}node_modules/`,
    // The project's own sources, those of the pages too where no page asks for them in this form.
    "/serve.ts",
    "/build.ts",
    "/plugins/guard.ts",
    "/page/template.html",
    "/vite.config.ts",
    "/index.html?raw",
    "/index.html?import&raw",
    "/index.html?html-proxy&raw&index=0.js",
    "/components/show.ts?raw",
    "/components/show.ts?url",
    `/@fs${root}src/cli/main.ts`,
    `/@fs${root}src/library/transaction.ts`,
    `/@fs${root}src/units/index.ts?raw`,
    `/@fs${root}data/datapackage.json`,
    `/@fs${root}data/maps/`,
    `/@fs${root}node_modules/typescript/package.json`,
    `/@fs${root}node_modules/vitest/dist/index.js`,
  ])("has nothing at %s", async (path) => {
    const { status, text } = await ask(path);
    expect([400, 403, 404]).toContain(status);
    expect(text).not.toContain(secret);
    expect(text).not.toMatch(/batted-ball-notebooks|root:x:|swing_id,|\[core\]/);
  });

  it("is only read from", async () => {
    for (const path of ["/index.html", "/library.json", "/@vite/client"]) {
      expect((await ask(path)).status).toBe(200);
      const head = await ask(path, "HEAD");
      expect([head.status, head.text]).toEqual([200, ""]);
      for (const method of ["POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PROPFIND"]) {
        const { status, headers, text } = await ask(path, method);
        expect([status, headers["allow"]], `${method} ${path}`).toEqual([405, "GET, HEAD"]);
        expect(text).not.toMatch(/<|\{/);
      }
    }
  });

  it("takes no address that names another machine", async () => {
    for (const path of [
      "http://pages.example/index.html",
      "http://127.0.0.1/__open-in-editor?file=package.json",
    ])
      expect((await ask(path)).status).toBe(404);
    expect((await ask("/index.html", "GET", { host: "pages.example" })).status).toBe(403);
  });

  it("gives another site's page nothing, and a person who follows its link the page", async () => {
    for (const site of ["cross-site", "same-site"]) {
      for (const [mode, dest] of [
        ["no-cors", "script"],
        ["cors", "empty"],
        ["no-cors", "image"],
        ["navigate", "iframe"],
      ] as const) {
        const headers = { "sec-fetch-site": site, "sec-fetch-mode": mode, "sec-fetch-dest": dest };
        for (const path of ["/library.json", "/index.html"])
          expect((await ask(path, "GET", headers)).status, `${site} ${mode} ${dest}`).toBe(403);
      }
      const link = { "sec-fetch-site": site, "sec-fetch-mode": "navigate", "sec-fetch-dest": "document" };
      expect((await ask("/index.html", "GET", link)).status).toBe(200);
    }
  });

  it("names no other origin in its policy, and allows none to read it", async () => {
    const { host } = new URL(served.address);
    for (const path of ["/index.html", "/library.json", "/spray-chart.html"]) {
      const { headers } = await ask(path);
      const policy = String(headers["content-security-policy"]);
      const sources = policy.split(";").flatMap((part) => part.trim().split(/\s+/).slice(1));
      for (const source of sources)
        expect(source).toMatch(
          /^'(none|self|unsafe-eval|unsafe-inline|unsafe-hashes|sha256-[\w+/]+=*)'$|^data:$|^ws:/,
        );
      expect(sources.filter((source) => source.startsWith("ws:"))).toEqual([`ws://${host}`]);
      expect(/script-src [^;]*/.exec(policy)![0]).toBe("script-src 'self' 'unsafe-eval'");
      expect(policy).toMatch(/^default-src 'none'/);
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["cross-origin-resource-policy"]).toBe("same-origin");
      expect(headers["access-control-allow-origin"]).toBeUndefined();
    }
  });

  it("opens its socket to its own pages alone", async () => {
    const own = served.address.slice(0, -1);
    const token = /wsToken\s*=\s*"([^"]+)"/.exec((await ask("/@vite/client")).text)![1]!;
    expect(await knock({ Origin: own }, `/?token=${token}`)).toContain("101");
    expect(await knock({ Origin: own })).not.toContain("101");
    // A browser always says whose page asks.
    expect(await knock({}, `/?token=${token}`)).toBe("");
    expect(await knock({ Origin: own, "Sec-WebSocket-Protocol": "chat" }, `/?token=${token}`)).toBe("");
    for (const origin of ["http://pages.example", "null", "http://127.0.0.1:1", `https${own.slice(4)}`]) {
      expect(await knock({ Origin: origin }, `/?token=${token}`), origin).toBe("");
      expect(await knock({ Origin: origin, "Sec-WebSocket-Protocol": "vite-ping" }), origin).toBe("");
    }
    expect(await knock({ Host: "pages.example", Origin: "http://pages.example" }, `/?token=${token}`)).toBe(
      "",
    );
    // It goes on serving.
    expect((await ask("/index.html")).status).toBe(200);
  });

  it("sends every module that its pages import", async () => {
    const asked = new Set<string>();
    const follow = async (path: string): Promise<void> => {
      if (asked.has(path)) return;
      asked.add(path);
      const { status, text } = await ask(path);
      expect(status, path).toBe(200);
      const named = [...text.matchAll(/(?:from|import)\s*\(?\s*"(\/[^"]+)"|<script[^>]* src="([^"]+)"/g)];
      for (const [, inCode, inPage] of named) {
        const next = inCode ?? inPage!;
        if (!next.includes("node_modules")) await follow(next.replaceAll("&amp;", "&"));
      }
    };
    for (const { file } of pages) await follow(`/${file}?hitter=Ana`);
    expect([...asked].filter((path) => path.includes("/src/")).length).toBeGreaterThan(40);
    // What stands under src and no page asks for is not there.
    const all = filesUnder("src", [".ts"]).map((path) => `/@fs${path}`);
    const others = all.filter((path) => !asked.has(path));
    expect(others.length).toBeGreaterThan(40);
    for (const path of others) expect((await ask(path)).status, path).toBe(404);
  });

  it(
    "closes what asks for nothing, or for half of something, after a while",
    { timeout: 120_000 },
    async () => {
      const { hostname, port } = new URL(served.address);
      const closed = Array.from(
        { length: 60 },
        (_, i) =>
          new Promise<void>((done) => {
            const socket = connect(Number(port), hostname, () => {
              if (i % 2 === 0) socket.write(`GET / HTTP/1.1\r\nHost: ${hostname}:${port}\r\nX-Slow: `);
            });
            socket.on("close", () => done()).on("error", () => {});
          }),
      );
      await Promise.all(closed);
      expect((await ask("/index.html")).status).toBe(200);
    },
  );

  it("listens on this machine's own address alone", async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((all) => all ?? [])
      .filter(({ internal }) => !internal)
      .map(({ address }) => address);
    const port = Number(new URL(served.address).port);
    const reached = (host: string): Promise<boolean> =>
      new Promise((done) => {
        const socket = connect({ host, port, timeout: 1000 });
        const end = (answer: boolean) => (): void => {
          socket.destroy();
          done(answer);
        };
        socket.on("connect", end(true)).on("error", end(false)).on("timeout", end(false));
      });
    expect(await reached("127.0.0.1")).toBe(true);
    for (const address of [...others, "::1", "127.0.0.2"])
      expect(await reached(address), address).toBe(false);
  });
});

/** What a page must not hold: what runs, what loads, what none of our pages is made of. */
async function foreign(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const here = location.origin;
    const found: string[] = [];
    // A report that is shown as it will be: looked through as the page is, where its sandbox lets no script run.
    const shut = [...document.querySelectorAll<HTMLIFrameElement>("iframe[sandbox]")].filter(
      ({ sandbox }) => !sandbox.contains("allow-scripts"),
    );
    const elements = [document, ...shut.map((frame) => frame.contentDocument!)].flatMap((one) => [
      ...one.querySelectorAll("*"),
    ]);
    for (const element of elements) {
      if (shut.includes(element as HTMLIFrameElement)) continue;
      const shown = element.outerHTML.slice(0, 120);
      if (/^(img|iframe|object|embed|base|audio|video|b-x)$/i.test(element.localName)) found.push(shown);
      if (element.localName === "script" && element.textContent !== "" && !element.hasAttribute("src"))
        if (!/^text\/|^application\/(json|vnd)/.test(element.getAttribute("type") ?? ""))
          found.push(`inline: ${shown}`);
      for (const { name, value } of element.attributes) {
        // The inputs library leaves its own mark where a listener was.
        if (/^on/i.test(name) && !/^::\d+$/.test(value)) found.push(`${name}: ${shown}`);
        if (/^(src|href|xlink:href|action|formaction|srcdoc)$/i.test(name)) {
          const url = new URL(value, document.baseURI);
          if (url.origin !== here && url.protocol !== "data:") found.push(`${name}: ${shown}`);
        }
      }
    }
    const blank: Record<string, unknown> = {};
    for (const key in blank) found.push(`every object has ${key}`);
    if ((window as { hit?: unknown }).hit !== undefined) found.push("a script ran");
    return found;
  });
}

function watchDialogs({ page }: Watched): string[] {
  const dialogs: string[] = [];
  page.on("dialog", (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  return dialogs;
}

/** What a page draws of one session without a date: over sessions there is nothing to draw then. */
const fewestCharts = (file: string): number => (["progress.html", "season.html"].includes(file) ? 0 : 1);

/** The list of hitters: its label holds the list too, so that the label's own words have to be looked for. */
const hitterChoice = (page: Page): Locator =>
  page.locator("label.choice", { has: page.getByText("Hitter", { exact: true }) }).locator("select");

describe("a page on a hostile library", { timeout: 120_000 }, () => {
  it.each(pages)("$file shows every name as text, runs nothing and stays whole", async ({ file, hitter }) => {
    const watched = await openPage(browser, served.address, widths.phone);
    const { page, errors, away } = watched;
    const dialogs = watchDialogs(watched);
    const charts = page.locator("main svg[role=img]");
    await page.goto(served.address + file);
    if (file === "index.html") {
      await page.locator(".loaded").waitFor();
      expect(await page.locator("main").innerText()).toContain("<img src=x onerror=alert(1)>.csv");
      expect(await page.locator("main details").first().textContent()).toContain("headings.csv");
    } else if (file === "bring-a-file.html") {
      await page.locator(".needed summary").nth(1).click();
      for (const name of hostile)
        expect(await page.locator(".needed .line > b").allTextContents()).toContain(name);
    } else {
      await page.locator(".first, .cage").first().waitFor();
      await drawn(page, fewestCharts(file));
    }
    if (file === "in-the-cage.html")
      for (const name of hostile)
        expect(await page.locator("#choices .chips span").allTextContents()).toContain(name);
    const hitters = hitterChoice(page);
    expect(await hitters.count()).toBe(hitter ? 1 : 0);
    if (hitter) {
      const options = await hitters
        .locator("option")
        .evaluateAll((all) =>
          all.map((o) => ({ value: (o as HTMLOptionElement).value, text: o.textContent })),
        );
      const named = options.filter(({ value }) => value !== "");
      expect(named.map(({ value }) => value).sort()).toEqual([...hostile].sort());
      for (const { value, text } of named) expect(text!.startsWith(value)).toBe(true);
      for (const name of hostile) {
        await hitters.selectOption({ value: name });
        await page.waitForFunction(
          (wanted) => new URLSearchParams(location.hash.slice(1)).get("hitter") === wanted,
          name,
        );
        await drawn(page, fewestCharts(file));
        expect(await foreign(page), name).toEqual([]);
        // No figure's words run into its neighbour's.
        const wide = await page.locator(".figures dt, .figures .doubt").evaluateAll((all) => {
          const right = (e: Element): number => e.getBoundingClientRect().right;
          return all
            .filter((e) => right(e) > right(e.closest(".figures > div")!) + 1)
            .map((e) => e.textContent);
        });
        expect(wide, name).toEqual([]);
      }
    }
    if ((await charts.count()) > 0) {
      // What a pointer or a thumb brings up holds names too.
      // A page that still draws may replace a chart at any time, so it is found and measured in one step.
      const box = await page.evaluate(() => {
        const chart = document.querySelector("main svg[role=img]")!;
        chart.scrollIntoView({ behavior: "instant" });
        return chart.getBoundingClientRect().toJSON() as DOMRect;
      });
      for (const part of [0.3, 0.5, 0.7])
        await page.mouse.move(box.x + box.width * part, box.y + box.height * 0.5);
    }
    expect(await foreign(page)).toEqual([]);
    expect({ dialogs, errors, away }).toEqual({ dialogs: [], errors: [], away: [] });
    await page.close();
  });

  it("takes nothing from its own address but a choice there is", async () => {
    const watched = await openPage(browser, served.address, widths.phone);
    const dialogs = watchDialogs(watched);
    const { page, errors } = watched;
    for (const name of [
      "<img src=x onerror=alert(1)>",
      "javascript:alert(1)",
      "__proto__",
      "%00",
      "&hitter=a",
    ]) {
      const hash = new URLSearchParams({
        hitter: name,
        session: name,
        drill: name,
        input: name,
        __proto__: name,
      });
      await page.goto("about:blank");
      await page.goto(`${served.address}spray-chart.html#${hash}&__proto__[hit]=1&constructor=1`);
      await drawn(page, 2);
      expect(await foreign(page)).toEqual([]);
      expect(hostile).toContain(await hitterChoice(page).inputValue());
    }
    expect({ dialogs, errors }).toEqual({ dialogs: [], errors: [] });
    await page.close();
  });
});

it(
  "a report of a hostile library lets nothing run and asks for nothing, opened as a file",
  { timeout: 120_000 },
  async () => {
    const out = join(scratch, "reports");
    const { status, err } = await run("report", "--library", libraryDir, "-o", out);
    // Balls that no table holds, and a file without the columns, are told; the rest is written.
    expect(status).toBe(1);
    expect(err).toContain("sessions.csv, row 3: ball");
    expect(err).toMatch(/\d+ rows were refused and are in no figure; “check” names them\.\n$/);
    const files = readdirSync(out);
    expect(files).toHaveLength(hostile.length + 1);
    const page = await browser.newPage();
    const asked: string[] = [];
    const said: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    page.on("console", (message) => said.push(message.text()));
    page.on("dialog", (dialog) => {
      said.push(dialog.message());
      void dialog.dismiss();
    });
    for (const file of files) {
      const address = pathToFileURL(join(out, file)).href;
      asked.length = 0;
      await page.goto(address);
      expect(asked.filter((url) => !url.startsWith("data:"))).toEqual([address]);
      expect(await page.locator("script, iframe, object, embed, form, base, link").count()).toBe(0);
      expect(await page.locator("h1").count()).toBe(1);
    }
    expect(said).toEqual([]);
    // The policy itself holds: a script put into the file by hand does not run, and the browser says why.
    const report = files.find((file) => file !== "index.html")!;
    const tampered = join(out, "tampered.html");
    const text = readFileSync(join(out, report), "utf8");
    writeFileSync(
      tampered,
      text.replace(
        "</body>",
        '<script>document.title = "ran"</script><img src="https://pages.example/x.png"></body>',
      ),
    );
    await page.goto(pathToFileURL(tampered).href);
    expect(await page.title()).toContain("Drill report");
    expect(said.filter((line) => line.includes("Content Security Policy")).length).toBeGreaterThanOrEqual(2);
    await page.close();
  },
);
