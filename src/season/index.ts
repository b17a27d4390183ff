/** Days and weeks: what has changed, how many more swings it takes to tell, and a group: who did what, who needs what. */
export * from "./drillWork.ts";
export * from "./evened.ts";
export * from "./group.ts";
export * from "./liveRounds.ts";
export * from "./measures.ts";
export * from "./needs.ts";
export * from "./panels.ts";
export * from "./plan.ts";
export * from "./progress.ts";
export * from "./sessionFigures.ts";
export * from "./stations.ts";
export * from "./swingsNeeded.ts";
export * from "./trial.ts";
export * from "./trialPlan.ts";
export * from "./withinSession.ts";
