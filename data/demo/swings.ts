/** The simulated swings: what truly happened, before a tracker looked. */
import { chance, type Chance } from "./chance.ts";
import { collide, grazingOffset, incomingSpin } from "./bat-and-ball.ts";
import {
  anywhere,
  drills,
  hitterModels,
  type Drill,
  type HitterModel,
  type PitchModel,
  type Place,
  type SessionPlan,
} from "./scenario.ts";
import { departureOf, type Vector } from "../../src/field/vector.ts";
import { zoneEdges } from "../../src/field/zone.ts";
import type { Input } from "../../src/swing/fields.ts";
import { deg, ft, inch, mph, rpm } from "../../src/units/index.ts";

/** One swing, or a pitch let go, as it truly was. */
export interface TrueSwing {
  readonly hitter: HitterModel;
  readonly bats: "L" | "R";
  readonly input: Input;
  readonly drill: string;
  /** Seconds since the session's start. */
  readonly second: number;
  readonly outcome: "in_play" | "foul" | "miss" | "take";
  readonly pitch: {
    readonly type: string;
    readonly speed_mph: number;
    readonly pitcher: string | null;
  } | null;
  /** Null for a take. */
  readonly batSpeed_mph: number | null;
  readonly attackAngle_deg: number | null;
  /** Null when bat and ball didn't meet. */
  readonly launch: {
    readonly speed: number;
    readonly launchAngle_deg: number;
    readonly sprayAngle_deg: number;
    readonly backspin_rpm: number;
    readonly sidespin_rpm: number;
    /** ft */
    readonly contact: Vector;
  } | null;
}

/** How the face turns as the bat comes round: ° for each ft that the ball is met further out. Invented. */
const turnByDepth = 21;
/** A ball inside is met further out: ft for each ft. Common practice, no source. */
const forwardByInside = 0.65;
/** From the hands to the bat's best place, in; sets how far along the barrel a mistimed ball moves. Invented. */
const reach_in = 27;
/** How far along the barrel a mistimed ball is met, in for each ms. Invented. */
const barrelByTiming = 0.21;

/** How much further under a pitch hitters aim than under a ball on a tee, in, the pitch coming down. Invented. */
const liftLive_in = 0.06;

/** What a hitter brings on one day. */
interface Form {
  readonly batSpeed_mph: number;
  readonly attack_deg: number;
  readonly pull_deg: number;
}

interface Incoming {
  readonly input: Input;
  /** Where the ball is met, away from the hitter and up from the ground, ft. */
  readonly away: number;
  readonly height: number;
  readonly speed_mph: number;
  readonly descent_deg: number;
  readonly backspin_rpm: number;
  readonly fooled: boolean;
  readonly early_ms: number;
  readonly under_in: number;
  readonly timing: number;
  readonly forward_ft: number;
  /** ft outside the zone. */
  readonly off: number;
}

const smoothStep = (x: number, middle: number, width: number): number =>
  1 / (1 + Math.exp(-(x - middle) / width));

/** Share of the bat speed that a place costs, all but in steps at the zone's inner lines. */
function lost(hitter: HitterModel, away: number, height: number): number {
  const { side_ft, height_ft } = zoneEdges(hitter.height_in);
  return (
    hitter.lostOutside * smoothStep(away, side_ft[2], 0.04) +
    hitter.lostLow * smoothStep(-height, -height_ft[1], 0.04)
  );
}

