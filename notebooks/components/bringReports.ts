/** Reports to hand out, on the page "Bring a file": for whom, of which swings, how much; seen, printed and saved. */
import { colourValue } from "../../src/charts/theme.ts";
import type { ReportChoices, Reports } from "../../src/report/reports.ts";
import { reportSizes, type ReportSize } from "../../src/report/sizes.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { sessionLists } from "../../src/views/sessions.ts";
import { button, list, make, number, type Pick } from "./bringSay.ts";
import type { PageLibrary } from "./library.ts";

const sizeWords: Readonly<Record<ReportSize, string>> = {
  sentence: "One sentence and a picture",
  page: "One page",
  everything: "Everything",
  month: "A month, for a parent",
};

const span = "\u0000span";
const everySession = "";

const reportsOf = (n: number): string => (n === 1 ? "1 report" : `${number(n)} reports`);

/** What a facility puts on its reports stays in this browser for the next time. */
const houseKey = "batted reports";
const keptHouse = (): { facility: string; color: string } => {
  try {
    const { facility, color } = JSON.parse(localStorage.getItem(houseKey) ?? "{}") as Record<string, unknown>;
    return {
      facility: typeof facility === "string" ? facility : "",
      color: typeof color === "string" ? color : colourValue("accent"),
    };
  } catch {
    return { facility: "", color: colourValue("accent") };
  }
};
const keepHouse = (house: { facility: string; color: string }): void => {
  try {
    localStorage.setItem(houseKey, JSON.stringify(house));
  } catch {
    // A browser that keeps nothing asks again.
  }
};

/** The section, which stays as it is while the library grows. */
export class ReportsBox {
  readonly element = make("div", { class: "needed reports", id: "reports" });
  private library: PageLibrary | null = null;
  private units: UnitSystem = "us";
  /** Those who were left out; whoever comes new is in. */
  private readonly without = new Set<string>();
  private session: string | null = null;
  private since = "";
  private until = "";
  private size: ReportSize = "page";
  private initials = false;
  private house = keptHouse();
  private readonly notes = new Map<string, string>();
  private shown: string | null = null;
  private readonly said = make("p", { class: "quiet", role: "status" });
  /** A report has no script, and a sandbox would let none run. */
  private readonly frame = make("iframe", {
    class: "sheet",
    sandbox: "allow-same-origin",
    title: "The report as it will be",
    tabindex: "0",
  });
  private readonly ways = make("div", { class: "ways" });
  private made: { key: string; reports: Promise<Reports | null> } | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** Tells what the library holds now, and in which units it is shown. */
  follow(library: PageLibrary, units: UnitSystem): void {
    const before = this.library === null ? 0 : this.library.swings.length;
    if (library !== this.library) this.made = null;
    this.library = library;
    this.units = units;
    const days = this.days();
    // What came last is what is wanted.
    if (this.session === null || library.swings.length !== before)
      this.session = days[0]?.session ?? everySession;
    this.draw();
  }

  private days(): { session: string; date: string | null }[] {
    return sessionLists(this.library!.swings, this.library!.sessions).reverse();
  }

  private get hitters(): string[] {
    return [...new Set(this.library!.swings.map(({ hitter }) => hitter))];
  }

  private choices(): ReportChoices {
    const facility = this.house.facility.trim();
    const isSpan = this.session === span;
    return {
      session: isSpan || this.session === everySession ? null : this.session,
      since: isSpan && this.since !== "" ? this.since : null,
      until: isSpan && this.until !== "" ? this.until : null,
      size: this.size,
      units: this.units,
      withoutFlagged: false,
      initials: this.initials,
      facility: facility === "" ? null : facility,
      color: facility === "" ? null : this.house.color,
      notes: new Map(
        [...this.notes].filter(([, text]) => text.trim() !== "").map(([name, text]) => [name, text.trim()]),
      ),
    };
  }

  /** The reports under what is chosen now; made once, however often they are asked for. */
  private async reports(): Promise<Reports | null> {
    const choices = this.choices();
    const key = JSON.stringify([choices, [...choices.notes]]);
    if (this.made?.key !== key) {
      const library = this.library!;
      const making = import("./makeReports.ts").then(({ makeReports }) =>
        makeReports(library, choices, () => this.made?.key === key),
      );
      this.made = { key, reports: making };
    }
    return this.made.reports;
  }

