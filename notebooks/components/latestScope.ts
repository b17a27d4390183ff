/** What is made of a library's swings in a scope, the latest one's kept: several questions rest on the same. */
import type { SwingScope } from "../../src/views/filter.ts";
import type { PageLibrary } from "./library.ts";

/** Makes it when a scope, plain values alone, is asked for that isn't the latest. */
export function ofLatestScope<T, Scope extends object = SwingScope>(
  make: (library: PageLibrary, scope: Scope) => T,
): (library: PageLibrary, scope: Scope) => T {
  const latest = new WeakMap<PageLibrary, { readonly asked: string; readonly made: T }>();
  return (library, scope) => {
    const asked = JSON.stringify(scope);
    const known = latest.get(library);
    if (known?.asked === asked) return known.made;
    const made = make(library, scope);
    latest.set(library, { asked, made });
    return made;
  };
}
