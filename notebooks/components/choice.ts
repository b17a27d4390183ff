/** What a reader chooses on a page. Each choice is kept in the address, so that a page can be passed on. */

/** One possible answer: its value, and how it reads. */
export interface Option {
  readonly value: string;
  readonly text: string;
}

export interface ChoiceOptions {
  /** The choice's name in the address. */
  readonly key: string;
  readonly label: string;
  readonly options: readonly (Option | string)[];
  /** What holds until the reader chooses; the first option when absent. */
  readonly otherwise?: string;
}

/** An element whose value a notebook's `view` follows. */
export type ChoiceElement = HTMLElement & { readonly value: string };

/** The choices that the address holds. */
export const held = (): URLSearchParams => new URLSearchParams(location.hash.slice(1));

const followers: (() => void)[] = [];

/** Calls back whenever a choice was written into the address. */
export const onHeld = (told: () => void): void => void followers.push(told);

/** Writes one choice into the address, and into the links to the other pages. */
export function hold(key: string, value: string): void {
  const choices = held();
  choices.set(key, value);
  const hash = `#${choices}`;
  // Every choice that is offered anew asks for this, and the browser is slow to take an address.
  if (location.hash !== hash) history.replaceState(null, "", hash);
  for (const link of document.querySelectorAll<HTMLAnchorElement>("header nav a"))
    if (link.hash !== hash) link.hash = hash;
  for (const told of followers) told();
}

// Somebody typed or went back to another address: the page starts over from it.
if (typeof window !== "undefined") {
  window.addEventListener("hashchange", () => {
    if (location.hash.includes("=")) location.reload();
  });
}

/** The options in full, and which of them holds: the address's, when it is one of them. */
function settle({ key, options, otherwise }: ChoiceOptions): { all: Option[]; value: string } {
  const all = options.map((option) =>
    typeof option === "string" ? { value: option, text: option } : option,
  );
  const wished = [held().get(key), otherwise, all[0]?.value];
  const value = wished.find((wish) => all.some((option) => option.value === wish)) ?? "";
  // What holds anyway when nothing is said need not be said.
  if (all.length > 0 && !(value === "" && all[0]!.value === "" && !held().has(key))) hold(key, value);
  return { all, value };
}

function follow(element: HTMLElement, key: string, read: () => string): ChoiceElement {
  element.dataset["key"] = key;
  element.addEventListener("input", () => {
    // From here on the page lays out what is in sight first: see page.css.
    document.documentElement.classList.add("chosen");
    hold(key, read());
  });
  return Object.defineProperty(element, "value", { get: read }) as ChoiceElement;
}

/** A choice from a list that opens. */
export function choose(options: ChoiceOptions): ChoiceElement {
  const { all, value } = settle(options);
  const label = document.createElement("label");
  label.className = "choice";
  label.title = options.label;
  const name = label.appendChild(document.createElement("span"));
  name.className = "unseen";
  name.textContent = options.label;
  const select = label.appendChild(document.createElement("select"));
  for (const option of all) select.add(new Option(option.text, option.value));
  select.value = value;
  select.disabled = all.length === 0;
  label.hidden = all.length === 0;
  return follow(label, options.key, () => select.value);
}

/** A yes or no, as a box to tick: its value is "yes" or "no". */
export function tick({ key, label: text }: Pick<ChoiceOptions, "key" | "label">): ChoiceElement {
  const { value } = settle({ key, label: text, options: ["no", "yes"] });
  const label = document.createElement("label");
  label.className = "tick";
  const box = label.appendChild(document.createElement("input"));
  box.type = "checkbox";
  box.checked = value === "yes";
  label.appendChild(document.createElement("span")).textContent = text;
  return follow(label, key, () => (box.checked ? "yes" : "no"));
}

/** A choice of a few, all of them in sight and large enough for a thumb. */
export function chips(options: ChoiceOptions): ChoiceElement {
  const { all, value } = settle(options);
  const group = document.createElement("fieldset");
  group.className = "chips";
  const legend = group.appendChild(document.createElement("legend"));
  legend.className = "unseen";
  legend.textContent = options.label;
  for (const option of all) {
    const label = group.appendChild(document.createElement("label"));
    const input = label.appendChild(document.createElement("input"));
    input.type = "radio";
    input.name = options.key;
    input.value = option.value;
    input.checked = option.value === value;
    label.appendChild(document.createElement("span")).textContent = option.text;
  }
  return follow(group, options.key, () => group.querySelector<HTMLInputElement>(":checked")?.value ?? "");
}
