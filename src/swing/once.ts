/**
 * A value that is made when it is first asked for, and kept: tables that most commands never look into cost nothing then.
 * @example once(() => Math.sqrt(9))() // 3
 */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}
