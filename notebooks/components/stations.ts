/** The plan of stations on a page: names are moved by buttons, by keyboard or by hand before it is printed. */
import { roundsOf, type Placed, type Station } from "../../src/season/stations.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { needWords } from "../../src/views/sentences/needs.ts";
import { noDrillsSentence, noNeedHere, planBasis, swingsWords } from "../../src/views/sentences/stations.ts";
import { windowWords } from "../../src/views/window.ts";
import { onPaper } from "./printAlone.ts";
import { care } from "./say.ts";
import { box, nothing } from "./show.ts";

/** The fewest and the most swings a coach may ask for here, and what is asked for until told. Common practice, no source. */
const count = { least: 1, most: 60, usual: 25 } as const;

function paragraph(className: string, text: string): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.textContent = text;
  return element;
}

/**
 * The plan, to be moved about. Each name has a button to the station before and the one after; the arrow keys do the same;
 * a name can be dragged, too. What was moved is told to who hears the page.
 */
export function stationsPlan(stations: readonly Station[], system: UnitSystem): HTMLElement {
  if (stations.length === 0) return nothing(noDrillsSentence);
  const places = stations.map(({ hitters }) => [...hitters]);
  let swings: number = count.usual;
  const field = document.createElement("label");
  field.className = "count";
  const input = document.createElement("input");
  input.type = "number";
  input.min = String(count.least);
  input.max = String(count.most);
  input.value = String(swings);
  field.append("Swings a hitter, at most ", input);
  const list = box("stations");
  const told = paragraph("unseen", "");
  told.setAttribute("role", "status");

  const move = (hitter: string, to: number): void => {
    if (to < 0 || to >= places.length) return;
    const from = places.findIndex((own) => own.some((one) => one.hitter === hitter));
    const at = places[from]!.findIndex((one) => one.hitter === hitter);
    const [placed] = places[from]!.splice(at, 1);
    places[to]!.push(placed!);
    draw();
    told.textContent = `${hitter} is at ${stations[to]!.drill}.`;
    list.querySelector<HTMLElement>(`[data-hitter="${CSS.escape(hitter)}"]`)?.focus();
  };

  const name = ({ hitter, need }: Placed, at: number): HTMLElement => {
    const item = document.createElement("li");
    item.tabIndex = 0;
    item.draggable = true;
    item.dataset["hitter"] = hitter;
    item.append(Object.assign(document.createElement("b"), { textContent: hitter }));
    for (const [step, sign, word] of [
      [-1, "↑", "before"],
      [1, "↓", "after"],
    ] as const) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = sign;
      button.disabled = at + step < 0 || at + step >= places.length;
      button.setAttribute("aria-label", `Move ${hitter} to the station ${word}`);
      button.addEventListener("click", () => move(hitter, at + step));
      item.append(button);
    }
    item.append(box("why", need === null ? noNeedHere : needWords(need, system)));
    item.addEventListener("keydown", (event) => {
      if (event.target !== item || (event.key !== "ArrowUp" && event.key !== "ArrowDown")) return;
      event.preventDefault();
      move(hitter, at + (event.key === "ArrowUp" ? -1 : 1));
    });
    item.addEventListener("dragstart", (event) => event.dataTransfer?.setData("text/plain", hitter));
    return item;
  };

  function draw(): void {
    const rounds = swingsWords(swings, roundsOf(swings));
    list.replaceChildren(
      ...stations.map(({ drill, window }, at) => {
        const card = document.createElement("section");
        card.className = "station";
        card.append(
          Object.assign(document.createElement("h3"), { textContent: `${at + 1}. ${drill}` }),
          paragraph("window", `Aim: ${window.map((ends) => windowWords(ends, system)).join("; ")}.`),
          paragraph("rounds", `Each: ${rounds}.`),
        );
        const names = card.appendChild(document.createElement("ul"));
        names.append(...places[at]!.map((placed) => name(placed, at)));
        if (places[at]!.length === 0) card.append(paragraph("rests", "Nobody yet."));
        card.addEventListener("dragover", (event) => event.preventDefault());
        card.addEventListener("drop", (event) => {
          event.preventDefault();
          const hitter = event.dataTransfer?.getData("text/plain") ?? "";
          if (places.some((own) => own.some((one) => one.hitter === hitter))) move(hitter, at);
        });
        return card;
      }),
    );
  }
  input.addEventListener("input", (event) => {
    // The page's own choices listen for this: a count is none of them.
    event.stopPropagation();
    const asked = Math.round(Number(input.value));
    if (asked >= count.least && asked <= count.most) {
      swings = asked;
      draw();
    }
  });
  draw();
  return box("plan", field, paragraph("rests", planBasis), list, onPaper(care()), told);
}
