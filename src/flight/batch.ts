/** Many balls at once, column by column. */
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { give } from "./carry.ts";
import { run } from "./kernel.ts";
import * as room from "./room.ts";
import { unmeasuredContact } from "./launch.ts";

const { aim, landed } = room;

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
  const {
    speed,
    launchAngle,
    sprayAngle,
    backspin,
    sidespin,
    contactX,
    contactY,
    contactZ,
    density,
    windX,
    windY,
  } = launches;
  const flights: FlightColumns = {
    carry: new Float64Array(n),
    hang: new Float64Array(n),
    apex: new Float64Array(n),
    bearing: new Float64Array(n),
    x: new Float64Array(n),
    y: new Float64Array(n),
  };
  const put = (i: number): void => {
    aim[0] = speed[i]!;
    aim[1] = launchAngle[i]!;
    aim[2] = sprayAngle[i]!;
    aim[3] = backspin[i]!;
    aim[4] = sidespin[i]!;
    aim[5] = contactX === undefined ? unmeasuredContact[0] : contactX[i]!;
    aim[6] = contactY === undefined ? unmeasuredContact[1] : contactY[i]!;
    aim[7] = contactZ === undefined ? unmeasuredContact[2] : contactZ[i]!;
    aim[8] = density === undefined ? air.density : density[i]!;
    aim[9] = windX === undefined ? air.wind[0] : windX[i]!;
    aim[10] = windY === undefined ? air.wind[1] : windY[i]!;
    try {
      give(ball);
    } catch (error) {
      throw new RangeError(`row ${i}: ${(error as Error).message}`);
    }
  };
  for (let i = 0; i < n; i++) {
    put(i);
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
