/** Figures computed when they are first read: an interval costs time, and not every reader of a view shows them all. */

/**
 * An object each of whose properties is computed when it is first read, and kept.
 * @param figures how each is computed
 * @example lazily({ n: () => 3, twice: () => 6 }) // { n: 3, twice: 6 }
 */
export function lazily<T extends object>(figures: { readonly [K in keyof T]: () => T[K] }): T {
  const made = {} as T;
  for (const name of Object.keys(figures) as (keyof T)[])
    Object.defineProperty(made, name, {
      enumerable: true,
      configurable: true,
      get: () => {
        const value = figures[name]();
        Object.defineProperty(made, name, { enumerable: true, value });
        return value;
      },
    });
  return made;
}
