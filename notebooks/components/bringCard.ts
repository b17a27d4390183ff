/** One file on the page "Bring a file": what its headings are taken for, what is wrong with its rows, and where it goes. */
import { wordKey } from "../../src/reading/cells.ts";
import { untimedSentence, rowRanges, type Cause } from "../../src/reading/causes.ts";
import {
  guessLayout,
  leastCertainty,
  type Guess,
  type GuessedColumn,
  type Question,
} from "../../src/reading/guess.ts";
import { isPrivate } from "../../src/reading/layout.ts";
import { headingKey, mostRefused, type ColumnMap, type MappedColumn } from "../../src/reading/maps.ts";
import { rowLine } from "../../src/reading/mend.ts";
import { answersFor } from "../../src/reading/namesakes.ts";
import type { NameRow } from "../../src/swing/fields.ts";
import type { RefusedRow } from "../../src/reading/read.ts";
import { refusedOf } from "../../src/swing/problems.ts";
import { isUnitName, dimension, unitNames, type UnitName } from "../../src/units/index.ts";
import { unitLabel } from "../../src/swing/limits.ts";
import { counted } from "../../src/swing/words.ts";
import {
  lookAt,
  troubleOf,
  type Given,
  type Outcome,
  type ReadCall,
  type Sight,
  type Word,
} from "./bringRead.ts";
import { columnOf, firstRows, headingLine, headingsOf, restSaid, type Heading } from "./bringHeadings.ts";
import { button, causeSaid, fieldNamed, list, make, number, rowsOf, sureness } from "./bringSay.ts";
import { turned } from "./bringSigns.ts";
import { NotKept, type Store } from "./bringStore.ts";
import { mostBytes, type AddAnswer } from "./bringTold.ts";
import type { PageLibrary } from "./library.ts";

/** What a card knows of the library beside it. */
export interface Beside {
  readonly library: PageLibrary;
  readonly maps: readonly ColumnMap[];
  /** Hitters whose names stand there. */
  readonly hitters: readonly string[];
  readonly fastest_mph: number | null;
}

/** Rows refused for one cause that are shown. */
const shownRefused = 20;

export class Card {
  readonly element = make("section", { class: "brought" });
  private readonly store: Store | null;
  private beside: Beside;
  private readonly gone: (card: Card) => void;
  private given: Given;
  private sight: Sight | null = null;
  private trouble: string | null = null;
  private outcome: Outcome | null = null;
  private added: AddAnswer | null = null;
  private state: "looking" | "reading" | "ready" | "adding" | "added" = "looking";
  private share = 0;
  private usesKept = true;
  private answers: Record<string, string> = {};
  /** What the reader made of single headings, by their key. */
  private readonly chosen = new Map<string, MappedColumn | null>();
  /** What the reader made of single words, by field. */
  private readonly words = new Map<string, Map<string, string>>();
  /** What was answered about names nearly alike. */
  private names: readonly NameRow[] = [];
  private readonly fixes = new Map<number, string>();
  private session: string;
  private anyway = false;
  private worker: Worker | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(file: File, store: Store | null, beside: Beside, gone: (card: Card) => void) {
    this.given = { name: file.name, blob: file };
    this.store = store;
    this.beside = beside;
    this.gone = gone;
    this.session = file.name.replace(/\.[^.]*$/, "").trim();
    void this.look();
  }

  /** Tells what the library holds now. */
  follow(beside: Beside): void {
    this.beside = beside;
  }

  private async look(): Promise<void> {
    this.state = "looking";
    this.trouble = null;
    this.outcome = null;
    this.draw();
    if (this.given.blob.size > mostBytes) {
      this.trouble = `is over ${mostBytes / 2 ** 20} MB: part it, and bring the parts.`;
    } else {
      try {
        this.sight = await lookAt(this.given, this.beside.maps);
      } catch (error) {
        this.trouble = troubleOf(error);
      }
    }
    this.state = "ready";
    if (this.trouble === null) this.read();
    else this.draw();
  }

  private guess(): Guess {
    return guessLayout(this.sight!.sample, { fastest_mph: this.beside.fastest_mph, answers: this.answers });
  }

