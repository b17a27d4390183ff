/** A day of the calendar, as ISO 8601 writes it. */

const day = /^\d{4}-\d{2}-\d{2}$/;

/**
 * The day of a time in UTC.
 * @param time ms since 1970
 * @example isoOf(Date.UTC(2025, 2, 3)) // "2025-03-03"
 */
export const isoOf = (time: number): string => new Date(time).toISOString().slice(0, 10);

/**
 * Whether a text is a day that the calendar has.
 * @example isDay("2025-02-28") // true
 * @example isDay("2025-02-30") // false
 */
export const isDay = (text: string): boolean => day.test(text) && isoOf(Date.parse(text) || 0) === text;
