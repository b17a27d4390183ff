/** What came of a contact: category, ceiling, power kept and bucket, the collision, the fence, and `enrich`. */
export * from "./bucket.ts";
export * from "./category.ts";
export * from "./ceiling.ts";
export * from "./collision.ts";
export * from "./enrich.ts";
export * from "./fence.ts";
export * from "./flags.ts";
export * from "./landing.ts";
export * from "./levels.ts";
export * from "./misreads.ts";
export * from "./oneBall.ts";
export * from "./shape.ts";
export * from "./spinBasis.ts";
export * from "./surface.ts";
export * from "./tapped.ts";
export * from "./thresholds.ts";
export * from "./whatIf.ts";
