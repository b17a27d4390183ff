/** What the swings need beside them, filled in on the page: sessions, hitters and targets, in forms made from the fields. */
import { cellReader, Refusal } from "../../src/reading/cells.ts";
import {
  hitterFields,
  ownFieldFields,
  sessionFields,
  targetFields,
  targetMeasures,
  type EnrichedSwing,
  type Field,
  type Target,
} from "../../src/swing/fields.ts";
import { unitLabel } from "../../src/swing/limits.ts";
import { meetsTarget } from "../../src/views/target.ts";
import { button, list, make, number, rowsOf, type Pick } from "./bringSay.ts";
import { contactPad, fieldPad, type WindowEnds } from "./targetPad.ts";
import { NotKept, type Store } from "./bringStore.ts";
import type { Companion } from "./own.ts";
import type { PageLibrary } from "./library.ts";
import { counted } from "../../src/swing/words.ts";

type Row = Readonly<Record<string, unknown>>;

const texts = (row: Row | undefined, fields: readonly Field[]): Record<string, string> =>
  Object.fromEntries(
    fields.map(({ name }) => {
      const value = row?.[name];
      return [name, value === null || value === undefined ? "" : String(value)];
    }),
  );

const picksOf = (field: Field): readonly Pick[] | null => {
  const named = field.names?.names.map((name) => ({
    value: name,
    text: field.names!.titles[name] === undefined ? name : `${name}: ${field.names!.titles[name]}`,
  }));
  const worded = field.words?.map((word) => ({ value: word, text: word === "S" ? "both" : word }));
  const yes =
    field.type === "boolean"
      ? [
          { value: "true", text: "yes" },
          { value: "false", text: "no" },
        ]
      : undefined;
  const options = named ?? worded ?? yes;
  return options === undefined ? null : [{ value: "", text: "not known" }, ...options];
};

/** One field of a row, to be filled in: what is wrong with it stands under it at once. */
function entry(
  field: Field,
  key: string,
  value: string,
  changed: (value: string) => void,
  says = true,
): HTMLElement {
  const unit = unitLabel(field.unit).trim();
  const name = unit === "" ? field.title : `${field.title}, ${unit}`;
  const picks = picksOf(field);
  if (picks !== null) {
    // A name that no table holds is shown, so that it can be put right.
    const all = picks.some((pick) => pick.value === value)
      ? picks
      : [...picks, { value, text: `${value} (not known)` }];
    return make(
      "div",
      { class: "entry" },
      make("span", { "aria-hidden": "true" }, name),
      list(key, name, all, value, changed),
    );
  }
  const wrong = make("small", { class: "wrong", id: `${key} wrong`, "aria-live": "polite" });
  const input = make("input", {
    type: field.type === "date" ? "date" : "text",
    inputmode: field.type === "number" ? "decimal" : null,
    "data-key": key,
    "aria-label": name,
    "aria-description": field.description,
    "aria-errormessage": `${key} wrong`,
  });
  input.value = value;
  const judge = (): void => {
    const read = cellReader(field)(input.value);
    wrong.textContent = read instanceof Refusal ? `It ${read.reason}.` : "";
    input.setAttribute("aria-invalid", String(read instanceof Refusal));
  };
  input.addEventListener("input", () => {
    judge();
    changed(input.value.trim());
  });
  return make(
    "label",
    { class: "entry" },
    make("span", {}, name),
    input,
    says && field.type !== "date" ? make("small", {}, field.description) : null,
    wrong,
  );
}

/** A table's forms: which rows, and how a row is found. */
abstract class Forms {
  readonly element: HTMLDetailsElement;
  protected library: PageLibrary | null = null;
  protected readonly store: Store | null;
  /** Values that were changed and not yet saved, by row. */
  protected readonly edits = new Map<string, Record<string, string>>();
  /** A name that is being typed: the forms are drawn anew whenever the library grows. */
  private fresh = "";
  private readonly said = make("p", { role: "status" });
  protected abstract readonly table: Companion;
  protected abstract readonly key: string;

  constructor(store: Store | null, title: string) {
    this.store = store;
    this.element = make("details", {}, make("summary", {}, make("b", {}, title), " ", make("span", {})));
  }

  follow(library: PageLibrary): void {
    this.library = library;
    this.element.querySelector("summary span")!.textContent = this.summary();
    const inside = this.element.contains(document.activeElement);
    if (!(inside && this.edits.size > 0)) this.draw();
  }

  protected abstract summary(): string;
  protected abstract body(): Node[];

