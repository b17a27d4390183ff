/** Sessions with their badges: a name stays whole in its date, however long the badge beside it. */
import { JSDOM } from "jsdom";
import { afterAll, beforeAll, expect, it } from "vitest";
import { trustTable } from "../../notebooks/components/setupSay.ts";
import { trusted } from "../../notebooks/components/trusted.ts";
import type { PageLibrary } from "../../notebooks/components/library.ts";
import type { Trust } from "../../src/setup/trust.ts";
import { swing } from "../views/rows.ts";

const before = Object.getOwnPropertyDescriptor(globalThis, "document");
beforeAll(() => void Object.assign(globalThis, { document: new JSDOM("").window.document }));
afterAll(() => {
  if (before === undefined) Reflect.deleteProperty(globalThis, "document");
  else Object.defineProperty(globalThis, "document", before);
});

const trust = (session: string): Trust => ({
  session,
  verdict: "sound",
  compared: false,
  turnedBack: true,
  rows: 1,
  doubtful: 0,
  reasons: ["Calibrated on 2025-03-02."],
});

it("keeps every date of a session's name and of the reasons together", () => {
  const names = ["2025-03-03 youth tee", "cage of 2025-03-04"];
  const rows = names.map((session) => swing({ session }));
  const all = names.map(trust);
  const library = { swings: rows, sessions: [], trust: all } as unknown as PageLibrary;
  const shown = [trustTable(new Map(all.map((one) => [one.session, one])), rows, []), trusted(library, rows)];
  for (const element of shown) {
    const kept = [...element.querySelectorAll(".unbroken")].map(({ textContent }) => textContent);
    expect(kept.toSorted()).toEqual(["2025-03-02", "2025-03-02", "2025-03-03", "2025-03-04"]);
    for (const name of names) expect(element.textContent).toContain(name);
  }
});
