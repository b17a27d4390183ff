/**
 * The kit, as far as it needs no disk: what an analyst uses most. The rooms have the rest, each under its own name
 * (`batted-ball-notebooks/stats`, ...).
 */
export { enrichedOf, swingOf } from "./swing/unknown.ts";
export type { EnrichedSwing, Hitter, Input, Session, Swing, Target } from "./swing/fields.ts";
export { collect, scanText, type Reading } from "./reading/read.ts";
export { textFrom } from "./reading/text.ts";
export { airFor, defaultAir, type Air, type SessionAir } from "./flight/air.ts";
export { ballFor, findBall, type Ball } from "./flight/ball.ts";
export { fly, type Flight } from "./flight/carry.ts";
export { launchOf, type Launch, type LaunchFields } from "./flight/launch.ts";
export { carryRange, type CarryRange } from "./flight/range.ts";
export { trajectory, type FlightPoint } from "./flight/trajectory.ts";
export { fieldFor, findField, playingFields, type PlayingField } from "./field/fields.ts";
export { enrich, type EnrichOptions, type EnrichSource } from "./contact/enrich.ts";
export { oneBall, type BallAnswer, type BallGiven, type OneBall } from "./contact/oneBall.ts";
export { shareOf, type Share } from "./stats/share.ts";
export { meanEstimate, quantileEstimate, spreadEstimate, type Estimate } from "./stats/estimate.ts";
export { meanDifference, medianDifference, shareDifference, type Difference } from "./stats/difference.ts";
export { teeView, type TeeView } from "./views/tee.ts";
export { flipView, type FlipView } from "./views/flip.ts";
export { liveView, type LiveView } from "./views/live.ts";
export { sprayView, type SprayView } from "./views/spray.ts";
export { laneShares, sideShares } from "./views/lanes.ts";
export { gap, measureTable, type GapOptions, type HitterGap } from "./gap/gap.ts";
export { makeReady, type GapScope, type GapSource, type Ready } from "./gap/rows.ts";
export { acrossHitters, type Across } from "./gap/across.ts";
export { errorBudget, type Budget } from "./setup/budget.ts";
export { drift, type Drift } from "./setup/drift.ts";
export { trustBySession, type Trust } from "./setup/trust.ts";
export { progress, type HitterProgress, type TrendLine } from "./season/progress.ts";
export * from "./charts/index.ts";