  protected draw(): void {
    const at = document.activeElement;
    const key = this.element.contains(at) ? (at as HTMLElement).dataset["key"] : undefined;
    const [summary] = this.element.children;
    this.element.replaceChildren(summary!, ...this.body(), this.said);
    if (key !== undefined)
      this.element
        .querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)
        ?.focus({ preventScroll: true });
  }

  protected edit(row: string, field: string, value: string): void {
    this.edits.set(row, { ...this.edits.get(row), [field]: value });
    this.said.textContent = "";
  }

  /** A box for the name of a row that is not there yet, and the button that begins it. */
  protected another(label: string, text: string, begin: (name: string) => void): HTMLElement {
    const named = make("input", { type: "text", "data-key": `new ${this.key}`, "aria-label": label });
    named.value = this.fresh;
    named.addEventListener("input", () => (this.fresh = named.value));
    const form = make(
      "form",
      { class: "line" },
      make("label", { class: "entry" }, make("span", {}, label), named),
      make("button", { type: "submit" }, text),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const name = named.value.trim();
      if (name === "") return;
      this.fresh = "";
      this.edit(name, this.key, name);
      begin(name);
      this.draw();
    });
    return form;
  }

  protected saver(text: string, only?: () => string): HTMLElement {
    const save = button(`${this.table} save`, text, () => void this.save(only?.()), true);
    save.disabled = this.store === null;
    return save;
  }

  private async save(only: string | undefined): Promise<void> {
    const rows = [...this.edits].filter(([row]) => only === undefined || row === only);
    if (rows.length === 0) {
      this.said.textContent = "Nothing was changed.";
      return;
    }
    try {
      await this.store!.put(
        this.table,
        rows.map(([row, values]) => ({ ...values, [this.key]: row })),
        this.library!,
      );
      for (const [row] of rows) this.edits.delete(row);
      this.said.className = "quiet";
      this.said.textContent = `Saved: ${rows.map(([row]) => row).join(", ")}.`;
    } catch (error) {
      this.said.className = "trouble";
      this.said.textContent = error instanceof NotKept ? error.message : "Nothing was saved.";
    }
  }
}

/** The most common of what swings say; null where they say different things, or nothing. */
function only<T>(values: Iterable<T | null>): T | null {
  const found = new Set([...values].filter((value) => value !== null));
  return found.size === 1 ? [...found][0]! : null;
}

class Hitters extends Forms {
  protected readonly table = "hitters";
  protected readonly key = "hitter";

  private names(): string[] {
    const own = new Set(this.library!.hitters.map(({ hitter }) => hitter));
    const met = new Set(this.library!.swings.map(({ hitter }) => hitter));
    return [...[...met].filter((name) => !own.has(name)), ...own];
  }

  protected summary(): string {
    const own = new Set(this.library!.hitters.map(({ hitter }) => hitter));
    const fresh = this.names().filter((name) => !own.has(name)).length;
    return fresh === 0 ? `${number(own.size)} described` : `${number(fresh)} not described yet`;
  }

  protected body(): Node[] {
    const byName = new Map(this.library!.hitters.map((row) => [row.hitter, row]));
    const fields: readonly Field[] = hitterFields.filter(({ name }) => name !== "hitter");
    const level = fields.find(({ name }) => name === "level")!;
    const lines = this.names()
      .slice(0, 200)
      .map((hitter) => {
        const known = byName.get(hitter);
        const values = { ...texts(known, fields), ...this.edits.get(hitter) };
        if (known === undefined && values["bats"] === "") {
          const side = only(
            this.library!.swings.filter((row) => row.hitter === hitter).map((row) => row.bats),
          );
          if (side !== null) {
            values["bats"] = side;
            this.edit(hitter, "bats", side);
          }
        }
        return make(
          "div",
          { class: "line", role: "group", "aria-label": hitter },
          make("b", {}, hitter),
          ...fields.map((field) =>
            entry(
              field,
              `${hitter} ${field.name}`,
              values[field.name] ?? "",
              (value) => this.edit(hitter, field.name, value),
              false,
            ),
          ),
        );
      });
    const all = list(
      "all level",
      "Level of everybody whose level is not known",
      picksOf(level)!,
      "",
      (value) => {
        for (const hitter of this.names())
          if ((byName.get(hitter)?.level ?? null) === null) this.edit(hitter, "level", value);
        this.draw();
      },
    );
    return [
      make(
        "p",
        { class: "quiet" },
        "The side is taken from the swings where they agree. A level steadies a hitter’s ceiling while swings are few. No birth dates, no addresses.",
      ),
      make("div", { class: "entry" }, make("span", {}, "Level of everybody whose level is not known"), all),
      ...lines,
      this.saver("Save the hitters"),
    ];
  }
}

class Sessions extends Forms {
  protected readonly table = "sessions";
  protected readonly key = "session";
  private at: string | null = null;

