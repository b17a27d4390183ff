/**
 * One ball in full: a card that a tap on a chart's mark opens, and the same ball ringed in every chart of the page. From the
 * keyboard it is opened by the button under a chart, and goes from ball to ball.
 */
import { bearingWords } from "../../src/charts/flown.ts";
import { flightSide } from "../../src/charts/flightSide.ts";
import { ballsOf } from "../../src/charts/frame.ts";
import { oneBall } from "../../src/contact/oneBall.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { deg } from "../../src/units/index.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { rangeWords, valueWords } from "../../src/views/words.ts";
import type { PageLibrary } from "./library.ts";

/** How far from a mark a tap still means it, px: half a thumb. */
const reach = 24;

/** Of what page the card is: what its ball's air and field are, and the units. */
interface About {
  readonly library: PageLibrary;
  readonly units: UnitSystem;
}

let about: About | null = null;
let card: HTMLElement | null = null;
let shown: EnrichedSwing | null = null;
let from: HTMLElement | null = null;

const charts = (): SVGSVGElement[] => [...document.querySelectorAll<SVGSVGElement>("main figure.chart svg")];

/** The marks of a chart's balls; none where some share one. */
export function marksOf(svg: Element): Element[] {
  const marks = [...svg.querySelectorAll('[aria-description="swings"] > *')];
  return marks.length === ballsOf(svg).length ? marks : [];
}

const isSame = (a: EnrichedSwing, b: EnrichedSwing): boolean =>
  a === b || (a.swing_id !== null && a.swing_id === b.swing_id);

/** Rings the shown ball wherever it is drawn. */
function ring(): void {
  for (const svg of charts()) {
    svg.querySelector(".picked")?.remove();
    if (shown === null) continue;
    const at = (ballsOf(svg) as readonly EnrichedSwing[]).findIndex((ball) => isSame(ball, shown!));
    const mark = at < 0 ? undefined : marksOf(svg)[at];
    if (mark === undefined) continue;
    const { x, y, width, height } = (mark as SVGGraphicsElement).getBBox();
    // A mark that is turned or moved is so by its own transform alone.
    const [, dx = "0", dy = "0"] =
      /translate\((-?[\d.]+)[ ,]+(-?[\d.]+)\)/.exec(mark.getAttribute("transform") ?? "") ?? [];
    const circle = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    circle.setAttribute("class", "picked");
    circle.setAttribute("cx", String(x + width / 2 + Number(dx)));
    circle.setAttribute("cy", String(y + height / 2 + Number(dy)));
    circle.setAttribute("r", "11");
    svg.append(circle);
  }
}

/** A ball's lines: what is known of it, each with its name. */
function linesOf(ball: EnrichedSwing, units: UnitSystem): [string, string][] {
  const carry =
    ball.carry_low_ft === null || ball.carry_high_ft === null
      ? ""
      : `; eight of ten such balls ${rangeWords(ball.carry_low_ft, ball.carry_high_ft, "ft", units)}`;
  const direction = ball.bearing_deg === null ? null : bearingWords(ball.bearing_deg * deg);
  const lines: [string, string | null][] = [
    ["When", ball.time?.slice(0, 16).replace("T", ", ") ?? ball.session],
    ["Drill", [ball.input, ball.drill].filter((text) => text !== null).join(", ")],
    [
      "Off the bat",
      ball.exit_velocity_mph === null ? null : valueWords(ball.exit_velocity_mph, "mph", units),
    ],
    ["Angle", ball.launch_angle_deg === null ? null : valueWords(ball.launch_angle_deg, "deg", units)],
    [
      "Direction",
      direction === null ? null : [direction, ball.lane].filter((text) => text !== null).join(", "),
    ],
    ["Carry", ball.carry_ft === null ? null : valueWords(ball.carry_ft, "ft", units) + carry],
    [
      "Contact",
      ball.bucket === null
        ? null
        : `${ball.bucket}${ball.power_kept === null ? "" : `, power kept ${Math.round(100 * ball.power_kept)}%`}`,
    ],
    ["Note", ball.note],
  ];
  return lines.filter((line): line is [string, string] => line[1] !== null && line[1] !== "");
}

function flightOf(ball: EnrichedSwing, { library, units }: About, width: number): SVGElement | null {
  if (ball.outcome !== "in_play" || ball.carry_ft === null) return null;
  const session = library.sessions.find((one) => one.session === ball.session) ?? null;
  const flown = oneBall({ ...session, ...ball }, 0).ball;
  return flown === null ? null : flightSide(flown, { units, width, title: "Its flight" });
}

function close(): void {
  card?.remove();
  card = null;
  shown = null;
  ring();
  from?.focus({ preventScroll: true });
  from = null;
}

