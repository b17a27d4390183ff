/**
 * The step of the flight, stage by stage. Written by data/flight-step.ts, which says why: `npm run
 * flight-step` writes it anew.
 */
import * as air from "./air.ts";
import * as coefficients from "./coefficients.ts";
import * as room from "./room.ts";

// Bound anew, as the engine takes a module's own constants for constants, and imported ones not.
const { gravity } = air;
const { liftOffset, spinDecay_s } = coefficients;
const { acceleration, decay, given, here, next, plan } = room;

/** Nothing to divide by but still air itself. */
const tiny = 1e-300;

/** Puts the acceleration at `here`, with all of the spin, into `acceleration`. */
export function start(): void {
  const left = 1;
  const vx = here[4]!;
  const vy = here[5]!;
  const vz = here[6]!;
  const ox = given[6]!;
  const oy = given[7]!;
  const oz = given[8]!;
  const drag = given[9]!;
  const spinDrag = given[10]!;
  const lift = given[11]!;
  const saturation = given[12]!;
  const wx = given[13]!;
  const wy = given[14]!;
  const ux = vx - wx;
  const uy = vy - wy;
  const uu = ux * ux + uy * uy + vz * vz;
  const cx = oy * vz - oz * uy;
  const cy = oz * ux - ox * vz;
  const cz = ox * uy - oy * ux;
  const D = (drag + spinDrag * left) * Math.sqrt(uu);
  const L =
    (lift * left * uu) /
    (liftOffset * uu + saturation * left * Math.sqrt(cx * cx + cy * cy + cz * cz) + tiny);
  const ax = L * cx - D * ux;
  const ay = L * cy - D * uy;
  const az = L * cz - D * vz - gravity;
  acceleration[0] = ax;
  acceleration[1] = ay;
  acceleration[2] = az;
}

