/**
 * Files that were sent and of whose adding the page never heard, since it was closed, or the program that serves it was
 * ended. They are noted before they are sent, and the next visit says what became of each; the page itself does, where it
 * hears of its library again.
 */
import { counted } from "../../src/swing/words.ts";
import { make } from "./bringSay.ts";
import type { BecameAnswer, Sent } from "./bringTold.ts";

/** A file that was sent to a library. */
interface Note extends Sent {
  /** The library's name. */
  readonly library: string;
}

/** Where the notes stand: each site on a host has its own. */
const place = (): string => `batted sent ${new URL(".", document.baseURI).pathname}`;

function notes(): Note[] {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(place()) ?? "[]");
    return Array.isArray(value) ? (value as Note[]) : [];
  } catch {
    return [];
  }
}

/** A browser that keeps nothing keeps no notes either: then the next visit has nothing to say. */
function keepNotes(all: readonly Note[]): void {
  try {
    if (all.length === 0) localStorage.removeItem(place());
    else localStorage.setItem(place(), JSON.stringify(all));
  } catch {
    // As said.
  }
}

const same = (a: Note, b: Note): boolean => a.name === b.name && a.at === b.at && a.library === b.library;
const forget = (note: Note): void => keepNotes(notes().filter((one) => !same(one, note)));
const lockOf = (note: Note): string => `${place()} ${note.at} ${note.name}`;

/** That nobody answered. */
export class Unheard extends Error {}

/**
 * Notes a file while it is sent. The note stays when the page is closed meanwhile, or nobody answers.
 * @param send throws `Unheard` when nobody answers
 */
export async function noting<T>(library: string, name: string, send: () => Promise<T>): Promise<T> {
  const note: Note = { library, name, at: Date.now() };
  keepNotes([...notes(), note]);
  const work = async (): Promise<T> => {
    try {
      const answer = await send();
      forget(note);
      return answer;
    } catch (error) {
      if (!(error instanceof Unheard)) forget(note);
      throw error;
    }
  };
  // Another tab can tell by the lock that this one is at it still; it ends with the tab.
  return navigator.locks === undefined ? work() : navigator.locks.request(lockOf(note), work);
}

function sentence({ name }: Sent, became: BecameAnswer): string {
  if (became.state === "under way") return `${name}, whose answer never came, is being added.`;
  if (became.state === "nothing")
    return `Nothing of ${name}, whose answer never came, was added: bring it again.`;
  const { counts } = became;
  const parts =
    counts === null
      ? ""
      : `: ${counted(counts.read, "row")}, ${counts.new} new${counts.corrected > 0 ? `, ${counts.corrected} corrected` : ""}` +
        (counts.refused > 0 ? `, ${counts.refused} refused` : "");
  return `${name}, whose answer never came, was added whole${parts}.`;
}

/** Whom to ask what became of a file. */
interface Asked {
  became(sent: Sent): Promise<BecameAnswer>;
}

/** Milliseconds between two looks at a file that is being added. */
const look_ms = 500;

/** Says what became of the files that were sent on earlier visits. */
export class UnheardBox {
  readonly element = make("div", { role: "status" });
  private readonly asked = new Set<string>();

  constructor(private readonly store: Asked | null) {}

  /** Asks after what was sent to a library, each file once. */
  follow(library: string): void {
    if (this.store === null) return;
    for (const note of notes()) {
      if (note.library !== library || this.asked.has(lockOf(note))) continue;
      this.asked.add(lockOf(note));
      void this.tell(this.store, note);
    }
  }

  private async tell(store: Asked, note: Note): Promise<void> {
    const locks = await navigator.locks?.query().catch(() => null);
    if (locks?.held?.some(({ name }) => name === lockOf(note))) return;
    const line = make("p", { class: "note" });
    for (;;) {
      const became = await store.became(note).catch(() => null);
      // Nobody answers: the next visit asks again.
      if (became === null) return;
      line.textContent = sentence(note, became);
      if (!line.isConnected) this.element.append(line);
      if (became.state !== "under way") break;
      await new Promise((done) => setTimeout(done, look_ms));
    }
    forget(note);
  }
}
