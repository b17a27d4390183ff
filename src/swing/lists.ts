/**
 * Lists and steps as long as files are. `list.push(...more)` and `Math.max(...values)` hand every value over on the stack, which
 * ends at some hundred thousand of them; these hand over one after another.
 */

/**
 * Takes steps to their end, in one go.
 * @returns what they come to
 * @example allSteps((function* () { yield; return 7; })()) // 7
 */
export function allSteps<T>(steps: Iterator<unknown, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Adds items to the end of a list, however many there are. */
export function append<T>(list: T[], items: Iterable<T>): void {
  for (const item of items) list.push(item);
}

/**
 * The largest of any number of values.
 * @param least what is returned when no value is larger
 * @example largest([3, 7, 5]) // 7
 * @example largest([], 6) // 6
 */
export function largest(values: Iterable<number>, least = -Infinity): number {
  let found = least;
  for (const value of values) found = Math.max(found, value);
  return found;
}

/**
 * The smallest of any number of values.
 * @param most what is returned when no value is smaller
 * @example smallest([3, 7, 5]) // 3
 */
export function smallest(values: Iterable<number>, most = Infinity): number {
  let found = most;
  for (const value of values) found = Math.min(found, value);
  return found;
}