/** One step of `plan[0]` seconds, from `here` to `next`. */
export function step(): void {
  const h = plan[0]!;
  const vx0 = here[4]!;
  const vy0 = here[5]!;
  const vz0 = here[6]!;
  const ax0 = acceleration[0]!;
  const ay0 = acceleration[1]!;
  const az0 = acceleration[2]!;
  const ox = given[6]!;
  const oy = given[7]!;
  const oz = given[8]!;
  const drag = given[9]!;
  const spinDrag = given[10]!;
  const lift = given[11]!;
  const saturation = given[12]!;
  const wx = given[13]!;
  const wy = given[14]!;
  // exp by its series, even and odd terms apart: the exponents are under 0.05 even for the longest step.
  const q = h * (0.5 / spinDecay_s);
  const qq = q * q;
  const half = 1 - q * (1 + qq * (1 / 6 + qq * (1 / 120))) + qq * (1 / 2 + qq * (1 / 24));
  const i = q * 0.6546536707079771;
  const ii = i * i;
  const even = 1 + ii * (1 / 2 + ii * (1 / 24));
  const odd = i * (1 + ii * (1 / 6 + ii * (1 / 120)));
  const left2 = decay[0]! * half;
  const left1 = left2 * (even + odd);
  const left3 = left2 * (even - odd);
  const left4 = left2 * half;
  decay[1] = left2;
  decay[2] = left4;
  const vx1 = vx0 + h * (0.5 * ax0);
  const vy1 = vy0 + h * (0.5 * ay0);
  const vz1 = vz0 + h * (0.5 * az0);
  const ux1 = vx1 - wx;
  const uy1 = vy1 - wy;
  const uu1 = ux1 * ux1 + uy1 * uy1 + vz1 * vz1;
  const cx1 = oy * vz1 - oz * uy1;
  const cy1 = oz * ux1 - ox * vz1;
  const cz1 = ox * uy1 - oy * ux1;
  const D1 = (drag + spinDrag * left2) * Math.sqrt(uu1);
  const L1 =
    (lift * left2 * uu1) /
    (liftOffset * uu1 + saturation * left2 * Math.sqrt(cx1 * cx1 + cy1 * cy1 + cz1 * cz1) + tiny);
  const ax1 = L1 * cx1 - D1 * ux1;
  const ay1 = L1 * cy1 - D1 * uy1;
  const az1 = L1 * cz1 - D1 * vz1 - gravity;
  const vx2 = vx0 + h * (0.25 * ax0 + 0.25 * ax1);
  const vy2 = vy0 + h * (0.25 * ay0 + 0.25 * ay1);
  const vz2 = vz0 + h * (0.25 * az0 + 0.25 * az1);
  const ux2 = vx2 - wx;
  const uy2 = vy2 - wy;
  const uu2 = ux2 * ux2 + uy2 * uy2 + vz2 * vz2;
  const cx2 = oy * vz2 - oz * uy2;
  const cy2 = oz * ux2 - ox * vz2;
  const cz2 = ox * uy2 - oy * ux2;
  const D2 = (drag + spinDrag * left2) * Math.sqrt(uu2);
  const L2 =
    (lift * left2 * uu2) /
    (liftOffset * uu2 + saturation * left2 * Math.sqrt(cx2 * cx2 + cy2 * cy2 + cz2 * cz2) + tiny);
  const ax2 = L2 * cx2 - D2 * ux2;
  const ay2 = L2 * cy2 - D2 * uy2;
  const az2 = L2 * cz2 - D2 * vz2 - gravity;
  const vx3 = vx0 + h * (0.14285714285714285 * ax0 - 0.2117115008659951 * ax1 + 0.8961811933628407 * ax2);
  const vy3 = vy0 + h * (0.14285714285714285 * ay0 - 0.2117115008659951 * ay1 + 0.8961811933628407 * ay2);
  const vz3 = vz0 + h * (0.14285714285714285 * az0 - 0.2117115008659951 * az1 + 0.8961811933628407 * az2);
  const ux3 = vx3 - wx;
  const uy3 = vy3 - wy;
  const uu3 = ux3 * ux3 + uy3 * uy3 + vz3 * vz3;
  const cx3 = oy * vz3 - oz * uy3;
  const cy3 = oz * ux3 - ox * vz3;
  const cz3 = ox * uy3 - oy * ux3;
  const D3 = (drag + spinDrag * left3) * Math.sqrt(uu3);
  const L3 =
    (lift * left3 * uu3) /
    (liftOffset * uu3 + saturation * left3 * Math.sqrt(cx3 * cx3 + cy3 * cy3 + cz3 * cz3) + tiny);
  const ax3 = L3 * cx3 - D3 * ux3;
  const ay3 = L3 * cy3 - D3 * uy3;
  const az3 = L3 * cz3 - D3 * vz3 - gravity;
  const vx4 = vx0 + h * (0.18550685351137902 * ax0 + 0.5766714726956088 * ax2 + 0.06514850914700064 * ax3);
  const vy4 = vy0 + h * (0.18550685351137902 * ay0 + 0.5766714726956088 * ay2 + 0.06514850914700064 * ay3);
  const vz4 = vz0 + h * (0.18550685351137902 * az0 + 0.5766714726956088 * az2 + 0.06514850914700064 * az3);
  const ux4 = vx4 - wx;
  const uy4 = vy4 - wy;
  const uu4 = ux4 * ux4 + uy4 * uy4 + vz4 * vz4;
  const cx4 = oy * vz4 - oz * uy4;
  const cy4 = oz * ux4 - ox * vz4;
  const cz4 = ox * uy4 - oy * ux4;
  const D4 = (drag + spinDrag * left3) * Math.sqrt(uu4);
  const L4 =
    (lift * left3 * uu4) /
    (liftOffset * uu4 + saturation * left3 * Math.sqrt(cx4 * cx4 + cy4 * cy4 + cz4 * cz4) + tiny);
  const ax4 = L4 * cx4 - D4 * ux4;
  const ay4 = L4 * cy4 - D4 * uy4;
  const az4 = L4 * cz4 - D4 * vz4 - gravity;
  const vx5 =
    vx0 +
    h *
      (0.1996369936449133 * ax0 +
        0.37729376930432884 * ax2 -
        0.46345538964060623 * ax3 +
        0.38652462669136406 * ax4);
  const vy5 =
    vy0 +
    h *
      (0.1996369936449133 * ay0 +
        0.37729376930432884 * ay2 -
        0.46345538964060623 * ay3 +
        0.38652462669136406 * ay4);
  const vz5 =
    vz0 +
    h *
      (0.1996369936449133 * az0 +
        0.37729376930432884 * az2 -
        0.46345538964060623 * az3 +
        0.38652462669136406 * az4);
  const ux5 = vx5 - wx;
  const uy5 = vy5 - wy;
  const uu5 = ux5 * ux5 + uy5 * uy5 + vz5 * vz5;
  const cx5 = oy * vz5 - oz * uy5;
  const cy5 = oz * ux5 - ox * vz5;
  const cz5 = ox * uy5 - oy * ux5;
  const D5 = (drag + spinDrag * left2) * Math.sqrt(uu5);
  const L5 =
    (lift * left2 * uu5) /
    (liftOffset * uu5 + saturation * left2 * Math.sqrt(cx5 * cx5 + cy5 * cy5 + cz5 * cz5) + tiny);
  const ax5 = L5 * cx5 - D5 * ux5;
  const ay5 = L5 * cy5 - D5 * uy5;
  const az5 = L5 * cz5 - D5 * vz5 - gravity;
  const vx6 =
    vx0 +
    h *
      (0.1289862929772419 * ax0 -
        0.03302551131448491 * ax2 -
        0.3497052863177424 * ax3 +
        0.32851721314173604 * ax4 +
        0.09790045615925952 * ax5);
  const vy6 =
    vy0 +
    h *
      (0.1289862929772419 * ay0 -
        0.03302551131448491 * ay2 -
        0.3497052863177424 * ay3 +
        0.32851721314173604 * ay4 +
        0.09790045615925952 * ay5);
  const vz6 =
    vz0 +
    h *
      (0.1289862929772419 * az0 -
        0.03302551131448491 * az2 -
        0.3497052863177424 * az3 +
        0.32851721314173604 * az4 +
        0.09790045615925952 * az5);
  const ux6 = vx6 - wx;
  const uy6 = vy6 - wy;
  const uu6 = ux6 * ux6 + uy6 * uy6 + vz6 * vz6;
  const cx6 = oy * vz6 - oz * uy6;
  const cy6 = oz * ux6 - ox * vz6;
  const cz6 = ox * uy6 - oy * ux6;
  const D6 = (drag + spinDrag * left1) * Math.sqrt(uu6);
  const L6 =
    (lift * left1 * uu6) /
    (liftOffset * uu6 + saturation * left1 * Math.sqrt(cx6 * cx6 + cy6 * cy6 + cz6 * cz6) + tiny);
  const ax6 = L6 * cx6 - D6 * ux6;
  const ay6 = L6 * cy6 - D6 * uy6;
  const az6 = L6 * cz6 - D6 * vz6 - gravity;
  const vx7 =
    vx0 +
    h *
      (0.07142857142857142 * ax0 +
        0.0020021659931149178 * ax4 -
        0.011868683886786038 * ax5 +
        0.1111111111111111 * ax6);
  const vy7 =
    vy0 +
    h *
      (0.07142857142857142 * ay0 +
        0.0020021659931149178 * ay4 -
        0.011868683886786038 * ay5 +
        0.1111111111111111 * ay6);
  const vz7 =
    vz0 +
    h *
      (0.07142857142857142 * az0 +
        0.0020021659931149178 * az4 -
        0.011868683886786038 * az5 +
        0.1111111111111111 * az6);
  const ux7 = vx7 - wx;
  const uy7 = vy7 - wy;
  const uu7 = ux7 * ux7 + uy7 * uy7 + vz7 * vz7;
  const cx7 = oy * vz7 - oz * uy7;
  const cy7 = oz * ux7 - ox * vz7;
  const cz7 = ox * uy7 - oy * ux7;
  const D7 = (drag + spinDrag * left1) * Math.sqrt(uu7);
  const L7 =
    (lift * left1 * uu7) /
    (liftOffset * uu7 + saturation * left1 * Math.sqrt(cx7 * cx7 + cy7 * cy7 + cz7 * cz7) + tiny);
  const ax7 = L7 * cx7 - D7 * ux7;
  const ay7 = L7 * cy7 - D7 * uy7;
  const az7 = L7 * cz7 - D7 * vz7 - gravity;
  const vx8 =
    vx0 +
    h *
      (0.03125 * ax0 -
        0.00908696110082056 * ax4 +
        0.1527777777777778 * ax5 -
        0.6325461606959097 * ax6 +
        0.9576053440189525 * ax7);
  const vy8 =
    vy0 +
    h *
      (0.03125 * ay0 -
        0.00908696110082056 * ay4 +
        0.1527777777777778 * ay5 -
        0.6325461606959097 * ay6 +
        0.9576053440189525 * ay7);
  const vz8 =
    vz0 +
    h *
      (0.03125 * az0 -
        0.00908696110082056 * az4 +
        0.1527777777777778 * az5 -
        0.6325461606959097 * az6 +
        0.9576053440189525 * az7);
  const ux8 = vx8 - wx;
  const uy8 = vy8 - wy;
  const uu8 = ux8 * ux8 + uy8 * uy8 + vz8 * vz8;
  const cx8 = oy * vz8 - oz * uy8;
  const cy8 = oz * ux8 - ox * vz8;
  const cz8 = ox * uy8 - oy * ux8;
  const D8 = (drag + spinDrag * left2) * Math.sqrt(uu8);
  const L8 =
    (lift * left2 * uu8) /
    (liftOffset * uu8 + saturation * left2 * Math.sqrt(cx8 * cx8 + cy8 * cy8 + cz8 * cz8) + tiny);
  const ax8 = L8 * cx8 - D8 * ux8;
  const ay8 = L8 * cy8 - D8 * uy8;
  const az8 = L8 * cz8 - D8 * vz8 - gravity;
  const vx9 =
    vx0 +
    h *
      (0.07142857142857142 * ax0 +
        0.1111111111111111 * ax4 -
        0.6379313501852646 * ax5 +
        2.031083139166862 * ax6 -
        1.8108630829377543 * ax7 +
        1.0624984467704632 * ax8);
  const vy9 =
    vy0 +
    h *
      (0.07142857142857142 * ay0 +
        0.1111111111111111 * ay4 -
        0.6379313501852646 * ay5 +
        2.031083139166862 * ay6 -
        1.8108630829377543 * ay7 +
        1.0624984467704632 * ay8);
  const vz9 =
    vz0 +
    h *
      (0.07142857142857142 * az0 +
        0.1111111111111111 * az4 -
        0.6379313501852646 * az5 +
        2.031083139166862 * az6 -
        1.8108630829377543 * az7 +
        1.0624984467704632 * az8);
  const ux9 = vx9 - wx;
  const uy9 = vy9 - wy;
  const uu9 = ux9 * ux9 + uy9 * uy9 + vz9 * vz9;
  const cx9 = oy * vz9 - oz * uy9;
  const cy9 = oz * ux9 - ox * vz9;
  const cz9 = ox * uy9 - oy * ux9;
  const D9 = (drag + spinDrag * left3) * Math.sqrt(uu9);
  const L9 =
    (lift * left3 * uu9) /
    (liftOffset * uu9 + saturation * left3 * Math.sqrt(cx9 * cx9 + cy9 * cy9 + cz9 * cz9) + tiny);
  const ax9 = L9 * cx9 - D9 * ux9;
  const ay9 = L9 * cy9 - D9 * uy9;
  const az9 = L9 * cz9 - D9 * vz9 - gravity;
  const vx10 =
    vx0 +
    h *
      (-0.5512205630727292 * ax4 +
        2.4513804324169666 * ax5 -
        7.164951553231382 * ax6 +
        7.553840442120271 * ax7 -
        2.2291582101947447 * ax8 +
        0.940109451961618 * ax9);
  const vy10 =
    vy0 +
    h *
      (-0.5512205630727292 * ay4 +
        2.4513804324169666 * ay5 -
        7.164951553231382 * ay6 +
        7.553840442120271 * ay7 -
        2.2291582101947447 * ay8 +
        0.940109451961618 * ay9);
  const vz10 =
    vz0 +
    h *
      (-0.5512205630727292 * az4 +
        2.4513804324169666 * az5 -
        7.164951553231382 * az6 +
        7.553840442120271 * az7 -
        2.2291582101947447 * az8 +
        0.940109451961618 * az9);
  const ux10 = vx10 - wx;
  const uy10 = vy10 - wy;
  const uu10 = ux10 * ux10 + uy10 * uy10 + vz10 * vz10;
  const cx10 = oy * vz10 - oz * uy10;
  const cy10 = oz * ux10 - ox * vz10;
  const cz10 = ox * uy10 - oy * ux10;
  const D10 = (drag + spinDrag * left4) * Math.sqrt(uu10);
  const L10 =
    (lift * left4 * uu10) /
    (liftOffset * uu10 + saturation * left4 * Math.sqrt(cx10 * cx10 + cy10 * cy10 + cz10 * cz10) + tiny);
  const ax10 = L10 * cx10 - D10 * ux10;
  const ay10 = L10 * cy10 - D10 * uy10;
  const az10 = L10 * cz10 - D10 * vz10 - gravity;
  const vx11 =
    vx0 +
    h *
      (0.05 * ax0 +
        0.2722222222222222 * ax7 +
        0.35555555555555557 * ax8 +
        0.2722222222222222 * ax9 +
        0.05 * ax10);
  const vy11 =
    vy0 +
    h *
      (0.05 * ay0 +
        0.2722222222222222 * ay7 +
        0.35555555555555557 * ay8 +
        0.2722222222222222 * ay9 +
        0.05 * ay10);
  const vz11 =
    vz0 +
    h *
      (0.05 * az0 +
        0.2722222222222222 * az7 +
        0.35555555555555557 * az8 +
        0.2722222222222222 * az9 +
        0.05 * az10);
  const ux11 = vx11 - wx;
  const uy11 = vy11 - wy;
  const uu11 = ux11 * ux11 + uy11 * uy11 + vz11 * vz11;
  const cx11 = oy * vz11 - oz * uy11;
  const cy11 = oz * ux11 - ox * vz11;
  const cz11 = ox * uy11 - oy * ux11;
  const D11 = (drag + spinDrag * left4) * Math.sqrt(uu11);
  const L11 =
    (lift * left4 * uu11) /
    (liftOffset * uu11 + saturation * left4 * Math.sqrt(cx11 * cx11 + cy11 * cy11 + cz11 * cz11) + tiny);
  const ax11 = L11 * cx11 - D11 * ux11;
  const ay11 = L11 * cy11 - D11 * uy11;
  const az11 = L11 * cz11 - D11 * vz11 - gravity;

  next[0] = here[0]! + h;
  next[1] =
    here[1]! +
    h *
      (0.05 * vx0 +
        0.2722222222222222 * vx7 +
        0.35555555555555557 * vx8 +
        0.2722222222222222 * vx9 +
        0.05 * vx10);
  next[4] = vx11;
  acceleration[3] = ax8;
  acceleration[6] = ax11;
  next[2] =
    here[2]! +
    h *
      (0.05 * vy0 +
        0.2722222222222222 * vy7 +
        0.35555555555555557 * vy8 +
        0.2722222222222222 * vy9 +
        0.05 * vy10);
  next[5] = vy11;
  acceleration[4] = ay8;
  acceleration[7] = ay11;
  next[3] =
    here[3]! +
    h *
      (0.05 * vz0 +
        0.2722222222222222 * vz7 +
        0.35555555555555557 * vz8 +
        0.2722222222222222 * vz9 +
        0.05 * vz10);
  next[6] = vz11;
  acceleration[5] = az8;
  acceleration[8] = az11;
  plan[1] = h * h * (Math.abs(ax11 - ax10) + Math.abs(ay11 - ay10) + Math.abs(az11 - az10));
}