function meet(hitter: HitterModel, bats: "L" | "R", form: Form, ball: Incoming, draw: Chance) {
  const wild = ball.fooled ? 2.3 : 1 + 0.5 * Math.min(ball.off, 1);
  const zone = zoneEdges(hitter.height_in).height_ft;

  const effort = ball.input === "live" ? 1 + hitter.liveEffort : 1;
  const batSpeed =
    form.batSpeed_mph *
    effort *
    (1 - lost(hitter, ball.away, ball.height)) *
    (1 + draw.normal(0, 0.022)) *
    (ball.fooled ? 0.93 : 1);

  // Late is positive. On a tee nothing has to be timed; on a flip little comes of it, the ball being slow.
  const late =
    ball.input === "tee"
      ? 0
      : draw.normal(
          (ball.input === "live" ? hitter.late_ms : 0) - ball.early_ms,
          hitter.timingSpread_ms * ball.timing * (ball.fooled ? 1.9 : 1),
        );
  const closing = (ball.speed_mph * batSpeed) / (ball.speed_mph + batSpeed);
  const stance = draw.normal(0, ball.input === "tee" ? 0.13 : 0.16);
  const ideal = hitter.depth_ft - forwardByInside * ball.away + ball.forward_ft;
  const depthError = -(closing * mph * late * 1e-3) / ft;
  const depth = ideal + depthError + (ball.input === "tee" ? draw.normal(0, 0.04) : stance);
  const swung = ball.input === "tee" ? depth - stance : depth;
  const face =
    -(form.pull_deg + turnByDepth * (swung - hitter.depth_ft)) +
    draw.normal(0, (ball.input === "live" ? 12 : 4) * (ball.fooled ? 2.2 : 1));
  const path = face + draw.normal(0, 3);
  const attack = form.attack_deg + 2.5 * (swung - hitter.depth_ft) + draw.normal(0, 2.5);
  const drop = Math.min(50, Math.max(10, 27 + 11 * ((zone[1] + zone[2]) / 2 - ball.height)));
  const offset = draw.normal(hitter.offset_in + ball.under_in, hitter.offsetSpread_in[ball.input] * wild);
  const tip = reach_in * (1 / Math.cos(turnByDepth * depthError * deg) - 1);
  const alongBarrel =
    draw.normal(0, hitter.barrelSpread_in * (ball.fooled ? 1.7 : 1)) + tip - barrelByTiming * late;

  const missed =
    Math.abs(offset * inch) > grazingOffset * 0.94 ||
    Math.abs(late) > 45 ||
    Math.abs(turnByDepth * depthError) > 60 ||
    alongBarrel > 8;
  if (missed) return { batSpeed, attack, launch: null };

  const fall = ball.descent_deg * deg;
  const speed = ball.speed_mph * mph;
  const left = collide({
    batSpeed: batSpeed * mph,
    attackAngle: attack * deg,
    face: face * deg,
    path: path * deg,
    barrelDrop: drop * deg,
    offset: offset * inch,
    alongBarrel: alongBarrel * inch,
    ballVelocity: [0, -speed * Math.cos(fall), -speed * Math.sin(fall)],
    ballSpin: incomingSpin(ball.backspin_rpm),
  });
  // Everything so far was a right-handed batter's; a left-handed one is the mirror.
  const mirror = bats === "R" ? 1 : -1;
  const { launchAngle_deg, sprayAngle_deg, speed: leaving } = departureOf(left.velocity);
  return {
    batSpeed,
    attack,
    launch: {
      speed: leaving,
      launchAngle_deg,
      sprayAngle_deg: mirror * sprayAngle_deg,
      backspin_rpm: left.backspin / rpm + draw.normal(0, 150),
      sidespin_rpm: mirror * (left.sidespin / rpm) + draw.normal(0, 150),
      contact: [mirror * ball.away, depth, ball.height] as Vector,
    },
  };
}

/** Where a third of the zone has its middle, ft. */
function placeInZone(hitter: HitterModel, place: Place): { away: number; height: number } {
  const { side_ft, height_ft } = zoneEdges(hitter.height_in);
  return {
    away: (place.away * (side_ft[3] - side_ft[0])) / 3,
    height: (height_ft[0] + height_ft[3]) / 2 + (place.up * (height_ft[3] - height_ft[0])) / 3,
  };
}

function offZone(hitter: HitterModel, away: number, height: number): number {
  const { side_ft, height_ft } = zoneEdges(hitter.height_in);
  return Math.hypot(
    Math.max(0, side_ft[0] - away, away - side_ft[3]),
    Math.max(0, height_ft[0] - height, height - height_ft[3]),
  );
}

function sideOf(hitter: HitterModel, turn: number): "L" | "R" {
  return hitter.bats === "S" ? (turn % 2 === 0 ? "L" : "R") : (hitter.bats ?? "R");
}

function practice(
  hitter: HitterModel,
  form: Form,
  drill: Drill,
  i: number,
  first: number,
  second: number,
  draw: Chance,
): TrueSwing {
  const bats = sideOf(hitter, Math.floor(i / 3));
  const spot = placeInZone(hitter, drill.places[(first + i) % drill.places.length]!);
  const flip = drill.input === "flip";
  const slow = drill.timing > 1 && i % 2 === 1;
  const speed = flip ? draw.normal(slow ? 10 : 15, 1) : 0;
  const { batSpeed, attack, launch } = meet(
    hitter,
    bats,
    form,
    {
      input: drill.input,
      away: spot.away + draw.normal(0, flip ? 0.28 : 0.04),
      height: spot.height + draw.normal(0, flip ? 0.26 : 0.04),
      speed_mph: speed,
      descent_deg: flip ? 12 : 0,
      backspin_rpm: 0,
      fooled: false,
      early_ms: slow ? 6 : 0,
      under_in: 0,
      timing: drill.timing,
      forward_ft: drill.forward_ft,
      off: 0,
    },
    draw,
  );
  return {
    hitter,
    bats,
    input: drill.input,
    drill: drill.drill,
    second,
    outcome: launch === null ? "miss" : "in_play",
    pitch: flip ? { type: "flip", speed_mph: speed, pitcher: null } : null,
    batSpeed_mph: batSpeed,
    attackAngle_deg: attack,
    launch,
  };
}

