/** How much of a report is wanted. */

/** One sentence and a picture; one page; everything; a month in plain words for a parent, on one page. */
export const reportSizes = ["sentence", "page", "everything", "month"] as const;
export type ReportSize = (typeof reportSizes)[number];
