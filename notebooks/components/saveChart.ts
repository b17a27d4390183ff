/** A chart saved from its page: as it stands, with the page's colours and letters, as SVG or PNG. */
import { chartKind, standAlone } from "../../src/charts/standalone.ts";

/** px of a picture to a px of the drawing: fine enough for a printed page. */
const zoom = 3;

/** A file's bytes as an address that stands in a text. */
const asData = (blob: Blob): Promise<string> =>
  new Promise((done, fail) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result as string);
    reader.onerror = () => fail(reader.error);
    reader.readAsDataURL(blob);
  });

/** The page's letters that a drawing names, with their bytes: a picture of a drawing sees nothing of the page. */
async function faces(markup: string): Promise<string> {
  const rules = [...document.styleSheets].flatMap((sheet) => {
    try {
      return [...sheet.cssRules].map((rule) => ({ rule, base: sheet.href ?? document.baseURI }));
    } catch {
      return [];
    }
  });
  const wanted = rules.filter(({ rule }) => {
    if (!(rule instanceof CSSFontFaceRule)) return false;
    const family = rule.style.getPropertyValue("font-family").replace(/["']/g, "");
    // Letters beyond Latin are many, and most drawings have none.
    const range = rule.style.getPropertyValue("unicode-range");
    return markup.includes(family) && (range === "" || /^U\+0+-/i.test(range));
  });
  const texts = wanted.map(async ({ rule, base }) => {
    const text = rule.cssText;
    const address = /url\("?([^")]+)"?\)/.exec(text)?.[1];
    if (address === undefined || address.startsWith("data:")) return text;
    const response = await fetch(new URL(address, base));
    return text.replace(/src:[^;]*;/, `src: url(${await asData(await response.blob())});`);
  });
  return (await Promise.all(texts.map((text) => text.catch(() => "")))).join("\n");
}

function save(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A file's name that is safe everywhere: whose, which page, which chart. */
function fileName(markup: string, ending: string): string {
  const parts = [
    new URLSearchParams(location.hash.slice(1)).get("hitter") ?? "",
    document.querySelector("header [aria-current=page]")?.textContent ?? "",
    chartKind(markup),
  ];
  const plain = parts.map((part) =>
    part
      .normalize("NFKD")
      .replace(/[^\p{L}\p{N}]+/gu, "-")
      .replace(/^-+|-+$/g, "")
      .toLowerCase(),
  );
  return `${plain.filter((part) => part !== "").join("-")}.${ending}`;
}

/** Whether the page is dark now. */
const isDark = (): boolean => {
  const { theme } = document.documentElement.dataset;
  return theme === "dark" || (theme === undefined && matchMedia("(prefers-color-scheme: dark)").matches);
};

async function picture(drawing: string, { width, height }: DOMRect): Promise<Blob> {
  const letters = await faces(drawing);
  const lettered = drawing.replace(/^<svg[^>]*>/, (open) => `${open}<style>${letters}</style>`);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(lettered)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [Math.ceil(width * zoom), Math.ceil(height * zoom)];
  canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done, fail) =>
    canvas.toBlob((blob) => (blob === null ? fail(new Error("no picture")) : done(blob)), "image/png"),
  );
}

/** Saves the chart that stands in a figure. */
export async function saveChart(svg: SVGElement, as: "svg" | "png"): Promise<void> {
  // A tip that stands open, the ring about a ball and a marked part are none of the chart.
  const copy = svg.cloneNode(true) as SVGElement;
  for (const part of copy.querySelectorAll('[aria-label="tip"], .picked, .brush-layer')) part.remove();
  const markup = copy.outerHTML;
  const drawing = standAlone(markup, isDark() ? "dark" : "light");
  const blob =
    as === "svg"
      ? new Blob([`${drawing}\n`], { type: "image/svg+xml" })
      : await picture(drawing, svg.getBoundingClientRect());
  save(fileName(markup, as), blob);
}
