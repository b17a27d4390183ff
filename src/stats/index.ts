/** Statistics with their uncertainty: estimates and differences over days, shares, pooling, reliability, splitting. */
export * from "./beta.ts";
export * from "./bootstrap.ts";
export * from "./dayChange.ts";
export * from "./days.ts";
export * from "./difference.ts";
export * from "./estimate.ts";
export * from "./holm.ts";
export * from "./mixture.ts";
export * from "./normal.ts";
export * from "./random.ts";
export * from "./randomEffects.ts";
export * from "./ranks.ts";
export * from "./reliability.ts";
export * from "./share.ts";
export * from "./slope.ts";
export * from "./split.ts";
export * from "./twoStage.ts";
