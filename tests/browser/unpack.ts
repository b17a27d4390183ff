/** Before the first worker starts, the npm package's Chromium is unpacked if the browser tests are to use it. */
import { unpackBundled, wishedChromium } from "./chromium.ts";

export function setup(): void {
  if (wishedChromium() === null) unpackBundled();
}
