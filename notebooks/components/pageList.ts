/** The pages, with who opens each and what it answers. */
import { pages } from "../pages.ts";

/** A list of links; the choices of this page go with them. */
export function pageList(): HTMLElement {
  const list = document.createElement("ul");
  list.className = "pages";
  for (const { file, name, reader, question } of pages.slice(1)) {
    const item = list.appendChild(document.createElement("li"));
    const link = item.appendChild(document.createElement("a"));
    link.href = `./${file}${location.hash}`;
    link.textContent = name;
    item.append(`: ${question} (${reader})`);
  }
  return list;
}
