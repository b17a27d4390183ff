/** The page to send, from the page: the live server makes it. */
import { every } from "./pick.ts";

const served = (import.meta as { hot?: unknown }).hot !== undefined;

/**
 * Links that save one file with a hitter's swings alone, to send. Nothing where no server of ours could make it, or
 * where no one hitter is chosen.
 */
export function sendPage(hitter: string): HTMLElement {
  const said = document.createElement("p");
  said.className = "send";
  if (!served || hitter === every) {
    said.hidden = true;
    return said;
  }
  const link = (text: string, more: Readonly<Record<string, string>> = {}): HTMLElement => {
    const a = document.createElement("a");
    a.href = `send?${new URLSearchParams({ hitter, ...more }).toString()}`;
    a.download = "";
    a.textContent = text;
    return a;
  };
  said.append(
    link("Save a page to send"),
    ", or ",
    link("one with initials", { initials: "yes" }),
    ": one file with these swings alone and nobody else’s name in it. It opens from a mail, a disk or a phone, without a network.",
  );
  return said;
}