  private names(): { fresh: string[]; known: string[] } {
    const known = this.library!.sessions.map(({ session }) => session).reverse();
    const own = new Set(known);
    const met = new Set(this.library!.swings.flatMap(({ session }) => (session === null ? [] : [session])));
    return { fresh: [...met].filter((name) => !own.has(name)).reverse(), known };
  }

  protected summary(): string {
    const { fresh, known } = this.names();
    return fresh.length === 0
      ? `${number(known.length)} described`
      : `${number(fresh.length)} not described yet`;
  }

  protected body(): Node[] {
    const { fresh, known } = this.names();
    const all = [...fresh, ...known];
    if (all.length === 0) return [make("p", { class: "quiet" }, "No swings name a session yet.")];
    if (this.at === null || !all.includes(this.at)) this.at = all[0]!;
    const session = this.at;
    const row = this.library!.sessions.find((one) => one.session === session);
    const fields: readonly Field[] = sessionFields.filter(
      ({ name }) => name !== "session" && !name.startsWith("turned_back"),
    );
    const values = { ...texts(row, fields), ...this.edits.get(session) };
    if (row === undefined && values["date"] === "") {
      const day = this.library!.swings.find(
        (one) => one.session === session && one.time !== null,
      )?.time?.slice(0, 10);
      if (day !== undefined) {
        values["date"] = day;
        this.edit(session, "date", day);
      }
    }
    const picks = all.map((name) => ({ value: name, text: fresh.includes(name) ? `${name} (new)` : name }));
    return [
      make(
        "div",
        { class: "entry" },
        make("span", {}, "Session"),
        list("session", "Session", picks, session, (name) => {
          this.at = name;
          this.draw();
        }),
      ),
      make(
        "div",
        { class: "form" },
        ...fields.map((field) =>
          entry(field, `session ${field.name}`, values[field.name] ?? "", (value) =>
            this.edit(session, field.name, value),
          ),
        ),
      ),
      this.saver("Save this session", () => session),
    ];
  }
}

/** Of so many of the last swings it is told how many would have met a target. */
const lastSwings = 100;

class Targets extends Forms {
  protected readonly table = "targets";
  protected readonly key = "drill";
  private at: string | null = null;

  private names(): { fresh: string[]; known: string[] } {
    const known = this.library!.targets.map(({ drill }) => drill);
    const own = new Set(known);
    const met = new Set(this.library!.swings.flatMap(({ drill }) => (drill === null ? [] : [drill])));
    return { fresh: [...met].filter((name) => !own.has(name)), known };
  }

  protected summary(): string {
    const { fresh, known } = this.names();
    const has = counted(known.length, "target", "targets", number);
    return fresh.length === 0
      ? has
      : `${has}, ${counted(fresh.length, "drill", "drills", number)} without one`;
  }

  protected body(): Node[] {
    const { fresh, known } = this.names();
    const all = [...fresh, ...known];
    const more = this.another("Another drill", "Set its target", (name) => (this.at = name));
    if (this.at === null) this.at = all[0] ?? null;
    if (this.at === null)
      return [
        make(
          "p",
          { class: "quiet" },
          "A target is a drill’s window: between which numbers a swing counts as good.",
        ),
        more,
      ];
    const drill = this.at;
    const row = this.library!.targets.find((one) => one.drill === drill);
    const fields = targetFields.filter(({ name }) => name !== "drill");
    const values = { ...texts(row as Row | undefined, fields), ...this.edits.get(drill) };
    const names = all.includes(drill) ? all : [drill, ...all];
    const met = make("p", { class: "met", role: "status" });
    const pads = make("div", { class: "pads" });
    const tell = (): void => {
      const now = { ...values, ...this.edits.get(drill) };
      met.textContent = metSaid(this.library!.swings, drill, now);
      const target = targetFrom(drill, now);
      // A number that can't be used yet leaves the drawing as it is.
      if (target === null) return;
      const { last } = lastOf(this.library!.swings, drill);
      const balls = last.map((row) => ({ row, met: meetsTarget(row, target) }));
      const ends = target as unknown as WindowEnds;
      pads.replaceChildren(contactPad(balls, ends, moved), fieldPad(balls, ends, moved));
    };
    const moved = (ends: Readonly<Record<string, number>>): void => {
      for (const [name, value] of Object.entries(ends)) {
        this.edit(drill, name, String(value));
        const input = this.element.querySelector<HTMLInputElement>(`[data-key="target ${name}"]`);
        if (input !== null) input.value = String(value);
      }
      tell();
    };
    tell();
    return [
      make(
        "div",
        { class: "entry" },
        make("span", {}, "Drill"),
        list(
          "drill",
          "Drill",
          names.map((name) => ({ value: name, text: fresh.includes(name) ? `${name} (no target)` : name })),
          drill,
          (name) => {
            this.at = name;
            this.draw();
          },
        ),
      ),
      ...targetMeasures.map((measure) =>
        make(
          "div",
          { class: "line" },
          ...fields
            .filter(({ name }) => name === `${measure}_low` || name === `${measure}_high`)
            .map((field) =>
              entry(
                field,
                `target ${field.name}`,
                values[field.name] ?? "",
                (value) => {
                  this.edit(drill, field.name, value);
                  tell();
                },
                false,
              ),
            ),
        ),
      ),
      met,
      pads,
      this.saver("Save this target", () => drill),
      more,
    ];
  }
}

