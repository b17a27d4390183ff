/** Many balls at once, column by column. */
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { load } from "./carry.ts";
import { landed, run } from "./kernel.ts";
import { unmeasuredContact } from "./launch.ts";

/** Launches as columns of one length, in the units of `Launch`; a column left out is the same for all. */
export interface LaunchColumns {
  readonly speed: Float64Array;
  readonly launchAngle: Float64Array;
  readonly sprayAngle: Float64Array;
  readonly backspin: Float64Array;
  readonly sidespin: Float64Array;
  /** Contact point, m; `unmeasuredContact` when left out. */
  readonly contactX?: Float64Array;
  readonly contactY?: Float64Array;
  readonly contactZ?: Float64Array;
  /** kg/m³ and m/s; those of the air given when left out. */
  readonly density?: Float64Array;
  readonly windX?: Float64Array;
  readonly windY?: Float64Array;
}

/** Flights as columns, in the units of `Flight`. */
export interface FlightColumns {
  readonly carry: Float64Array;
  readonly hang: Float64Array;
  readonly apex: Float64Array;
  readonly bearing: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * Flies every launch of the columns: what `fly` says of each, without an object a ball.
 * @throws RangeError when the columns differ in length or a number isn't finite, with the row, counted from 0.
 */
export function carryBatch(launches: LaunchColumns, air: Air, ball: Ball): FlightColumns {
  const n = launches.speed.length;
  for (const [name, column] of Object.entries(launches)) {
    if (column !== undefined && column.length !== n) {
      throw new RangeError(`column ${name} has ${column.length} rows where speed has ${n}`);
    }
  }
  const { contactX, contactY, contactZ, density, windX, windY } = launches;
  const contact: [number, number, number] = [...unmeasuredContact];
  const wind: [number, number] = [...air.wind];
  const here: { -readonly [K in keyof Air]: Air[K] } = { ...air, wind };
  const launch = { speed: 0, launchAngle: 0, sprayAngle: 0, backspin: 0, sidespin: 0, contact };
  const flights: FlightColumns = {
    carry: new Float64Array(n),
    hang: new Float64Array(n),
    apex: new Float64Array(n),
    bearing: new Float64Array(n),
    x: new Float64Array(n),
    y: new Float64Array(n),
  };
  for (let i = 0; i < n; i++) {
    launch.speed = launches.speed[i]!;
    launch.launchAngle = launches.launchAngle[i]!;
    launch.sprayAngle = launches.sprayAngle[i]!;
    launch.backspin = launches.backspin[i]!;
    launch.sidespin = launches.sidespin[i]!;
    if (contactX !== undefined) contact[0] = contactX[i]!;
    if (contactY !== undefined) contact[1] = contactY[i]!;
    if (contactZ !== undefined) contact[2] = contactZ[i]!;
    if (density !== undefined) here.density = density[i]!;
    if (windX !== undefined) wind[0] = windX[i]!;
    if (windY !== undefined) wind[1] = windY[i]!;
    try {
      load(launch, here, ball);
    } catch (error) {
      throw new RangeError(`row ${i}: ${(error as Error).message}`);
    }
    run();
    const x = landed[0]!;
    const y = landed[1]!;
    flights.carry[i] = Math.sqrt(x * x + y * y);
    flights.hang[i] = landed[2]!;
    flights.apex[i] = landed[3]!;
    flights.bearing[i] = Math.atan2(x, y);
    flights.x[i] = x;
    flights.y[i] = y;
  }
  return flights;
}
