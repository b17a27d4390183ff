/** Shares of several members, pooled with their group on the scale of log odds. */
import { pooled, type Pooled } from "./randomEffects.ts";
import { share, type Share } from "./share.ts";

/** A share's log odds, and how uncertain they are. */
export interface LogOdds {
  readonly value: number;
  readonly variance: number;
}

/**
 * The log odds of a share, each count half a swing larger so that none and all have some, and their variance; widened
 * by as much as the share's own interval is wider than Wilson's, which is what its days add.
 * Source: Haldane, Ann. Hum. Genet. 20, 1956, 309; Anscombe, Biometrika 43, 1956, 461.
 * @returns null where there is nothing to take a share of
 * @example logOdds({ count: 5, n: 10, share: 0.5, low: 0.237, high: 0.763 }).value // 0
 * @example logOdds({ count: 0, n: 0, share: null, low: null, high: null }) // null
 */
export function logOdds(of: Share): LogOdds | null {
  const { count, n, low, high } = of;
  const odds = oddsOf(count, n);
  if (odds === null || low === null || high === null) return null;
  const swingsAlone = share(count, n);
  const wider = Math.max(1, (high - low) / (swingsAlone.high! - swingsAlone.low!));
  return { ...odds, variance: odds.variance * wider ** 2 };
}

/**
 * The log odds of a count by its swings alone.
 * @returns null where there is nothing to take a share of
 * @example oddsOf(5, 10) // { value: 0, variance: 0.364 }
 * @example oddsOf(0, 0) // null
 */
export function oddsOf(count: number, n: number): LogOdds | null {
  if (n === 0) return null;
  const [a, b] = [count + 0.5, n - count + 0.5];
  return { value: Math.log(a / b), variance: 1 / a + 1 / b };
}

/**
 * The share whose log odds are these.
 * @example shareAt(0) // 0.5
 */
export const shareAt = (odds: number): number => 1 / (1 + Math.exp(-odds));

/** Shares pooled: each member's, null where it has none, and the group's mean. */
export interface PooledShares {
  readonly members: readonly (Pick<Pooled, "value" | "low" | "high" | "own"> | null)[];
  readonly mean: { readonly value: number; readonly low: number; readonly high: number };
}

/**
 * Each share pooled with its group as `pooled` does, on log odds, and told as a share again.
 * @returns null for fewer than two members with a share
 * @example pooledShares([{ count: 5, n: 10, share: 0.5, low: 0.2, high: 0.8 }]) // null
 */
export function pooledShares(shares: readonly Share[]): PooledShares | null {
  const odds = shares.map(logOdds);
  const known = odds.filter((o): o is LogOdds => o !== null);
  const found = pooled(
    known.map(({ value }) => value),
    known.map(({ variance }) => variance),
  );
  if (found === null) return null;
  const told = <T extends { value: number; low: number; high: number }>(of: T): T => ({
    ...of,
    value: shareAt(of.value),
    low: shareAt(of.low),
    high: shareAt(of.high),
  });
  const members = found.members.map(told);
  let next = 0;
  return { members: odds.map((o) => (o === null ? null : members[next++]!)), mean: told(found.mean) };
}
