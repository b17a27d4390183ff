/** How much of a report is wanted. */

/** One sentence and a picture; one page; everything. */
export const reportSizes = ["sentence", "page", "everything"] as const;
export type ReportSize = (typeof reportSizes)[number];
