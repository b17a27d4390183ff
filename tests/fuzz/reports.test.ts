/** Reports of arbitrary names: text stays text, nothing runs, and each file stays in its folder. */
import { join } from "node:path";
import fc from "fast-check";
import { JSDOM } from "jsdom";
import { describe, expect, it } from "vitest";
import { fileNames } from "../../src/library/fileName.ts";
import { escapeHtml } from "../../src/swing/words.ts";
import { indexPage, reportPage } from "../../src/report/page.ts";
import { sourceOf } from "../report/source.ts";
import { expectUnpolluted, often, text, time } from "./support.ts";

const { document, DOMParser } = new JSDOM("").window;
const options = { document, version: "1.2.3" };
const parse = (html: string): Document => new DOMParser().parseFromString(html, "text/html");

/**
 * A page's elements and the names of their attributes, and nothing of what they say. A name of several lines is set in
 * as many, each in a place of its own: texts alike that follow each other count as one.
 */
const shape = (page: Document): string =>
  [...page.querySelectorAll(":not(tspan)")]
    .map(({ tagName, attributes }) => {
      const names = [...attributes].map(({ name }) => name).sort();
      return `${tagName} ${names.filter((name) => tagName !== "text" || !/^[xy]$/.test(name)).join(" ")}`;
    })
    .filter((line, i, all) => !line.startsWith("text ") || line !== all[i - 1])
    .join("\n");

/** As HTML can show it: what it can't hold is the replacement character, and a CR is a line end. */
const shown = (value: string): string =>
  parse(`<p>${escapeHtml(value)}</p>`).querySelector("p")!.textContent!;

describe("a report", () => {
  it(
    "of any names has the elements that plain names give, and says the names",
    () => {
      const plain = shape(parse(reportPage(sourceOf("Robin Test", undefined, 3), options)));
      const name = text.filter((t) => t.trim() !== "" && t === t.trim());
      fc.assert(
        fc.property(name, name, (hitter, other) => {
          const page = reportPage(
            sourceOf(hitter, (own) => `${other}${own}`, 3),
            options,
          );
          const read = parse(page);
          expect(shape(read)).toBe(plain);
          expect(read.querySelector("h1 bdi")!.textContent).toBe(shown(hitter));
          expect(read.querySelector("title")!.textContent).toContain(shown(hitter).trim().slice(0, 1));
          for (const element of read.querySelectorAll("*")) {
            for (const { name: attribute, value } of element.attributes) {
              if (/^on/i.test(attribute)) expect.fail(element.outerHTML);
              if (/^(href|src|xlink:href)$/i.test(attribute)) expect(value).toMatch(/^#/);
            }
          }
          expectUnpolluted();
        }),
        often(8),
      );
    },
    time(8, 3000),
  );

  it("escapes any text so that it is read back", () => {
    fc.assert(
      fc.property(text, (value) => {
        const body = parse(`<p title="${escapeHtml(value)}">${escapeHtml(value)}</p>`).body;
        expect(body.querySelectorAll("*")).toHaveLength(1);
        const paragraph = body.querySelector("p")!;
        expect(paragraph.getAttributeNames()).toEqual(["title"]);
        const readable = value.replace(
          /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\p{Surrogate}/gu,
          "\ufffd",
        );
        expect(paragraph.textContent).toBe(readable.replace(/\r\n?/g, "\n"));
      }),
      often(150),
    );
  });
});

describe("the files' names", () => {
  it(
    "are one for each name, inside the folder, and safe everywhere",
    () => {
      fc.assert(
        fc.property(fc.uniqueArray(text, { minLength: 1, maxLength: 12 }), (names) => {
          const files = fileNames(names, "report");
          expect(new Set(files.map((f) => f.normalize("NFKD").toLowerCase())).size).toBe(names.length);
          for (const file of files) {
            expect(file).toMatch(/^report-[\p{L}\p{N}\p{M}-]+\.html$/u);
            expect(join("/out", file)).toBe(`/out/${file}`);
            expect(Buffer.byteLength(file)).toBeLessThanOrEqual(255);
          }
          const page = parse(
            indexPage(names.map((hitter, i) => ({ hitter, file: files[i]!, swings: 1, latest: null }))),
          );
          const links = [...page.querySelectorAll("a")];
          expect(links.map((a) => decodeURIComponent(a.getAttribute("href")!))).toEqual(files);
          expect(page.querySelectorAll("script, img, iframe, svg, object, embed, form, base")).toHaveLength(
            0,
          );
        }),
        often(60),
      );
    },
    time(60, 300),
  );
});