  /** The map as it stands now, with everything that the reader chose; null for a file in the kit's own form. */
  private map(guess: Guess): ColumnMap | null {
    const { isOwn, kept, sample } = this.sight!;
    const said = this.chosen.size > 0 || this.words.size > 0;
    const encoded = this.given.encoding === undefined ? {} : { encoding: this.given.encoding };
    if (isOwn && !said) return this.given.encoding === undefined ? null : { columns: {}, ...encoded };
    const base: ColumnMap = !isOwn && kept !== null && this.usesKept ? kept : guess.map;
    const columns: Record<string, string | MappedColumn | null> = { ...base.columns };
    for (const heading of sample.header) {
      const key = headingKey(heading);
      if (!this.chosen.has(key)) continue;
      for (const old of Object.keys(columns)) if (headingKey(old) === key) delete columns[old];
      columns[heading] = this.chosen.get(key)!;
    }
    for (const [field, meanings] of this.words) {
      const at = Object.entries(columns).find(([, to]) => columnOf(to)?.field === field);
      if (at === undefined) continue;
      const column = columnOf(at[1])!;
      columns[at[0]] = { ...column, words: { ...column.words, ...Object.fromEntries(meanings) } };
    }
    const { always = {}, encoding: _, ...rest } = base;
    const taken = new Set(Object.values(columns).map((to) => columnOf(to)?.field));
    const left = Object.entries(always).filter(([field]) => !taken.has(field));
    return {
      ...rest,
      ...encoded,
      columns,
      ...(left.length === 0 ? {} : { always: Object.fromEntries(left) }),
    };
  }

  private fill(): Record<string, string> {
    const hasColumn = this.outcome === null || this.outcome.sessions.some(({ name }) => name === null);
    return this.session.trim() === "" || !hasColumn ? {} : { session: this.session.trim() };
  }

  /** Reads the file once more, after what was chosen; an earlier reading is given up. */
  private read(): void {
    clearTimeout(this.timer);
    if (this.state === "added" || this.state === "adding") return;
    this.state = "reading";
    this.share = 0;
    this.draw();
    this.timer = setTimeout(() => this.start(), 60);
  }

  private stop(): void {
    clearTimeout(this.timer);
    this.worker?.terminate();
    this.worker = null;
  }

  private start(): void {
    this.stop();
    const guess = this.guess();
    const map = this.map(guess);
    const call: ReadCall = {
      ...this.given,
      map,
      fill: {},
      fixes: this.fixes,
      delimiter: map?.delimiter ?? this.sight!.sample.delimiter,
      known: this.beside.hitters,
      names: [...this.beside.library.names, ...this.names],
      fastest_mph: this.beside.fastest_mph,
    };
    const worker = new Worker(new URL("./bringWorker.ts", import.meta.url), { type: "module" });
    this.worker = worker;
    worker.addEventListener("message", ({ data }: MessageEvent<Word>) => {
      if (this.worker !== worker) return;
      if (data.kind === "progress") {
        this.share = data.bytes / Math.max(1, this.given.blob.size);
        const bar = this.element.querySelector("progress");
        if (bar !== null) bar.value = this.share;
        return;
      }
      this.stop();
      this.state = "ready";
      this.trouble = data.kind === "trouble" ? data.trouble : null;
      this.outcome = data.kind === "done" ? data.outcome : null;
      this.draw();
    });
    worker.addEventListener("error", () => {
      if (this.worker !== worker) return;
      this.stop();
      this.state = "ready";
      this.trouble = "can't be read: this browser did not let the page read it.";
      this.draw();
    });
    worker.postMessage({ call, wanted: false });
  }

