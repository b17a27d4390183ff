/** The pages, in the order of the navigation: their file, their name there, and for whom they are. */
export interface Page {
  readonly file: string;
  readonly name: string;
  /** Who opens it, and the question it answers. */
  readonly reader: string;
  readonly question: string;
  /** Whether a hitter is chosen on it, from the list called "Hitter". */
  readonly hitter?: true;
}

export const pages: readonly Page[] = [
  { file: "index.html", name: "Start", reader: "everybody", question: "What is here, and what was loaded?" },
  {
    file: "bring-a-file.html",
    name: "Bring a file",
    reader: "coach",
    question: "How do a tracker's rows get in here, and what is wrong with them?",
  },
  {
    file: "in-the-cage.html",
    name: "In the cage",
    reader: "hitter and coach, from five metres",
    question: "What was the last ball, and how does the round stand?",
  },
  {
    file: "drill-report.html",
    name: "Drill report",
    reader: "hitting coach",
    question: "What did this hitter do, against the drill's target, and what do we work on next?",
    hitter: true,
  },
  {
    file: "group.html",
    name: "Group",
    reader: "coach",
    question: "Who did what this week, and who needs what next?",
  },
  {
    file: "spray-chart.html",
    name: "Spray chart",
    reader: "player",
    question: "Where do I hit it, how far, how well?",
    hitter: true,
  },
  {
    file: "progress.html",
    name: "Progress",
    reader: "coach, player, parent",
    question: "Is anything changing, beyond days and weather?",
    hitter: true,
  },
  {
    file: "tee-vs-live.html",
    name: "Tee, flip and live",
    reader: "analyst",
    question: "How much of the tee work shows up against live pitching?",
    hitter: true,
  },
  {
    file: "live-rounds.html",
    name: "Live rounds",
    reader: "coach, hitter, pitcher",
    question: "Who is hard on whom, beyond how good each of them is?",
    hitter: true,
  },
  {
    file: "on-a-field.html",
    name: "On a field",
    reader: "player, coach",
    question: "What would these balls have been, against a defence?",
    hitter: true,
  },
  {
    file: "season.html",
    name: "A season",
    reader: "coach, analyst",
    question: "What did this season come to, and what may be said of it?",
    hitter: true,
  },
  {
    file: "carry-lab.html",
    name: "Carry lab",
    reader: "everybody",
    question: "How far would this ball go, how sure is that, and what changes it?",
  },
  {
    file: "setup-check.html",
    name: "Setup check",
    reader: "whoever set the tracker up",
    question: "Can I trust today's numbers?",
  },
];