  private draw(): void {
    const at = document.activeElement;
    const key = this.element.contains(at) ? (at as HTMLElement).dataset["key"] : undefined;
    if (this.library!.swings.length === 0) {
      this.element.replaceChildren(
        make("p", { class: "quiet" }, "There are no swings yet: bring a file, and its reports are here."),
      );
      return;
    }
    this.element.replaceChildren(this.whose(), this.form(), this.ways, this.said, this.frame);
    this.changed();
    if (key !== undefined)
      this.element
        .querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)
        ?.focus({ preventScroll: true });
  }

  private whose(): HTMLElement {
    const tick = (key: string, text: string, isOn: boolean, set: (on: boolean) => void): HTMLElement => {
      const input = make("input", { type: "checkbox", "data-key": key });
      input.checked = isOn;
      input.addEventListener("change", () => set(input.checked));
      return make("label", { class: "tick" }, input, text);
    };
    const all = this.hitters;
    return make(
      "fieldset",
      { class: "whose" },
      make("legend", {}, "For whom"),
      tick(
        "report all",
        `All ${number(all.length)}`,
        all.every((name) => !this.without.has(name)),
        (on) => {
          for (const name of all)
            if (on) this.without.delete(name);
            else this.without.add(name);
          this.draw();
        },
      ),
      ...all.map((name) =>
        tick(`report for ${name}`, name, !this.without.has(name), (on) => {
          if (on) this.without.delete(name);
          else this.without.add(name);
          this.draw();
        }),
      ),
    );
  }

  private entry(name: string, ...controls: Node[]): HTMLElement {
    return make("label", { class: "entry" }, make("span", {}, name), ...controls);
  }

  private picked(
    key: string,
    name: string,
    picks: readonly Pick[],
    value: string,
    set: (value: string) => void,
  ): HTMLElement {
    return make(
      "div",
      { class: "entry" },
      make("span", { "aria-hidden": "true" }, name),
      list(`report ${key}`, name, picks, value, (chosen) => {
        set(chosen);
        this.draw();
      }),
    );
  }

  private typed(key: string, type: string, value: string, set: (value: string) => void): HTMLInputElement {
    const input = make("input", {
      type,
      "data-key": `report ${key}`,
      maxlength: type === "text" ? "80" : null,
    });
    input.value = value;
    input.addEventListener("input", () => {
      set(input.value);
      this.changed();
    });
    return input;
  }

  private form(): HTMLElement {
    const sessions = this.days().map(({ session, date }) => ({
      value: session,
      text: date === null || session.includes(date) ? session : `${date}, ${session}`,
    }));
    const parts = [
      this.picked(
        "session",
        "Of which swings",
        [...sessions, { value: everySession, text: "all of them" }, { value: span, text: "from day to day" }],
        this.session!,
        (value) => (this.session = value),
      ),
    ];
    if (this.session === span)
      parts.push(
        this.entry(
          "From",
          this.typed("since", "date", this.since, (value) => (this.since = value)),
        ),
        this.entry(
          "To",
          this.typed("until", "date", this.until, (value) => (this.until = value)),
        ),
      );
    const house = (change: Partial<typeof this.house>): void => {
      this.house = { ...this.house, ...change };
      keepHouse(this.house);
    };
    parts.push(
      this.picked(
        "size",
        "How much",
        reportSizes.map((value) => ({ value, text: sizeWords[value] })),
        this.size,
        (value) => (this.size = reportSizes.find((size) => size === value)!),
      ),
      this.picked(
        "names",
        "Names",
        [
          { value: "names", text: "names" },
          { value: "initials", text: "initials" },
        ],
        this.initials ? "initials" : "names",
        (value) => (this.initials = value === "initials"),
      ),
      this.entry(
        "Facility, at the head of every page",
        this.typed("facility", "text", this.house.facility, (facility) => house({ facility })),
      ),
      this.entry(
        "Its color",
        this.typed("color", "color", this.house.color, (color) => house({ color })),
      ),
    );
    return make("div", { class: "form" }, ...parts);
  }

  /** Makes what is seen anew, a moment after the last change. */
  private changed(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.see(), 250);
  }

  private async see(): Promise<void> {
    this.said.className = "quiet";
    this.said.textContent = "Making the report …";
    let reports: Reports | null;
    try {
      reports = await this.reports();
    } catch {
      this.said.className = "trouble";
      this.said.textContent = "The reports could not be made: something went wrong on this page.";
      return;
    }
    // Something else was chosen meanwhile.
    if (reports === null) return;
    const wanted = reports.hitters.filter((name) => !this.without.has(name));
    this.frame.hidden = wanted.length === 0;
    if (wanted.length === 0) {
      this.ways.replaceChildren();
      this.said.textContent =
        reports.hitters.length === 0
          ? "Nobody has swings there."
          : "Choose at least one hitter with swings there.";
      return;
    }
    if (this.shown === null || !wanted.includes(this.shown)) this.shown = wanted[0]!;
    const shown = this.shown;
    const page = reports.page(shown);
    if (this.frame.srcdoc !== page) this.frame.srcdoc = page;
    this.drawWays(reports, wanted, shown);
    this.said.textContent = "";
  }

  private drawWays(reports: Reports, wanted: readonly string[], shown: string): void {
    const at = document.activeElement;
    const key = this.ways.contains(at) ? (at as HTMLElement).dataset["key"] : undefined;
    // Whoever types goes on typing.
    if (key === "report note") return;
    const note = make("textarea", { "data-key": "report note", rows: "2", maxlength: "600" });
    note.value = this.notes.get(shown) ?? "";
    note.addEventListener("input", () => {
      this.notes.set(shown, note.value);
      this.changed();
    });
    const others =
      reports.hitters.length < this.hitters.length ? this.hitters.length - reports.hitters.length : 0;
    this.ways.replaceChildren(
      make(
        "p",
        { class: "doing" },
        button("report print", `Print ${reportsOf(wanted.length)}`, () => void this.print(wanted), true),
        button("report save", `Save ${reportsOf(wanted.length)}`, () => void this.save(wanted)),
        others === 0
          ? null
          : make(
              "span",
              { class: "quiet" },
              `${number(others)} ${others === 1 ? "hitter has" : "hitters have"} no swings there.`,
            ),
      ),
      make(
        "div",
        { class: "form" },
        this.picked(
          "shown",
          "Seen below",
          wanted.map((name) => ({ value: name, text: name })),
          shown,
          (name) => (this.shown = name),
        ),
        this.entry(`A note to ${shown}`, note),
      ),
    );
    if (key !== undefined)
      this.ways.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true });
  }

  private async work(doing: string, work: (reports: Reports) => Promise<string>): Promise<void> {
    this.said.className = "quiet";
    this.said.textContent = doing;
    try {
      const reports = await this.reports();
      if (reports !== null) this.said.textContent = await work(reports);
    } catch {
      this.said.className = "trouble";
      this.said.textContent = "The reports could not be made: something went wrong on this page.";
    }
  }

  private print(wanted: readonly string[]): Promise<void> {
    return this.work(`Making ${reportsOf(wanted.length)} …`, async (reports) => {
      const paper = make("iframe", {
        class: "printed",
        sandbox: "allow-same-origin allow-modals",
        title: "Reports to print",
        "aria-hidden": "true",
        tabindex: "-1",
      });
      await new Promise((done) => {
        paper.addEventListener("load", done, { once: true });
        paper.srcdoc = reports.together(wanted);
        this.element.append(paper);
      });
      await paper.contentDocument!.fonts.ready;
      paper.contentWindow!.addEventListener("afterprint", () => setTimeout(() => paper.remove()), {
        once: true,
      });
      paper.contentWindow!.print();
      return `${reportsOf(wanted.length)} went to the printer’s window.`;
    });
  }

  private save(wanted: readonly string[]): Promise<void> {
    return this.work(`Making ${reportsOf(wanted.length)} …`, async (reports) => {
      const { filed } = await import("./makeReports.ts");
      const { name, blob } = await filed(reports, wanted, (done) => {
        this.said.textContent = `Making report ${done + 1} of ${wanted.length} …`;
      });
      const link = make("a", { download: name });
      link.href = URL.createObjectURL(blob);
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
      return `Saved as ${name}.`;
    });
  }
}