/** A target as it stands in the form; null while one of its numbers can't be used. */
function targetFrom(drill: string, values: Readonly<Record<string, string>>): Target | null {
  const target: Record<string, unknown> = { drill };
  for (const field of targetFields) {
    if (field.name === "drill") continue;
    const value = cellReader(field)(values[field.name] ?? "");
    if (value instanceof Refusal) return null;
    target[field.name] = value;
  }
  return target as Target;
}

/** The last swings of a drill; of all drills where it has none yet. */
function lastOf(
  swings: readonly EnrichedSwing[],
  drill: string,
): { last: readonly EnrichedSwing[]; isOwn: boolean } {
  const own = swings.filter((row) => row.drill === drill);
  return { last: (own.length > 0 ? own : swings).slice(-lastSwings), isOwn: own.length > 0 };
}

/** How many of the last swings would have met a target as it stands in the form. */
function metSaid(
  swings: readonly EnrichedSwing[],
  drill: string,
  values: Readonly<Record<string, string>>,
): string {
  const target = targetFrom(drill, values);
  if (target === null) return "One of the numbers can’t be used yet.";
  const { last, isOwn } = lastOf(swings, drill);
  const verdicts = last.map((row) => meetsTarget(row, target)).filter((verdict) => verdict !== null);
  if (verdicts.length === 0) return "None of the swings can be judged by it yet.";
  const hit = verdicts.filter(Boolean).length;
  const whose = isOwn ? "of this drill" : "of all drills";
  return `${number(hit)} of the last ${rowsOf(verdicts.length).replace("row", "swing")} ${whose} would have met it.`;
}

/** The facility's own playing fields. */
class Fields extends Forms {
  protected readonly table = "fields";
  protected readonly key = "field";
  private at: string | null = null;

  protected summary(): string {
    const { length } = this.library!.fields;
    return length === 0 ? "none of your own yet" : `${number(length)} of your own`;
  }

  protected body(): Node[] {
    const known = this.library!.fields.map(({ field }) => field);
    const more = this.another("Another field", "Measure it", (name) => (this.at = name));
    const said = make(
      "p",
      { class: "quiet" },
      "A field of your own is measured once, and then chosen by its name for a session: its lines, its fence and its bases are those that every page and report draws.",
    );
    this.at ??= known[0] ?? null;
    if (this.at === null) return [said, more];
    const name = this.at;
    const row = this.library!.fields.find(({ field }) => field === name);
    const fields: readonly Field[] = ownFieldFields.filter(({ name }) => name !== "field");
    const values = { ...texts(row as Row | undefined, fields), ...this.edits.get(name) };
    const names = known.includes(name) ? known : [name, ...known];
    return [
      said,
      make(
        "div",
        { class: "entry" },
        make("span", {}, "Field"),
        list(
          "own field",
          "Field",
          names.map((value) => ({ value, text: value })),
          name,
          (chosen) => {
            this.at = chosen;
            this.draw();
          },
        ),
      ),
      make(
        "div",
        { class: "form" },
        ...fields.map((field) =>
          entry(field, `field ${field.name}`, values[field.name] ?? "", (value) =>
            this.edit(name, field.name, value),
          ),
        ),
      ),
      this.saver("Save this field", () => name),
      more,
    ];
  }
}

/** The four tables' forms, folded, each with how much it still wants. */
export class Needed {
  readonly element: HTMLElement;
  private readonly all: readonly Forms[];

  constructor(store: Store | null) {
    this.all = [
      new Sessions(store, "Sessions"),
      new Hitters(store, "Hitters"),
      new Targets(store, "Targets"),
      new Fields(store, "Fields of your own"),
    ];
    this.element = make("div", { class: "needed" }, ...this.all.map(({ element }) => element));
  }

  follow(library: PageLibrary): void {
    for (const forms of this.all) forms.follow(library);
  }
}