/** Shows a ball among those that its chart has. */
function show(ball: EnrichedSwing, among: readonly EnrichedSwing[]): void {
  if (about === null) return;
  const focused = card?.contains(document.activeElement)
    ? (document.activeElement as HTMLElement).dataset["does"]
    : undefined;
  shown = ball;
  const element = document.createElement("aside");
  element.className = "ball-card";
  element.setAttribute("role", "dialog");
  const title = element.appendChild(document.createElement("h2"));
  title.textContent = [ball.category ?? ball.outcome ?? "ball", ball.hitter].join(", ");
  element.setAttribute("aria-label", title.textContent);
  const list = element.appendChild(document.createElement("dl"));
  for (const [name, value] of linesOf(ball, about.units)) {
    list.appendChild(document.createElement("dt")).textContent = name;
    list.appendChild(document.createElement("dd")).textContent = value;
  }
  const buttons = document.createElement("p");
  const at = among.findIndex((one) => isSame(one, ball));
  const add = (does: string, text: string, work: () => void, can = true): void => {
    const button = buttons.appendChild(document.createElement("button"));
    [button.type, button.textContent, button.disabled] = ["button", text, !can];
    button.dataset["does"] = does;
    button.addEventListener("click", work);
  };
  add("before", "Ball before", () => show(among[at - 1]!, among), at > 0);
  add("after", "Ball after", () => show(among[at + 1]!, among), at < among.length - 1);
  add("close", "Close", close);
  element.addEventListener("keydown", (event) => {
    if (event.key === "Escape") close();
  });
  if (card === null) document.body.append(element);
  else card.replaceWith(element);
  card = element;
  const picture = flightOf(ball, about, Math.floor(list.clientWidth));
  if (picture !== null) element.append(picture);
  element.append(buttons);
  const wanted = element.querySelector<HTMLButtonElement>(`[data-does="${focused ?? "close"}"]:enabled`);
  (wanted ?? buttons.querySelector<HTMLButtonElement>(":enabled"))?.focus({ preventScroll: true });
  ring();
  // On a phone the card is the window's lower half: the ball stays in sight above it.
  const picked = [...document.querySelectorAll("main .picked")]
    .map((one) => one.getBoundingClientRect())
    .find(({ top, bottom }) => bottom > 0 && top < innerHeight);
  const edge = element.getBoundingClientRect();
  const isHidden = picked !== undefined && picked.right > edge.left && picked.bottom > edge.top;
  if (isHidden) scrollBy({ top: picked.bottom - edge.top + 12, behavior: "instant" });
}

/** The ball whose mark is nearest to a place of the window, within reach; null without one. */
function nearest(svg: SVGSVGElement, x: number, y: number): EnrichedSwing | null {
  let [best, least]: [number, number] = [-1, reach];
  marksOf(svg).forEach((mark, i) => {
    const box = mark.getBoundingClientRect();
    const away = Math.hypot(box.left + box.width / 2 - x, box.top + box.height / 2 - y);
    if (away < least) [best, least] = [i, away];
  });
  return best < 0 ? null : (ballsOf(svg)[best] as EnrichedSwing);
}

/**
 * Lets every chart of the page that has balls open their cards.
 * @param library the page's, and units: given anew each time they change
 */
export function cards(library: PageLibrary, units: UnitSystem): void {
  const first = about === null;
  about = { library, units };
  if (!first) {
    if (shown !== null) close();
    return;
  }
  document.addEventListener("click", (event) => {
    const target = event.target as Element;
    // A card that went on to another ball is a new one: its button belongs to the old.
    if (target.closest(".ball-card") !== null) return;
    const svg = target.closest<SVGSVGElement>("main figure.chart svg");
    const ball = svg === null ? null : nearest(svg, event.clientX, event.clientY);
    if (ball !== null) show(ball, ballsOf(svg!) as readonly EnrichedSwing[]);
    else if (card !== null) close();
  });
  addEventListener("batted:drawn", (event) => {
    const figure = event.target as HTMLElement;
    const svg = figure.querySelector("svg");
    const savers = figure.querySelector(".savers");
    if (svg === null || savers === null) return;
    const has = marksOf(svg).length > 0;
    let button = savers.querySelector<HTMLButtonElement>(".one-by-one");
    if (has && button === null) {
      button = document.createElement("button");
      [button.type, button.className, button.textContent] = ["button", "one-by-one", "Ball by ball"];
      button.addEventListener("click", (click) => {
        click.stopPropagation();
        const balls = ballsOf(figure.querySelector("svg")!) as readonly EnrichedSwing[];
        from = button;
        if (balls.length > 0) show(balls.at(-1)!, balls);
      });
      savers.prepend(button);
    } else if (!has) button?.remove();
    ring();
  });
  for (const figure of document.querySelectorAll("main figure.chart"))
    figure.dispatchEvent(new Event("batted:drawn", { bubbles: true }));
}
