/** What each page shows for the first hitter of the demo: a new page gets its line here, and the tests of all pages read it. */

/** What a page is made of. */
interface Shown {
  readonly charts: number;
  /** Its first screen: a sentence, figures, one picture; null where it has none. */
  readonly sentence: string;
  readonly figures: string | null;
  readonly picture: string | null;
}

const sentence = ".first .answer";
const figures = ".first .figures";

export const shown: Readonly<Record<string, Shown>> = {
  // A badge for each of the 25 sessions: the latest of them stand on the first screen.
  "index.html": { charts: 25, sentence, figures, picture: ".first .picture table" },
  // Before a file is chosen there is where to choose it.
  "bring-a-file.html": { charts: 0, sentence: ".drop", figures: null, picture: null },
  "in-the-cage.html": {
    charts: 1,
    sentence: ".cage-where",
    figures: ".cage-tally",
    picture: ".batted-last-flight",
  },
  "drill-report.html": { charts: 4, sentence, figures, picture: ".first .batted-spray-chart" },
  "group.html": { charts: 1, sentence, figures, picture: ".first .batted-group-panels" },
  "spray-chart.html": { charts: 2, sentence, figures, picture: ".first .batted-spray-chart" },
  "progress.html": { charts: 3, sentence, figures, picture: ".first .batted-season-trends" },
  "tee-vs-live.html": { charts: 15, sentence, figures, picture: ".first .batted-waterfall" },
  "live-rounds.html": { charts: 1, sentence, figures, picture: ".first .batted-pair-grid" },
  "on-a-field.html": { charts: 1, sentence, figures, picture: ".first .batted-field-chances" },
  "season.html": { charts: 2, sentence, figures, picture: ".first .batted-season-trends" },
  "carry-lab.html": { charts: 2, sentence, figures, picture: ".first .batted-flight-side" },
  // Four, and a badge for each of the 25 sessions.
  "setup-check.html": { charts: 29, sentence, figures, picture: ".first .batted-drift-shifts" },
};
