/** Which swings a command works on: the same options, with one meaning, for each command that reads swings. */
import type { Command } from "commander";
import type { Session, Swing } from "../swing/fields.ts";
import type { SwingConditions, SwingScope } from "../views/filter.ts";
import type { Span } from "../views/sessions.ts";
import { isDay } from "../swing/day.ts";
import { sameLetters } from "../swing/names.ts";
import { Fault } from "./errors.ts";

/** What a call may ask of swings. */
export interface FilterCall {
  readonly drill?: string;
  readonly dates?: string;
  readonly since?: string;
  readonly until?: string;
  readonly pitchType?: string;
  readonly pitchSpeed?: string;
  readonly pitcher?: string;
}

/** Gives a command the options. */
export function withFilter(command: Command): Command {
  return command
    .option("--drill <name>", "this drill's swings alone")
    .option("--dates <span>", "week or four-weeks, up to the library's last day; or 2025-05-01/2025-05-31")
    .option("--since <day>", "swings of this day and later, such as 2025-03-03")
    .option("--until <day>", "swings of this day and earlier")
    .option("--pitch-type <name>", "pitches of this type alone")
    .option("--pitch-speed <low-high>", "pitches from low up to high alone, mph at the plate: 70-80")
    .option("--pitcher <name>", "what this pitcher threw alone");
}

/** What a call asks, read but not yet held against swings. */
export interface Asked {
  /** Whether any swing will do, whatever its day. */
  readonly asksNone: boolean;
  /** The scope, of the swings that are there. */
  readonly scopeIn: (source: FilteredSource) => Promise<Required<SwingConditions> & Required<Span>>;
}

/** Swings, and what tells their days and speeds. */
export interface FilteredSource {
  readonly swings: readonly Swing[];
  readonly sessions: readonly Session[];
  readonly thresholds: unknown;
}

/** A day as a call gives it, or null. */
function dayMeant(text: string | undefined, name: string): string | null {
  if (text === undefined) return null;
  if (!isDay(text)) throw new Fault(`--${name} takes a day like 2025-03-03, not "${text}".`, 2);
  return text;
}

/** The span between two days of a call. */
function daysMeant(call: FilterCall): Required<Span> {
  const since = dayMeant(call.since, "since");
  const until = dayMeant(call.until, "until");
  if (since !== null && until !== null && since > until)
    throw new Fault(`--since ${since} lies after --until ${until}.`, 2);
  return { since, until };
}

/** Reads what a call asks: whatever is wrong by itself is told before any swing is read. */
export async function filterMeant(call: FilterCall): Promise<Asked> {
  const days = daysMeant(call);
  if (call.dates !== undefined && (call.since !== undefined || call.until !== undefined))
    throw new Fault("--dates says which days by itself: leave out --since and --until.", 2);
  const asksNone = (["drill", "dates", "pitchType", "pitchSpeed", "pitcher"] as const).every(
    (name) => call[name] === undefined,
  );
  if (asksNone)
    return {
      asksNone: days.since === null && days.until === null,
      scopeIn: async () => ({ ...anySwing, ...days }),
    };
  const { BadBand, bandNamed, bandText, offersOf, plateSpeeds } = await import("../views/filter.ts");
  const { BadSpan, latestDay, spanNamed } = await import("../views/spans.ts");
  const { notThere } = await import("../views/sentences/filter.ts");
  const meant = <T>(option: string, text: string | undefined, of: (given: string) => T): T | null => {
    if (text === undefined) return null;
    try {
      return of(text);
    } catch (error) {
      if (error instanceof BadSpan || error instanceof BadBand)
        throw new Fault(`--${option}: ${error.message}.`, 2);
      throw error;
    }
  };
  const band = meant("pitch-speed", call.pitchSpeed, bandNamed);
  meant("dates", call.dates, (given) => spanNamed(given, null));
  return {
    asksNone: false,
    scopeIn: async ({ swings, sessions, thresholds }) => {
      const offers = offersOf(
        swings.map((swing) => ({ ...swing, flags: null })),
        { sessions, thresholds },
      );
      /** The name that is meant, as the rows spell it. */
      const named = (
        field: "drill" | "pitch_type" | "pitcher",
        asked: string | undefined,
        there: readonly { readonly value: string }[],
      ): string | null => {
        if (asked === undefined) return null;
        const names = there.map(({ value }) => value);
        if (names.includes(asked)) return asked;
        const same = names.filter((name) => sameLetters(name, asked));
        if (same.length === 1) return same[0]!;
        throw new Fault(notThere(field, asked, names), 2);
      };
      const speedOf = plateSpeeds({ sessions, thresholds });
      const thrown = (row: Swing): boolean => {
        const speed = speedOf(row);
        return band !== null && speed !== null && speed >= band.low && speed < band.high;
      };
      if (band !== null && !swings.some(thrown))
        throw new Fault(
          notThere(
            "pitch_speed_mph",
            bandText(band),
            offers.pitch_speeds.map(({ value }) => bandText(value)),
            "mph",
          ),
          2,
        );
      return {
        drill: named("drill", call.drill, offers.drills),
        pitch_type: named("pitch_type", call.pitchType, offers.pitch_types),
        pitch_speed_mph: band,
        pitcher: named("pitcher", call.pitcher, offers.pitchers),
        ...(call.dates === undefined ? days : spanNamed(call.dates, latestDay(swings, sessions))),
      };
    },
  };
}

const anySwing: Required<SwingConditions> = {
  drill: null,
  pitch_type: null,
  pitch_speed_mph: null,
  pitcher: null,
};

/**
 * That a scope leaves none of a call's swings.
 * @param whose "Ada K. has"
 * @param where what goes before the scope's words, such as a session
 */
export async function noneLeft(whose: string, scope: SwingScope, where = ""): Promise<Fault> {
  const { filterWords } = await import("../views/sentences/filter.ts");
  const { spanWords } = await import("../views/sentences/needs.ts");
  const { since = null, until = null, ...conditions } = scope;
  const days = since === null && until === null ? [] : [spanWords({ since, until })];
  const words = [...days, filterWords(conditions, "us")].filter((text) => text !== "").join(", ");
  const said = `${whose} no swings${where}${words === "" ? "" : `: ${words}`}`;
  // A pitcher's name may end the sentence by itself.
  return new Fault(said.endsWith(".") ? said : `${said}.`, 2);
}
