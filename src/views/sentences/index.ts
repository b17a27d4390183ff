/**
 * Every sentence that the kit says about data, by what it speaks of. Pages, reports and commands take them from here;
 * `tests/views/sentences.test.ts` goes through them at their edges, and fails when one is added that it doesn't know.
 */
export * as ball from "./ball.ts";
export * as carry from "./carry.ts";
export * as changes from "./changes.ts";
export * as days from "./days.ts";
export * as filter from "./filter.ts";
export * as field from "./field.ts";
export * as gap from "./gap.ts";
export * as group from "./group.ts";
export * as marked from "./marked.ts";
export * as month from "./month.ts";
export * as needs from "./needs.ts";
export * as opening from "./opening.ts";
export * as progress from "./progress.ts";
export * as readings from "./readings.ts";
export * as report from "./report.ts";
export * as round from "./round.ts";
export * as rounds from "./rounds.ts";
export * as season from "./season.ts";
export * as setup from "./setup.ts";
export * as stabilizes from "./stabilizes.ts";
export * as stations from "./stations.ts";
export * as timing from "./timing.ts";
export * as titles from "./titles.ts";
export * as trial from "./trial.ts";