function faced(
  hitter: HitterModel,
  form: Form,
  drill: Drill,
  pitcher: SessionPlan["pitchers"][number],
  second: number,
  draw: Chance,
): TrueSwing {
  // A switch hitter takes the side away from the pitcher's arm; the left-hander is the one with the slider.
  const lefty = pitcher.pitches.some((p) => p.type === "slider");
  const bats = hitter.bats === "S" ? (lefty ? "R" : "L") : sideOf(hitter, 0);
  const pitch: PitchModel = draw.pick(pitcher.pitches.map((p) => [p, p.weight] as const));
  const speed = draw.normal(pitch.speed_mph, pitch.spread_mph);
  const { away, up, spread } = draw.happens(hitter.pitchedAt.elsewhere) ? anywhere : hitter.pitchedAt;
  const middle = placeInZone(hitter, { away: 0, up: 0 });
  const control = pitcher.coach ? 0.8 : 1;
  const x = draw.normal(away, spread * control);
  const z = draw.normal(middle.height + up + pitch.up_ft, spread * control);
  const off = offZone(hitter, x, z);
  const hard = pitcher.hardOn?.hitter === hitter.hitter ? pitcher.hardOn.times : 1;
  const fooled = draw.happens(Math.min(1, pitch.fooled * hitter.foolable * hard));
  const eager = pitcher.coach ? 0.5 * hitter.swingsAt + 0.5 : hitter.swingsAt;
  const swings = draw.happens(off === 0 ? eager : eager * 0.75 * Math.exp(-off / 0.3));
  const shared = {
    hitter,
    bats,
    input: "live" as const,
    drill: drill.drill,
    second,
    pitch: { type: pitch.type, speed_mph: speed, pitcher: pitcher.name },
  };
  if (!swings) return { ...shared, outcome: "take", batSpeed_mph: null, attackAngle_deg: null, launch: null };
  const { batSpeed, attack, launch } = meet(
    hitter,
    bats,
    form,
    {
      input: "live",
      away: x,
      height: Math.max(0.4, z),
      speed_mph: speed,
      descent_deg: pitch.descent_deg,
      backspin_rpm: pitch.backspin_rpm,
      fooled,
      early_ms: pitch.early_ms,
      under_in: liftLive_in - pitch.over_in,
      timing: pitcher.coach ? 0.85 : 1,
      forward_ft: 0,
      off,
    },
    draw,
  );
  const outcome =
    launch === null
      ? "miss"
      : Math.abs(launch.sprayAngle_deg) > 45 || launch.launchAngle_deg > 78
        ? "foul"
        : "in_play";
  return { ...shared, outcome, batSpeed_mph: batSpeed, attackAngle_deg: attack, launch };
}

/** A hitter's true bat speed in a week, mph: what a tee swing at the middle has on average. */
export const batSpeedInWeek = (hitter: HitterModel, week: number): number =>
  hitter.batSpeed_mph + hitter.gain_mph_a_week * week;

/** Who hits, and what they work on. */
export interface Scene {
  readonly hitters: readonly HitterModel[];
  readonly drills: readonly Drill[];
}

/** A hitter's form after so many swings of the session. */
function tired(hitter: HitterModel, form: Form, swung: number): Form {
  const { tiring } = hitter;
  if (tiring === undefined || swung <= tiring.after) return form;
  return { ...form, batSpeed_mph: form.batSpeed_mph - tiring.mph_a_swing * (swung - tiring.after) };
}

/** Every swing of a session, in order of time. */
export function swingsOf(plan: SessionPlan, scene: Scene = { hitters: hitterModels, drills }): TrueSwing[] {
  const swings: TrueSwing[] = [];
  let second = 60;
  const rounds = plan.hitters.map((name) => {
    const hitter = scene.hitters.find((h) => h.hitter === name)!;
    const draw = chance(`${plan.log.session} ${name}`);
    const form: Form = {
      batSpeed_mph: batSpeedInWeek(hitter, plan.week) + draw.normal(0, 0.4),
      attack_deg: hitter.attackAngle_deg + draw.normal(0, 0.4),
      pull_deg: hitter.pull_deg + draw.normal(0, 0.4),
    };
    return { hitter, draw, form, rounds: plan.rounds(name) };
  });
  // Hitters take turns: everyone does the first drill, then everyone the second.
  const swung = new Map<string, number>();
  const most = Math.max(...rounds.map((r) => r.rounds.length));
  for (let k = 0; k < most; k++) {
    for (const { hitter, draw, form, rounds: own } of rounds) {
      const round = own[k];
      if (round === undefined) continue;
      const drill = scene.drills.find((d) => d.drill === round.drill)!;
      const usual = drill.drill === "At-bats" ? 1 : 0;
      const way = { ...form, batSpeed_mph: form.batSpeed_mph + (drill.gives_mph ?? 0) };
      for (let i = 0; i < round.swings; i++) {
        const before = swung.get(hitter.hitter) ?? 0;
        const now = tired(hitter, way, before);
        swung.set(hitter.hitter, before + 1);
        second += Math.round(drill.input === "live" ? 11 + 8 * draw.uniform() : 7 + 5 * draw.uniform());
        swings.push(
          drill.input === "live"
            ? faced(hitter, now, drill, plan.pitchers[round.pitcher ?? usual]!, second, draw)
            : practice(hitter, now, drill, i, plan.week * round.swings, second, draw),
        );
      }
      second += 45;
    }
  }
  return swings;
}
