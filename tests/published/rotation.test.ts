/**
 * The tracker's turn against Rodrigues' formula as printed, against a reference library (gl-matrix: quaternions,
 * another way to the same rotation) and against angles worked out by hand.
 */
import fc from "fast-check";
import { mat3, quat, vec3 } from "gl-matrix";
import { describe, expect, it } from "vitest";
import { readFrom, straight, turnedReading, trueVector } from "../../src/field/tracker.ts";
import { departureOf, turn, unit, velocityOf, type Vector } from "../../src/field/vector.ts";
import { deg } from "../../src/units/index.ts";

const part = fc.double({ min: -100, max: 100, noNaN: true });
const vector = fc.tuple(part, part, part);
const axis = vector.filter(([x, y, z]) => Math.hypot(x, y, z) > 1e-3).map((v) => unit(v));
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
const near = (a: Vector, b: ArrayLike<number>, digits = 9): void =>
  a.forEach((value, i) => expect(value).toBeCloseTo(b[i]!, digits));

describe("a turn about an axis", () => {
  it("is Rodrigues' matrix I + sin θ K + (1 − cos θ) K², K the axis' cross product matrix", () => {
    fc.assert(
      fc.property(vector, axis, angle, (v, [x, y, z], theta) => {
        const K = [
          [0, -z, y],
          [z, 0, -x],
          [-y, x, 0],
        ];
        const times = (m: number[][], u: readonly number[]): number[] =>
          m.map((row) => row[0]! * u[0]! + row[1]! * u[1]! + row[2]! * u[2]!);
        const [once, twice] = [times(K, v), times(K, times(K, v))];
        const expected = v.map((c, i) => c + Math.sin(theta) * once[i]! + (1 - Math.cos(theta)) * twice[i]!);
        near(turn(v, [x, y, z], theta), expected);
      }),
    );
  });

  it("is gl-matrix's turn by a quaternion", () => {
    fc.assert(
      fc.property(vector, axis, angle, (v, about, theta) => {
        // gl-matrix computes in single precision unless told otherwise.
        const out = vec3.transformQuat(
          new Float64Array(3) as unknown as vec3,
          v as unknown as vec3,
          quat.setAxisAngle(new Float64Array(4) as unknown as quat, about as unknown as vec3, theta),
        );
        near(turn(v, about, theta), out);
      }),
    );
  });
});

describe("a turned tracker's axes", () => {
  const turns = fc.record({
    yaw_deg: fc.double({ min: -45, max: 45, noNaN: true }),
    tilt_deg: fc.double({ min: -45, max: 45, noNaN: true }),
    roll_deg: fc.double({ min: -45, max: 45, noNaN: true }),
  });

  it("are gl-matrix's, body turned by yaw, then tilt, then roll, and the reading by its inverse", () => {
    fc.assert(
      fc.property(vector, turns, (v, t) => {
        const about = (a: Vector, angle_deg: number): quat =>
          quat.setAxisAngle(new Float64Array(4) as unknown as quat, a as unknown as vec3, angle_deg * deg);
        const q = about([0, 0, 1], t.yaw_deg);
        quat.multiply(q, q, about([1, 0, 0], -t.tilt_deg));
        quat.multiply(q, q, about([0, 1, 0], t.roll_deg));
        const m = mat3.fromQuat(new Float64Array(9) as unknown as mat3, q);
        mat3.transpose(m, m);
        near(
          turnedReading(v, t),
          vec3.transformMat3(new Float64Array(3) as unknown as vec3, v as unknown as vec3, m),
        );
      }),
    );
  });

  it("give back the vector, whose length never changes", () => {
    fc.assert(
      fc.property(vector, turns, (v, t) => {
        near(trueVector(turnedReading(v, t), t), v);
        expect(Math.hypot(...turnedReading(v, t))).toBeCloseTo(Math.hypot(...v), 9);
      }),
    );
  });
});

describe("by hand", () => {
  const read = (launch: number, spray: number, t: Partial<typeof straight>) =>
    departureOf(turnedReading(velocityOf(100, launch, spray), { ...straight, ...t }));

  it("a turn toward right field is added to the spray angle, and leaves the rest alone", () => {
    const seen = read(20, -12, { yaw_deg: 3 });
    expect(seen.sprayAngle_deg).toBeCloseTo(-9, 9);
    expect(seen.launchAngle_deg).toBeCloseTo(20, 9);
    expect(seen.speed).toBeCloseTo(100, 9);
  });

  it("a tilt is added to the launch angle of a ball to dead center, whole", () => {
    expect(read(20, 0, { tilt_deg: 1.5 }).launchAngle_deg).toBeCloseTo(21.5, 9);
  });

  it("a tilt of 10° makes a level ball hit 30° off read asin(cos 30° sin 10°) = 8.65°, not 10°", () => {
    // cos 30° = 0.866025, sin 10° = 0.173648; their product 0.150384, whose arcsine is 8.6492°.
    expect(read(0, 30, { tilt_deg: 10 }).launchAngle_deg).toBeCloseTo(8.6492, 3);
    // Its spray: tan = sin 30° ÷ (cos 30° cos 10°) = 0.5 ÷ 0.852869 = 0.586257, 30.3816°.
    expect(read(0, 30, { tilt_deg: 10 }).sprayAngle_deg).toBeCloseTo(30.3816, 3);
  });

  it("a lean of 2° toward first base lifts a level ball down the right line by asin(sin 45° sin 2°) = 1.414°", () => {
    // sin 45° sin 2° = 0.707107 × 0.0348995 = 0.0246777; arcsine 1.41407°.
    expect(read(0, 45, { roll_deg: 2 }).launchAngle_deg).toBeCloseTo(1.41407, 4);
    expect(read(0, -45, { roll_deg: 2 }).launchAngle_deg).toBeCloseTo(-1.41407, 4);
  });

  it("3° seen from 16.75 ft past the point of contact moves the contact point by 0.876 ft", () => {
    // The tracker is 18.4167 ft from the rear point; contact 1.6667 ft forward is 16.75 ft from it;
    // 16.75 sin 3° = 16.75 × 0.0523360 = 0.87663 ft aside, 16.75 (1 − cos 3°) = 0.02296 ft nearer to the tracker.
    const stand = { distance_ft: 18 + 5 / 12, offset_in: 0 };
    const placement = { ...stand, ...straight, yaw_deg: 3 };
    const { contact } = readFrom({ velocity: [0, 1, 0], contact: [0, 20 / 12, 2.5] }, placement, {
      stand,
      scaled: false,
    });
    expect(contact[0]).toBeCloseTo(-0.87663, 4);
    expect(contact[1]).toBeCloseTo(20 / 12 + 0.02296, 4);
    expect(contact[2]).toBeCloseTo(2.5, 9);
  });
});