  /** Draws the card anew, and leaves the keyboard where it was. */
  private draw(): void {
    const at = document.activeElement;
    const key = this.element.contains(at) ? (at as HTMLElement).dataset["key"] : undefined;
    const open = new Set(
      [...this.element.querySelectorAll<HTMLElement>("details[open][data-key]")].map((d) => d.dataset["key"]),
    );
    this.element.replaceChildren(...this.parts());
    for (const details of this.element.querySelectorAll<HTMLDetailsElement>("details[data-key]"))
      if (open.has(details.dataset["key"])) details.open = true;
    if (key !== undefined)
      this.element
        .querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)
        ?.focus({ preventScroll: true });
  }

  private parts(): Node[] {
    const { name } = this.given;
    const away = button("away", "Put aside", () => {
      this.stop();
      this.gone(this);
    });
    away.setAttribute("aria-label", `Put aside ${name}`);
    const head = make("div", { class: "file" }, make("h2", {}, name), this.state === "adding" ? null : away);
    if (this.added !== null) return [head, ...this.doneParts(this.added)];
    if (this.state === "looking") return [head, make("p", { role: "status" }, "Looking at the file …")];
    if (this.sight === null) return [head, ...this.troubleParts()];
    const guess = this.guess();
    return [
      head,
      ...this.verdict(guess),
      ...this.questions(guess),
      ...this.namesAlike(),
      ...this.doubts(),
      ...this.goes(guess),
      ...this.problems(),
      ...this.columns(guess),
    ];
  }

  private troubleParts(): Node[] {
    const trouble = this.trouble ?? "";
    const [, line, word] = /^is not UTF-8 text: if (line \d+) should say (".*"), "add"/.exec(trouble) ?? [];
    if (line === undefined)
      return [make("p", { class: "trouble", role: "alert" }, `${this.given.name} ${trouble}`)];
    return [
      make(
        "p",
        { class: "trouble", role: "alert" },
        `${this.given.name} is written in an older way. Should ${line} say ${word}?`,
      ),
      button("encoding", "Yes, read it so", () => {
        this.given = { ...this.given, encoding: "windows-1252" };
        void this.look();
      }),
      make(
        "p",
        { class: "quiet" },
        "If not, save it as CSV (UTF-8) in the program that it came from, and bring it again.",
      ),
    ];
  }

  private verdict(guess: Guess): Node[] {
    if (this.state === "reading") {
      return [
        make(
          "div",
          { class: "reading", role: "status" },
          make(
            "label",
            {},
            "Reading ",
            make("progress", { max: 1, value: this.share, "aria-label": "Reading the file" }),
          ),
          button("stop", "Stop", () => {
            this.stop();
            this.state = "ready";
            this.trouble = "was not read to its end.";
            this.draw();
          }),
        ),
      ];
    }
    if (this.trouble !== null) {
      const needed = guess.questions.some(({ isNeeded }) => isNeeded) && !this.sight!.isOwn;
      return needed
        ? [make("p", { class: "answer headline" }, "Not yet: a question has to be answered first.")]
        : this.troubleParts();
    }
    const { taken, refused, copies, untimed } = this.outcome!;
    const parts = [
      taken === 0 ? "No row can be taken" : `${rowsOf(taken)} can be taken`,
      ...(refused > 0 ? [`${number(refused)} ${refused === 1 ? "is" : "are"} refused`] : []),
      ...(copies > 0 ? [`${number(copies)} ${copies === 1 ? "is a copy" : "are copies"}`] : []),
    ];
    return [
      make("p", { class: "answer headline", role: "status" }, `${parts.join(", ")}.`),
      ...(untimed > 0 ? [make("p", {}, untimedSentence(untimed))] : []),
    ];
  }

  private questions(guess: Guess): Node[] {
    const { isOwn, kept } = this.sight!;
    if (isOwn) return [];
    if (kept !== null) {
      const box = make("input", { type: "checkbox", "data-key": "kept" });
      box.checked = this.usesKept;
      box.addEventListener("change", () => {
        this.usesKept = box.checked;
        this.read();
      });
      const label = make("label", { class: "tick" }, box, "Read it as the last file with these headings");
      if (this.usesKept) return [label];
      return [label, ...this.open(guess).map((question) => this.question(question))];
    }
    return this.open(guess).map((question) => this.question(question));
  }

  /** The questions that nothing chosen in the lists has answered. */
  private open(guess: Guess): readonly Question[] {
    const words = [...this.words.values()].flatMap((meanings) => [...meanings.keys()]);
    return guess.questions.filter(({ id, kind, heading }) => {
      if (heading === null) return true;
      if (kind !== "word") return !this.chosen.has(headingKey(heading));
      return !words.some((word) => wordKey(id) === wordKey(`word:${heading}:${word}`));
    });
  }

  private question({ id, text, options, likely }: Question): HTMLElement {
    const answer = (key: string): void => {
      this.answers = { ...this.answers, [id]: key };
      this.read();
    };
    const group = make("fieldset", { class: "asked" }, make("legend", {}, text));
    if (options.length === 0) {
      const input = make("input", { type: "text", "aria-label": text, "data-key": id });
      group.append(
        input,
        button(`${id} so`, "So it is", () => {
          if (input.value.trim() !== "") answer(input.value.trim());
        }),
      );
    } else if (options.length > 6) {
      const none = { value: "", text: "choose" };
      const picks = options.map(({ key, text }) => ({ value: key, text }));
      group.append(list(id, text, [none, ...picks], "", (key) => void (key !== "" && answer(key))));
    } else
      for (const { key, text: said } of options)
        group.append(button(`${id} ${key}`, key === likely ? `${said} (likely)` : said, () => answer(key)));
    return group;
  }

  private columns(guess: Guess): Node[] {
    const { sample } = this.sight!;
    const map = this.map(guess);
    const headings = headingsOf(sample, map);
    const guessed = new Map(guess.columns.map((column) => [column.heading, column]));
    const lines = headings
      .filter(({ isSecret }) => !isSecret)
      .map((heading) =>
        headingLine(heading, sample, this.why(heading, guessed.get(heading.name)), (next) => {
          this.chosen.set(heading.key, next);
          this.read();
        }),
      );
    const rest = restSaid(headings, map);
    return [
      make("h3", {}, "What each heading is taken for"),
      make("ul", { class: "columns" }, ...lines),
      ...this.meanings(map),
      ...(rest === "" ? [] : [make("p", { class: "quiet" }, rest)]),
      firstRows(sample),
    ];
  }

  /** Why a heading is taken for what it is. */
  private why({ key }: Heading, column: GuessedColumn | undefined): string {
    const { isOwn, kept } = this.sight!;
    if (this.chosen.has(key)) return "as you said";
    if (isOwn) return "its own name";
    if (kept !== null && this.usesKept) return "as last time";
    if (column === undefined || (column.field === null && column.certainty === 0)) return "";
    return `${sureness(column.certainty, leastCertainty)}: ${column.reason}`;
  }

  /** The words that are not the kit's own, each with what it means. */
  private meanings(map: ColumnMap | null): Node[] {
    const { sample } = this.sight!;
    const asked: HTMLElement[] = [];
    for (const [heading, to] of Object.entries(map?.columns ?? {})) {
      const column = columnOf(to);
      const field = fieldNamed(column?.field ?? null);
      if (column === null || field?.words === undefined) continue;
      const at = sample.header.findIndex((other) => headingKey(other) === headingKey(heading));
      const meant = new Map(Object.entries(column.words ?? {}).map(([word, to]) => [wordKey(word), to]));
      const seen = new Map<string, string>();
      for (const row of sample.rows) {
        const cell = (row[at] ?? "").trim();
        if (cell !== "" && !seen.has(wordKey(cell))) seen.set(wordKey(cell), cell);
      }
      for (const [key, cell] of [...seen].slice(0, 30)) {
        if (field.words.some((word) => word.toLowerCase() === key)) continue;
        const options = [
          { value: "", text: "not known" },
          ...field.words.map((word) => ({ value: word, text: word.replace("_", " ") })),
        ];
        asked.push(
          make(
            "li",
            {},
            make("b", {}, cell),
            make("span", { class: "cells" }, field.title.toLowerCase()),
            make(
              "span",
              { class: "taken" },
              list(`${heading} ${key}`, `What ${cell} means`, options, meant.get(key) ?? "", (word) =>
                this.means(field.name, key, word),
              ),
            ),
          ),
        );
      }
    }
    return asked.length === 0
      ? []
      : [make("h3", {}, "What its words mean"), make("ul", { class: "columns" }, ...asked)];
  }

  private means(field: string, word: string, meaning: string): void {
    const known = this.words.get(field) ?? new Map<string, string>();
    if (meaning === "") known.delete(wordKey(word));
    else known.set(wordKey(word), meaning);
    this.words.set(field, known);
    this.read();
  }

  /** Gives a field's column another unit, or turns its signs. */
  private turn(field: string, change: (column: MappedColumn) => Partial<MappedColumn>): void {
    const map = this.map(this.guess());
    const { header } = this.sight!.sample;
    const columns = Object.entries(map?.columns ?? {}).map(
      ([heading, to]) => [headingKey(heading), typeof to === "string" ? { field: to } : to] as const,
    );
    const at =
      columns.find(([, to]) => to?.field === field)?.[0] ??
      header.map(headingKey).find((key) => key === field);
    if (at === undefined) return;
    const before = columns.find(([key]) => key === at)?.[1] ?? { field };
    this.chosen.set(at, { ...before, ...change(before) });
    this.read();
  }

  private doubts(): Node[] {
    if (this.outcome === null || this.state === "reading" || this.outcome.doubts.length === 0) return [];
    const box = make("input", { type: "checkbox", "data-key": "anyway" });
    box.checked = this.anyway;
    box.addEventListener("change", () => {
      this.anyway = box.checked;
      this.draw();
    });
    return [
      make("h3", {}, "This looks wrong"),
      ...this.outcome.doubts.map((doubt) => this.doubt(doubt)),
      make("label", { class: "tick" }, box, "Take the values as they are"),
    ];
  }

  private problems(): Node[] {
    if (this.outcome === null || this.state === "reading") return [];
    const { causes, rows } = this.outcome;
    const found: Node[] = [];
    if (causes.length > 0) {
      found.push(make("h3", {}, "What keeps rows out"));
      for (const cause of causes.slice(0, 20)) found.push(this.cause(cause, rows));
      if (causes.length > 20)
        found.push(make("p", { class: "quiet" }, `And ${causes.length - 20} causes more.`));
    }
    return found;
  }

  private doubt(doubt: string): HTMLElement {
    const field = /^[a-z_]+/.exec(doubt)?.[0] ?? "";
    const title = fieldNamed(field)?.title ?? field;
    const box = make("div", { class: "cause" }, make("p", {}, doubt.replace(field, title)));
    if (/mirrored|upside down/.test(doubt))
      box.append(
        button(`turn ${field}`, `Turn the signs of ${title.toLowerCase()}`, () =>
          this.turn(field, ({ sign = 1 }) => ({ sign: turned(sign) })),
        ),
      );
    const unit =
      { metres: "m", radians: "rad" }[/looks like (metres|radians)/.exec(doubt)?.[1] ?? ""] ??
      /looks like (km\/h|m\/s)/.exec(doubt)?.[1];
    if (unit !== undefined && isUnitName(unit))
      box.append(
        button(`unit ${field}`, `${title} is in ${unitLabel(unit).trim()}`, () =>
          this.turn(field, () => ({ unit })),
        ),
      );
    return box;
  }

  private cause(cause: Cause, rows: readonly RefusedRow[]): HTMLElement {
    const { field, value, reason } = cause;
    const box = make("div", { class: "cause" }, make("p", {}, causeSaid(cause)));
    const known = fieldNamed(field);
    if (cause.isWord && known?.words !== undefined && value !== null)
      for (const word of known.words)
        box.append(
          button(`${field} ${value} ${word}`, `“${value.trim()}” is ${word.replace("_", " ")}`, () =>
            this.means(known.name, value, word),
          ),
        );
    if (known?.unit !== undefined && /^is (over|under) /.test(reason) && cause.rows.length > 4)
      for (const unit of unitNames)
        if (unit !== known.unit && dimension(unit) === dimension(known.unit))
          box.append(
            button(`${field} ${unit}`, `The column is in ${unitLabel(unit).trim()}`, () =>
              this.turn(known.name, () => ({ unit: unit as UnitName })),
            ),
          );
    const numbers = new Set(cause.rows);
    const there = rows.filter(({ row }) => numbers.has(row));
    const details = make(
      "details",
      { "data-key": `cause ${field} ${value} ${reason}` },
      make("summary", {}, `${cause.rows.length === 1 ? "Row" : "Rows"} ${rowRanges(cause.rows)}`),
    );
    details.addEventListener("toggle", () => {
      if (details.open && details.childElementCount === 1)
        details.append(
          ...there.slice(0, shownRefused).map((row) => this.mending(row)),
          ...(cause.rows.length > shownRefused
            ? [make("p", { class: "quiet" }, `And ${number(cause.rows.length - shownRefused)} more.`)]
            : []),
        );
    });
    box.append(details);
    return box;
  }

  /** A refused row to be put right where it stands. */
  private mending({ row, cells, problems }: RefusedRow): HTMLElement {
    const { header } = this.outcome!;
    const { delimiter } = this.sight!.sample;
    const form = make("form", { class: "row" }, make("b", {}, `Row ${row}`));
    const isWhole = cells.length === header.length;
    const inputs = (isWhole ? header : ["the whole row"]).map((heading, i) => {
      const input = make("input", { type: "text", "data-key": `row ${row} ${i}` });
      input.value = isWhole ? cells[i]! : cells.length === 1 ? cells[0]! : rowLine(cells, delimiter);
      return { heading, input, at: i };
    });
    const guess = this.guess();
    const map = this.map(guess);
    const fieldAt = (heading: string): string | undefined => {
      const to = Object.entries(map?.columns ?? {}).find(
        ([own]) => headingKey(own) === headingKey(heading),
      )?.[1];
      return to === undefined ? headingKey(heading) : columnOf(to)?.field;
    };
    const wrong = new Set(problems.map(({ field }) => field));
    for (const { heading, input } of inputs) {
      // What is never stored is not shown either.
      if (isPrivate(heading)) continue;
      const isWrong = wrong.has(fieldAt(heading) ?? null);
      form.append(
        make("label", { class: isWrong ? "wrong" : null }, make("span", {}, heading || "—"), input),
      );
    }
    form.append(make("button", { type: "submit" }, "Put right"));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const texts = inputs.map(({ input }) => input.value);
      this.fixes.set(row, isWhole ? rowLine(texts, delimiter) : texts[0]!);
      this.read();
    });
    return form;
  }

  /** Names nearly alike: one hitter, or two. */
  private namesAlike(): Node[] {
    if (this.outcome === null || this.state === "reading") return [];
    return this.outcome.alike.map((group) => {
      const key = group.join("\n");
      const settle = (hitter: string | null): void => {
        this.names = [...this.names, ...answersFor(group, hitter)];
        this.read();
      };
      const known = group.filter((name) => this.beside.hitters.includes(name));
      const counts = new Map(this.outcome!.hitters.map(({ name, n }) => [name, n]));
      const said = group.map(
        (name) => `“${name}”${counts.has(name) ? ` (${rowsOf(counts.get(name)!)})` : ""}`,
      );
      const box = make(
        "fieldset",
        { class: "asked" },
        make(
          "legend",
          {},
          `One hitter, or ${group.length === 2 ? "two" : String(group.length)}? ${said.join(" and ")}`,
        ),
      );
      for (const name of known.length > 0 ? known : group)
        box.append(button(`${key} ${name}`, `One: ${name}`, () => settle(name)));
      box.append(button(`${key} apart`, "Different hitters", () => settle(null)));
      return box;
    });
  }

  private goes(guess: Guess): Node[] {
    if (this.outcome === null || this.state === "reading") return [];
    const { taken, sessions, refused } = this.outcome;
    const found: Node[] = [make("h3", {}, "Where it goes")];
    const nameless = sessions.find(({ name }) => name === null);
    if (nameless !== undefined) {
      const input = make("input", { type: "text", "data-key": "session" });
      input.value = this.session;
      input.addEventListener("input", () => (this.session = input.value));
      found.push(
        make(
          "label",
          { class: "named" },
          make(
            "span",
            {},
            `${rowsOf(nameless.n)} ${nameless.n === 1 ? "names" : "name"} no session. Call it`,
          ),
          input,
        ),
      );
    }
    const left: string[] = [];
    if (this.outcome.alike.length > 0) left.push("say of the names above whether they are one hitter's");
    if (this.outcome.doubts.length > 0 && !this.anyway)
      left.push("put right what looks wrong, or take it as it is");
    const map = this.map(guess);
    const save = map === null ? null : button("save", "Save this map", () => this.saveMap(map));
    if (taken === 0) {
      found.push(make("p", { class: "quiet" }, "There is nothing to add as it is read now."));
    } else if (this.store === null) {
      found.push(
        make(
          "p",
          { class: "quiet" },
          "These pages are only read here: nothing can be added. To keep swings of your own, start them with a folder: npm start -- --library my-folder",
        ),
      );
    } else if (left.length > 0) {
      found.push(make("p", { class: "quiet" }, `Before it can be added: ${left.join(", and ")}.`));
    } else {
      const text = this.state === "adding" ? "Adding …" : `Add ${rowsOf(taken)} to ${this.store.name}`;
      const add = button("add", text, () => void this.add(), true);
      add.disabled = this.state === "adding";
      found.push(add);
      if (refused > 0)
        found.push(
          make(
            "p",
            { class: "quiet" },
            refused === 1
              ? "The row that is refused waits beside its session, and nothing of it is lost."
              : `The ${rowsOf(refused)} that are refused wait beside their sessions, and nothing of them is lost.`,
          ),
        );
    }
    if (save !== null) found.push(save);
    if (this.failure !== null) found.push(make("p", { class: "trouble", role: "alert" }, this.failure));
    return found;
  }

  private failure: string | null = null;

  private saveMap(map: ColumnMap): void {
    const text = `${JSON.stringify(map, null, 2)}\n`;
    const link = make("a", { download: `${this.session || "columns"}.map.json` });
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  }

  private async add(): Promise<void> {
    const guess = this.guess();
    let map = this.map(guess);
    const blob = this.outcome!.mended ?? this.given.blob;
    if (this.outcome!.mended !== null && map?.encoding !== undefined) {
      const { encoding: _, ...rest } = map;
      map = rest;
    }
    this.state = "adding";
    this.failure = null;
    this.draw();
    try {
      this.added = await this.store!.add(
        {
          name: this.given.name,
          map,
          fill: this.fill(),
          names: this.names,
          anyway: this.anyway,
          keep: map !== null && !mostRefused(this.outcome!),
        },
        blob,
        this.beside.library,
      );
      this.state = "added";
    } catch (error) {
      this.state = "ready";
      this.failure =
        error instanceof NotKept ? error.message : "Nothing was added: something went wrong on this page.";
    }
    this.draw();
    if (this.added !== null) this.element.querySelector<HTMLElement>(".answer")?.focus();
  }

  private doneParts(added: AddAnswer): Node[] {
    const parts = [
      `${number(added.new)} new`,
      ...(added.corrected > 0 ? [`${number(added.corrected)} corrected`] : []),
      ...(added.copies > added.untimed ? [`${number(added.copies - added.untimed)} there already`] : []),
      ...(added.untimed > 0 ? [counted(added.untimed, "copy", "copies")] : []),
      ...(added.older > 0 ? [`${number(added.older)} older than what is there and left out`] : []),
      ...(added.refused > 0 ? [`${number(added.refused)} refused`] : []),
    ];
    const hitters = (this.outcome?.hitters ?? []).slice(0, 12);
    const sessions = added.sessions.map((session) => session ?? "without a name");
    const link = (page: string, text: string, choices: Record<string, string> = {}): HTMLElement =>
      make(
        "a",
        { href: `./${page}${Object.keys(choices).length > 0 ? `#${new URLSearchParams(choices)}` : ""}` },
        text,
      );
    return [
      make(
        "p",
        { class: "answer headline", role: "status", tabindex: "-1" },
        `Added: ${rowsOf(added.read)}, ${parts.join(", ")}.`,
      ),
      make(
        "p",
        {},
        [
          sessions.length > 0
            ? `${sessions.length === 1 ? "Session" : "Sessions"}: ${sessions.slice(0, 6).join(", ")}${sessions.length > 6 ? ` and ${sessions.length - 6} more` : ""}.`
            : "",
          untimedSentence(added.untimed),
          added.map === null ? "" : `What its headings mean is kept for the next file (${added.map}).`,
          ...added.refusedIn.map((path) => `${refusedOf(path)} are kept beside it, each with its reason.`),
          added.refused > 0 && added.refusedIn.length === 0
            ? "The refused rows stay in the file as it was brought, which is kept too."
            : "",
          added.refused > 0
            ? "Corrected in your file, they come in when you bring it again; no row is taken twice."
            : "",
          added.late ?? "",
        ]
          .filter((text) => text !== "")
          .join(" "),
      ),
      make(
        "ul",
        { class: "links" },
        ...hitters.map(({ name }) =>
          make("li", {}, link("drill-report.html", `Drill report of ${name}`, { hitter: name! })),
        ),
        make("li", {}, link("spray-chart.html", "Spray chart")),
        make("li", {}, link("setup-check.html", "Setup check")),
      ),
    ];
  }
}
