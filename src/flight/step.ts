/**
 * The step of the flight, stage by stage. Written by data/flight-step.ts, which says why: `npm run
 * flight-step` writes it anew.
 */
import * as air from "./air.ts";
import * as coefficients from "./coefficients.ts";
import * as room from "./lanes.ts";

// Bound anew, as the engine takes a module's own constants for constants, and imported ones not.
const { gravity } = air;
const { liftOffset, spinDecay_s } = coefficients;
const { acceleration, accelerationWidth, decay, given, givenWidth, here, next, plan, stateWidth } = room;

/** Nothing to divide by but still air itself. */
const tiny = 1e-300;

/** Puts the acceleration at `here`, with all of the spin, into `acceleration`. */
export function startLane(lane: number): void {
  const at = lane * givenWidth;
  const from = lane * stateWidth;
  const to = lane * accelerationWidth;
  const left = 1;
  const vx = here[from + 4]!;
  const vy = here[from + 5]!;
  const vz = here[from + 6]!;
  const ox = given[at + 6]!;
  const oy = given[at + 7]!;
  const oz = given[at + 8]!;
  const drag = given[at + 9]!;
  const spinDrag = given[at + 10]!;
  const lift = given[at + 11]!;
  const saturation = given[at + 12]!;
  const wx = given[at + 13]!;
  const wy = given[at + 14]!;
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
  acceleration[to] = ax;
  acceleration[to + 1] = ay;
  acceleration[to + 2] = az;
}

/** One step of `plan[0]` seconds of the first lane's ball, from `here` to `next`. */
export function stepOne(): void {
  const ha = plan[0]!;
  const vx0a = here[4]!;
  const vy0a = here[5]!;
  const vz0a = here[6]!;
  const ax0a = acceleration[0]!;
  const ay0a = acceleration[1]!;
  const az0a = acceleration[2]!;
  const oxa = given[6]!;
  const oya = given[7]!;
  const oza = given[8]!;
  const draga = given[9]!;
  const spinDraga = given[10]!;
  const lifta = given[11]!;
  const saturationa = given[12]!;
  const wxa = given[13]!;
  const wya = given[14]!;
  // exp by its series, even and odd terms apart: the exponents are under 0.05 even for the longest step.
  const qa = ha * (0.5 / spinDecay_s);
  const qqa = qa * qa;
  const halfa = 1 - qa * (1 + qqa * (1 / 6 + qqa * (1 / 120))) + qqa * (1 / 2 + qqa * (1 / 24));
  const ia = qa * 0.6546536707079771;
  const iia = ia * ia;
  const evena = 1 + iia * (1 / 2 + iia * (1 / 24));
  const odda = ia * (1 + iia * (1 / 6 + iia * (1 / 120)));
  const left2a = decay[0]! * halfa;
  const left1a = left2a * (evena + odda);
  const left3a = left2a * (evena - odda);
  const left4a = left2a * halfa;
  decay[1] = left2a;
  decay[2] = left4a;
  const vx1a = vx0a + ha * (0.5 * ax0a);
  const vy1a = vy0a + ha * (0.5 * ay0a);
  const vz1a = vz0a + ha * (0.5 * az0a);
  const ux1a = vx1a - wxa;
  const uy1a = vy1a - wya;
  const uu1a = ux1a * ux1a + uy1a * uy1a + vz1a * vz1a;
  const cx1a = oya * vz1a - oza * uy1a;
  const cy1a = oza * ux1a - oxa * vz1a;
  const cz1a = oxa * uy1a - oya * ux1a;
  const D1a = (draga + spinDraga * left2a) * Math.sqrt(uu1a);
  const L1a =
    (lifta * left2a * uu1a) /
    (liftOffset * uu1a + saturationa * left2a * Math.sqrt(cx1a * cx1a + cy1a * cy1a + cz1a * cz1a) + tiny);
  const ax1a = L1a * cx1a - D1a * ux1a;
  const ay1a = L1a * cy1a - D1a * uy1a;
  const az1a = L1a * cz1a - D1a * vz1a - gravity;
  const vx2a = vx0a + ha * (0.25 * ax0a + 0.25 * ax1a);
  const vy2a = vy0a + ha * (0.25 * ay0a + 0.25 * ay1a);
  const vz2a = vz0a + ha * (0.25 * az0a + 0.25 * az1a);
  const ux2a = vx2a - wxa;
  const uy2a = vy2a - wya;
  const uu2a = ux2a * ux2a + uy2a * uy2a + vz2a * vz2a;
  const cx2a = oya * vz2a - oza * uy2a;
  const cy2a = oza * ux2a - oxa * vz2a;
  const cz2a = oxa * uy2a - oya * ux2a;
  const D2a = (draga + spinDraga * left2a) * Math.sqrt(uu2a);
  const L2a =
    (lifta * left2a * uu2a) /
    (liftOffset * uu2a + saturationa * left2a * Math.sqrt(cx2a * cx2a + cy2a * cy2a + cz2a * cz2a) + tiny);
  const ax2a = L2a * cx2a - D2a * ux2a;
  const ay2a = L2a * cy2a - D2a * uy2a;
  const az2a = L2a * cz2a - D2a * vz2a - gravity;
  const vx3a =
    vx0a + ha * (0.14285714285714285 * ax0a - 0.2117115008659951 * ax1a + 0.8961811933628407 * ax2a);
  const vy3a =
    vy0a + ha * (0.14285714285714285 * ay0a - 0.2117115008659951 * ay1a + 0.8961811933628407 * ay2a);
  const vz3a =
    vz0a + ha * (0.14285714285714285 * az0a - 0.2117115008659951 * az1a + 0.8961811933628407 * az2a);
  const ux3a = vx3a - wxa;
  const uy3a = vy3a - wya;
  const uu3a = ux3a * ux3a + uy3a * uy3a + vz3a * vz3a;
  const cx3a = oya * vz3a - oza * uy3a;
  const cy3a = oza * ux3a - oxa * vz3a;
  const cz3a = oxa * uy3a - oya * ux3a;
  const D3a = (draga + spinDraga * left3a) * Math.sqrt(uu3a);
  const L3a =
    (lifta * left3a * uu3a) /
    (liftOffset * uu3a + saturationa * left3a * Math.sqrt(cx3a * cx3a + cy3a * cy3a + cz3a * cz3a) + tiny);
  const ax3a = L3a * cx3a - D3a * ux3a;
  const ay3a = L3a * cy3a - D3a * uy3a;
  const az3a = L3a * cz3a - D3a * vz3a - gravity;
  const vx4a =
    vx0a + ha * (0.18550685351137902 * ax0a + 0.5766714726956088 * ax2a + 0.06514850914700064 * ax3a);
  const vy4a =
    vy0a + ha * (0.18550685351137902 * ay0a + 0.5766714726956088 * ay2a + 0.06514850914700064 * ay3a);
  const vz4a =
    vz0a + ha * (0.18550685351137902 * az0a + 0.5766714726956088 * az2a + 0.06514850914700064 * az3a);
  const ux4a = vx4a - wxa;
  const uy4a = vy4a - wya;
  const uu4a = ux4a * ux4a + uy4a * uy4a + vz4a * vz4a;
  const cx4a = oya * vz4a - oza * uy4a;
  const cy4a = oza * ux4a - oxa * vz4a;
  const cz4a = oxa * uy4a - oya * ux4a;
  const D4a = (draga + spinDraga * left3a) * Math.sqrt(uu4a);
  const L4a =
    (lifta * left3a * uu4a) /
    (liftOffset * uu4a + saturationa * left3a * Math.sqrt(cx4a * cx4a + cy4a * cy4a + cz4a * cz4a) + tiny);
  const ax4a = L4a * cx4a - D4a * ux4a;
  const ay4a = L4a * cy4a - D4a * uy4a;
  const az4a = L4a * cz4a - D4a * vz4a - gravity;
  const vx5a =
    vx0a +
    ha *
      (0.1996369936449133 * ax0a +
        0.37729376930432884 * ax2a -
        0.46345538964060623 * ax3a +
        0.38652462669136406 * ax4a);
  const vy5a =
    vy0a +
    ha *
      (0.1996369936449133 * ay0a +
        0.37729376930432884 * ay2a -
        0.46345538964060623 * ay3a +
        0.38652462669136406 * ay4a);
  const vz5a =
    vz0a +
    ha *
      (0.1996369936449133 * az0a +
        0.37729376930432884 * az2a -
        0.46345538964060623 * az3a +
        0.38652462669136406 * az4a);
  const ux5a = vx5a - wxa;
  const uy5a = vy5a - wya;
  const uu5a = ux5a * ux5a + uy5a * uy5a + vz5a * vz5a;
  const cx5a = oya * vz5a - oza * uy5a;
  const cy5a = oza * ux5a - oxa * vz5a;
  const cz5a = oxa * uy5a - oya * ux5a;
  const D5a = (draga + spinDraga * left2a) * Math.sqrt(uu5a);
  const L5a =
    (lifta * left2a * uu5a) /
    (liftOffset * uu5a + saturationa * left2a * Math.sqrt(cx5a * cx5a + cy5a * cy5a + cz5a * cz5a) + tiny);
  const ax5a = L5a * cx5a - D5a * ux5a;
  const ay5a = L5a * cy5a - D5a * uy5a;
  const az5a = L5a * cz5a - D5a * vz5a - gravity;
  const vx6a =
    vx0a +
    ha *
      (0.1289862929772419 * ax0a -
        0.03302551131448491 * ax2a -
        0.3497052863177424 * ax3a +
        0.32851721314173604 * ax4a +
        0.09790045615925952 * ax5a);
  const vy6a =
    vy0a +
    ha *
      (0.1289862929772419 * ay0a -
        0.03302551131448491 * ay2a -
        0.3497052863177424 * ay3a +
        0.32851721314173604 * ay4a +
        0.09790045615925952 * ay5a);
  const vz6a =
    vz0a +
    ha *
      (0.1289862929772419 * az0a -
        0.03302551131448491 * az2a -
        0.3497052863177424 * az3a +
        0.32851721314173604 * az4a +
        0.09790045615925952 * az5a);
  const ux6a = vx6a - wxa;
  const uy6a = vy6a - wya;
  const uu6a = ux6a * ux6a + uy6a * uy6a + vz6a * vz6a;
  const cx6a = oya * vz6a - oza * uy6a;
  const cy6a = oza * ux6a - oxa * vz6a;
  const cz6a = oxa * uy6a - oya * ux6a;
  const D6a = (draga + spinDraga * left1a) * Math.sqrt(uu6a);
  const L6a =
    (lifta * left1a * uu6a) /
    (liftOffset * uu6a + saturationa * left1a * Math.sqrt(cx6a * cx6a + cy6a * cy6a + cz6a * cz6a) + tiny);
  const ax6a = L6a * cx6a - D6a * ux6a;
  const ay6a = L6a * cy6a - D6a * uy6a;
  const az6a = L6a * cz6a - D6a * vz6a - gravity;
  const vx7a =
    vx0a +
    ha *
      (0.07142857142857142 * ax0a +
        0.0020021659931149178 * ax4a -
        0.011868683886786038 * ax5a +
        0.1111111111111111 * ax6a);
  const vy7a =
    vy0a +
    ha *
      (0.07142857142857142 * ay0a +
        0.0020021659931149178 * ay4a -
        0.011868683886786038 * ay5a +
        0.1111111111111111 * ay6a);
  const vz7a =
    vz0a +
    ha *
      (0.07142857142857142 * az0a +
        0.0020021659931149178 * az4a -
        0.011868683886786038 * az5a +
        0.1111111111111111 * az6a);
  const ux7a = vx7a - wxa;
  const uy7a = vy7a - wya;
  const uu7a = ux7a * ux7a + uy7a * uy7a + vz7a * vz7a;
  const cx7a = oya * vz7a - oza * uy7a;
  const cy7a = oza * ux7a - oxa * vz7a;
  const cz7a = oxa * uy7a - oya * ux7a;
  const D7a = (draga + spinDraga * left1a) * Math.sqrt(uu7a);
  const L7a =
    (lifta * left1a * uu7a) /
    (liftOffset * uu7a + saturationa * left1a * Math.sqrt(cx7a * cx7a + cy7a * cy7a + cz7a * cz7a) + tiny);
  const ax7a = L7a * cx7a - D7a * ux7a;
  const ay7a = L7a * cy7a - D7a * uy7a;
  const az7a = L7a * cz7a - D7a * vz7a - gravity;
  const vx8a =
    vx0a +
    ha *
      (0.03125 * ax0a -
        0.00908696110082056 * ax4a +
        0.1527777777777778 * ax5a -
        0.6325461606959097 * ax6a +
        0.9576053440189525 * ax7a);
  const vy8a =
    vy0a +
    ha *
      (0.03125 * ay0a -
        0.00908696110082056 * ay4a +
        0.1527777777777778 * ay5a -
        0.6325461606959097 * ay6a +
        0.9576053440189525 * ay7a);
  const vz8a =
    vz0a +
    ha *
      (0.03125 * az0a -
        0.00908696110082056 * az4a +
        0.1527777777777778 * az5a -
        0.6325461606959097 * az6a +
        0.9576053440189525 * az7a);
  const ux8a = vx8a - wxa;
  const uy8a = vy8a - wya;
  const uu8a = ux8a * ux8a + uy8a * uy8a + vz8a * vz8a;
  const cx8a = oya * vz8a - oza * uy8a;
  const cy8a = oza * ux8a - oxa * vz8a;
  const cz8a = oxa * uy8a - oya * ux8a;
  const D8a = (draga + spinDraga * left2a) * Math.sqrt(uu8a);
  const L8a =
    (lifta * left2a * uu8a) /
    (liftOffset * uu8a + saturationa * left2a * Math.sqrt(cx8a * cx8a + cy8a * cy8a + cz8a * cz8a) + tiny);
  const ax8a = L8a * cx8a - D8a * ux8a;
  const ay8a = L8a * cy8a - D8a * uy8a;
  const az8a = L8a * cz8a - D8a * vz8a - gravity;
  const vx9a =
    vx0a +
    ha *
      (0.07142857142857142 * ax0a +
        0.1111111111111111 * ax4a -
        0.6379313501852646 * ax5a +
        2.031083139166862 * ax6a -
        1.8108630829377543 * ax7a +
        1.0624984467704632 * ax8a);
  const vy9a =
    vy0a +
    ha *
      (0.07142857142857142 * ay0a +
        0.1111111111111111 * ay4a -
        0.6379313501852646 * ay5a +
        2.031083139166862 * ay6a -
        1.8108630829377543 * ay7a +
        1.0624984467704632 * ay8a);
  const vz9a =
    vz0a +
    ha *
      (0.07142857142857142 * az0a +
        0.1111111111111111 * az4a -
        0.6379313501852646 * az5a +
        2.031083139166862 * az6a -
        1.8108630829377543 * az7a +
        1.0624984467704632 * az8a);
  const ux9a = vx9a - wxa;
  const uy9a = vy9a - wya;
  const uu9a = ux9a * ux9a + uy9a * uy9a + vz9a * vz9a;
  const cx9a = oya * vz9a - oza * uy9a;
  const cy9a = oza * ux9a - oxa * vz9a;
  const cz9a = oxa * uy9a - oya * ux9a;
  const D9a = (draga + spinDraga * left3a) * Math.sqrt(uu9a);
  const L9a =
    (lifta * left3a * uu9a) /
    (liftOffset * uu9a + saturationa * left3a * Math.sqrt(cx9a * cx9a + cy9a * cy9a + cz9a * cz9a) + tiny);
  const ax9a = L9a * cx9a - D9a * ux9a;
  const ay9a = L9a * cy9a - D9a * uy9a;
  const az9a = L9a * cz9a - D9a * vz9a - gravity;
  const vx10a =
    vx0a +
    ha *
      (-0.5512205630727292 * ax4a +
        2.4513804324169666 * ax5a -
        7.164951553231382 * ax6a +
        7.553840442120271 * ax7a -
        2.2291582101947447 * ax8a +
        0.940109451961618 * ax9a);
  const vy10a =
    vy0a +
    ha *
      (-0.5512205630727292 * ay4a +
        2.4513804324169666 * ay5a -
        7.164951553231382 * ay6a +
        7.553840442120271 * ay7a -
        2.2291582101947447 * ay8a +
        0.940109451961618 * ay9a);
  const vz10a =
    vz0a +
    ha *
      (-0.5512205630727292 * az4a +
        2.4513804324169666 * az5a -
        7.164951553231382 * az6a +
        7.553840442120271 * az7a -
        2.2291582101947447 * az8a +
        0.940109451961618 * az9a);
  const ux10a = vx10a - wxa;
  const uy10a = vy10a - wya;
  const uu10a = ux10a * ux10a + uy10a * uy10a + vz10a * vz10a;
  const cx10a = oya * vz10a - oza * uy10a;
  const cy10a = oza * ux10a - oxa * vz10a;
  const cz10a = oxa * uy10a - oya * ux10a;
  const D10a = (draga + spinDraga * left4a) * Math.sqrt(uu10a);
  const L10a =
    (lifta * left4a * uu10a) /
    (liftOffset * uu10a +
      saturationa * left4a * Math.sqrt(cx10a * cx10a + cy10a * cy10a + cz10a * cz10a) +
      tiny);
  const ax10a = L10a * cx10a - D10a * ux10a;
  const ay10a = L10a * cy10a - D10a * uy10a;
  const az10a = L10a * cz10a - D10a * vz10a - gravity;
  const vx11a =
    vx0a +
    ha *
      (0.05 * ax0a +
        0.2722222222222222 * ax7a +
        0.35555555555555557 * ax8a +
        0.2722222222222222 * ax9a +
        0.05 * ax10a);
  const vy11a =
    vy0a +
    ha *
      (0.05 * ay0a +
        0.2722222222222222 * ay7a +
        0.35555555555555557 * ay8a +
        0.2722222222222222 * ay9a +
        0.05 * ay10a);
  const vz11a =
    vz0a +
    ha *
      (0.05 * az0a +
        0.2722222222222222 * az7a +
        0.35555555555555557 * az8a +
        0.2722222222222222 * az9a +
        0.05 * az10a);
  const ux11a = vx11a - wxa;
  const uy11a = vy11a - wya;
  const uu11a = ux11a * ux11a + uy11a * uy11a + vz11a * vz11a;
  const cx11a = oya * vz11a - oza * uy11a;
  const cy11a = oza * ux11a - oxa * vz11a;
  const cz11a = oxa * uy11a - oya * ux11a;
  const D11a = (draga + spinDraga * left4a) * Math.sqrt(uu11a);
  const L11a =
    (lifta * left4a * uu11a) /
    (liftOffset * uu11a +
      saturationa * left4a * Math.sqrt(cx11a * cx11a + cy11a * cy11a + cz11a * cz11a) +
      tiny);
  const ax11a = L11a * cx11a - D11a * ux11a;
  const ay11a = L11a * cy11a - D11a * uy11a;
  const az11a = L11a * cz11a - D11a * vz11a - gravity;

  next[0] = here[0]! + ha;
  next[1] =
    here[1]! +
    ha *
      (0.05 * vx0a +
        0.2722222222222222 * vx7a +
        0.35555555555555557 * vx8a +
        0.2722222222222222 * vx9a +
        0.05 * vx10a);
  next[4] = vx11a;
  acceleration[3] = ax8a;
  acceleration[6] = ax11a;
  next[2] =
    here[2]! +
    ha *
      (0.05 * vy0a +
        0.2722222222222222 * vy7a +
        0.35555555555555557 * vy8a +
        0.2722222222222222 * vy9a +
        0.05 * vy10a);
  next[5] = vy11a;
  acceleration[4] = ay8a;
  acceleration[7] = ay11a;
  next[3] =
    here[3]! +
    ha *
      (0.05 * vz0a +
        0.2722222222222222 * vz7a +
        0.35555555555555557 * vz8a +
        0.2722222222222222 * vz9a +
        0.05 * vz10a);
  next[6] = vz11a;
  acceleration[5] = az8a;
  acceleration[8] = az11a;
  plan[1] = ha * ha * (Math.abs(ax11a - ax10a) + Math.abs(ay11a - ay10a) + Math.abs(az11a - az10a));
}

/** One step of each lane's ball. */
export function stepTwo(): void {
  const ha = plan[0]!;
  const vx0a = here[4]!;
  const vy0a = here[5]!;
  const vz0a = here[6]!;
  const ax0a = acceleration[0]!;
  const ay0a = acceleration[1]!;
  const az0a = acceleration[2]!;
  const oxa = given[6]!;
  const oya = given[7]!;
  const oza = given[8]!;
  const draga = given[9]!;
  const spinDraga = given[10]!;
  const lifta = given[11]!;
  const saturationa = given[12]!;
  const wxa = given[13]!;
  const wya = given[14]!;
  // exp by its series, even and odd terms apart: the exponents are under 0.05 even for the longest step.
  const qa = ha * (0.5 / spinDecay_s);
  const qqa = qa * qa;
  const halfa = 1 - qa * (1 + qqa * (1 / 6 + qqa * (1 / 120))) + qqa * (1 / 2 + qqa * (1 / 24));
  const ia = qa * 0.6546536707079771;
  const iia = ia * ia;
  const evena = 1 + iia * (1 / 2 + iia * (1 / 24));
  const odda = ia * (1 + iia * (1 / 6 + iia * (1 / 120)));
  const left2a = decay[0]! * halfa;
  const left1a = left2a * (evena + odda);
  const left3a = left2a * (evena - odda);
  const left4a = left2a * halfa;
  decay[1] = left2a;
  decay[2] = left4a;

  const hb = plan[2]!;
  const vx0b = here[12]!;
  const vy0b = here[13]!;
  const vz0b = here[14]!;
  const ax0b = acceleration[9]!;
  const ay0b = acceleration[10]!;
  const az0b = acceleration[11]!;
  const oxb = given[22]!;
  const oyb = given[23]!;
  const ozb = given[24]!;
  const dragb = given[25]!;
  const spinDragb = given[26]!;
  const liftb = given[27]!;
  const saturationb = given[28]!;
  const wxb = given[29]!;
  const wyb = given[30]!;
  // exp by its series, even and odd terms apart: the exponents are under 0.05 even for the longest step.
  const qb = hb * (0.5 / spinDecay_s);
  const qqb = qb * qb;
  const halfb = 1 - qb * (1 + qqb * (1 / 6 + qqb * (1 / 120))) + qqb * (1 / 2 + qqb * (1 / 24));
  const ib = qb * 0.6546536707079771;
  const iib = ib * ib;
  const evenb = 1 + iib * (1 / 2 + iib * (1 / 24));
  const oddb = ib * (1 + iib * (1 / 6 + iib * (1 / 120)));
  const left2b = decay[3]! * halfb;
  const left1b = left2b * (evenb + oddb);
  const left3b = left2b * (evenb - oddb);
  const left4b = left2b * halfb;
  decay[4] = left2b;
  decay[5] = left4b;
  const vx1a = vx0a + ha * (0.5 * ax0a);
  const vy1a = vy0a + ha * (0.5 * ay0a);
  const vz1a = vz0a + ha * (0.5 * az0a);
  const ux1a = vx1a - wxa;
  const uy1a = vy1a - wya;
  const uu1a = ux1a * ux1a + uy1a * uy1a + vz1a * vz1a;
  const cx1a = oya * vz1a - oza * uy1a;
  const cy1a = oza * ux1a - oxa * vz1a;
  const cz1a = oxa * uy1a - oya * ux1a;
  const D1a = (draga + spinDraga * left2a) * Math.sqrt(uu1a);
  const L1a =
    (lifta * left2a * uu1a) /
    (liftOffset * uu1a + saturationa * left2a * Math.sqrt(cx1a * cx1a + cy1a * cy1a + cz1a * cz1a) + tiny);
  const ax1a = L1a * cx1a - D1a * ux1a;
  const ay1a = L1a * cy1a - D1a * uy1a;
  const az1a = L1a * cz1a - D1a * vz1a - gravity;
  const vx1b = vx0b + hb * (0.5 * ax0b);
  const vy1b = vy0b + hb * (0.5 * ay0b);
  const vz1b = vz0b + hb * (0.5 * az0b);
  const ux1b = vx1b - wxb;
  const uy1b = vy1b - wyb;
  const uu1b = ux1b * ux1b + uy1b * uy1b + vz1b * vz1b;
  const cx1b = oyb * vz1b - ozb * uy1b;
  const cy1b = ozb * ux1b - oxb * vz1b;
  const cz1b = oxb * uy1b - oyb * ux1b;
  const D1b = (dragb + spinDragb * left2b) * Math.sqrt(uu1b);
  const L1b =
    (liftb * left2b * uu1b) /
    (liftOffset * uu1b + saturationb * left2b * Math.sqrt(cx1b * cx1b + cy1b * cy1b + cz1b * cz1b) + tiny);
  const ax1b = L1b * cx1b - D1b * ux1b;
  const ay1b = L1b * cy1b - D1b * uy1b;
  const az1b = L1b * cz1b - D1b * vz1b - gravity;
  const vx2a = vx0a + ha * (0.25 * ax0a + 0.25 * ax1a);
  const vy2a = vy0a + ha * (0.25 * ay0a + 0.25 * ay1a);
  const vz2a = vz0a + ha * (0.25 * az0a + 0.25 * az1a);
  const ux2a = vx2a - wxa;
  const uy2a = vy2a - wya;
  const uu2a = ux2a * ux2a + uy2a * uy2a + vz2a * vz2a;
  const cx2a = oya * vz2a - oza * uy2a;
  const cy2a = oza * ux2a - oxa * vz2a;
  const cz2a = oxa * uy2a - oya * ux2a;
  const D2a = (draga + spinDraga * left2a) * Math.sqrt(uu2a);
  const L2a =
    (lifta * left2a * uu2a) /
    (liftOffset * uu2a + saturationa * left2a * Math.sqrt(cx2a * cx2a + cy2a * cy2a + cz2a * cz2a) + tiny);
  const ax2a = L2a * cx2a - D2a * ux2a;
  const ay2a = L2a * cy2a - D2a * uy2a;
  const az2a = L2a * cz2a - D2a * vz2a - gravity;
  const vx2b = vx0b + hb * (0.25 * ax0b + 0.25 * ax1b);
  const vy2b = vy0b + hb * (0.25 * ay0b + 0.25 * ay1b);
  const vz2b = vz0b + hb * (0.25 * az0b + 0.25 * az1b);
  const ux2b = vx2b - wxb;
  const uy2b = vy2b - wyb;
  const uu2b = ux2b * ux2b + uy2b * uy2b + vz2b * vz2b;
  const cx2b = oyb * vz2b - ozb * uy2b;
  const cy2b = ozb * ux2b - oxb * vz2b;
  const cz2b = oxb * uy2b - oyb * ux2b;
  const D2b = (dragb + spinDragb * left2b) * Math.sqrt(uu2b);
  const L2b =
    (liftb * left2b * uu2b) /
    (liftOffset * uu2b + saturationb * left2b * Math.sqrt(cx2b * cx2b + cy2b * cy2b + cz2b * cz2b) + tiny);
  const ax2b = L2b * cx2b - D2b * ux2b;
  const ay2b = L2b * cy2b - D2b * uy2b;
  const az2b = L2b * cz2b - D2b * vz2b - gravity;
  const vx3a =
    vx0a + ha * (0.14285714285714285 * ax0a - 0.2117115008659951 * ax1a + 0.8961811933628407 * ax2a);
  const vy3a =
    vy0a + ha * (0.14285714285714285 * ay0a - 0.2117115008659951 * ay1a + 0.8961811933628407 * ay2a);
  const vz3a =
    vz0a + ha * (0.14285714285714285 * az0a - 0.2117115008659951 * az1a + 0.8961811933628407 * az2a);
  const ux3a = vx3a - wxa;
  const uy3a = vy3a - wya;
  const uu3a = ux3a * ux3a + uy3a * uy3a + vz3a * vz3a;
  const cx3a = oya * vz3a - oza * uy3a;
  const cy3a = oza * ux3a - oxa * vz3a;
  const cz3a = oxa * uy3a - oya * ux3a;
  const D3a = (draga + spinDraga * left3a) * Math.sqrt(uu3a);
  const L3a =
    (lifta * left3a * uu3a) /
    (liftOffset * uu3a + saturationa * left3a * Math.sqrt(cx3a * cx3a + cy3a * cy3a + cz3a * cz3a) + tiny);
  const ax3a = L3a * cx3a - D3a * ux3a;
  const ay3a = L3a * cy3a - D3a * uy3a;
  const az3a = L3a * cz3a - D3a * vz3a - gravity;
  const vx3b =
    vx0b + hb * (0.14285714285714285 * ax0b - 0.2117115008659951 * ax1b + 0.8961811933628407 * ax2b);
  const vy3b =
    vy0b + hb * (0.14285714285714285 * ay0b - 0.2117115008659951 * ay1b + 0.8961811933628407 * ay2b);
  const vz3b =
    vz0b + hb * (0.14285714285714285 * az0b - 0.2117115008659951 * az1b + 0.8961811933628407 * az2b);
  const ux3b = vx3b - wxb;
  const uy3b = vy3b - wyb;
  const uu3b = ux3b * ux3b + uy3b * uy3b + vz3b * vz3b;
  const cx3b = oyb * vz3b - ozb * uy3b;
  const cy3b = ozb * ux3b - oxb * vz3b;
  const cz3b = oxb * uy3b - oyb * ux3b;
  const D3b = (dragb + spinDragb * left3b) * Math.sqrt(uu3b);
  const L3b =
    (liftb * left3b * uu3b) /
    (liftOffset * uu3b + saturationb * left3b * Math.sqrt(cx3b * cx3b + cy3b * cy3b + cz3b * cz3b) + tiny);
  const ax3b = L3b * cx3b - D3b * ux3b;
  const ay3b = L3b * cy3b - D3b * uy3b;
  const az3b = L3b * cz3b - D3b * vz3b - gravity;
  const vx4a =
    vx0a + ha * (0.18550685351137902 * ax0a + 0.5766714726956088 * ax2a + 0.06514850914700064 * ax3a);
  const vy4a =
    vy0a + ha * (0.18550685351137902 * ay0a + 0.5766714726956088 * ay2a + 0.06514850914700064 * ay3a);
  const vz4a =
    vz0a + ha * (0.18550685351137902 * az0a + 0.5766714726956088 * az2a + 0.06514850914700064 * az3a);
  const ux4a = vx4a - wxa;
  const uy4a = vy4a - wya;
  const uu4a = ux4a * ux4a + uy4a * uy4a + vz4a * vz4a;
  const cx4a = oya * vz4a - oza * uy4a;
  const cy4a = oza * ux4a - oxa * vz4a;
  const cz4a = oxa * uy4a - oya * ux4a;
  const D4a = (draga + spinDraga * left3a) * Math.sqrt(uu4a);
  const L4a =
    (lifta * left3a * uu4a) /
    (liftOffset * uu4a + saturationa * left3a * Math.sqrt(cx4a * cx4a + cy4a * cy4a + cz4a * cz4a) + tiny);
  const ax4a = L4a * cx4a - D4a * ux4a;
  const ay4a = L4a * cy4a - D4a * uy4a;
  const az4a = L4a * cz4a - D4a * vz4a - gravity;
  const vx4b =
    vx0b + hb * (0.18550685351137902 * ax0b + 0.5766714726956088 * ax2b + 0.06514850914700064 * ax3b);
  const vy4b =
    vy0b + hb * (0.18550685351137902 * ay0b + 0.5766714726956088 * ay2b + 0.06514850914700064 * ay3b);
  const vz4b =
    vz0b + hb * (0.18550685351137902 * az0b + 0.5766714726956088 * az2b + 0.06514850914700064 * az3b);
  const ux4b = vx4b - wxb;
  const uy4b = vy4b - wyb;
  const uu4b = ux4b * ux4b + uy4b * uy4b + vz4b * vz4b;
  const cx4b = oyb * vz4b - ozb * uy4b;
  const cy4b = ozb * ux4b - oxb * vz4b;
  const cz4b = oxb * uy4b - oyb * ux4b;
  const D4b = (dragb + spinDragb * left3b) * Math.sqrt(uu4b);
  const L4b =
    (liftb * left3b * uu4b) /
    (liftOffset * uu4b + saturationb * left3b * Math.sqrt(cx4b * cx4b + cy4b * cy4b + cz4b * cz4b) + tiny);
  const ax4b = L4b * cx4b - D4b * ux4b;
  const ay4b = L4b * cy4b - D4b * uy4b;
  const az4b = L4b * cz4b - D4b * vz4b - gravity;
  const vx5a =
    vx0a +
    ha *
      (0.1996369936449133 * ax0a +
        0.37729376930432884 * ax2a -
        0.46345538964060623 * ax3a +
        0.38652462669136406 * ax4a);
  const vy5a =
    vy0a +
    ha *
      (0.1996369936449133 * ay0a +
        0.37729376930432884 * ay2a -
        0.46345538964060623 * ay3a +
        0.38652462669136406 * ay4a);
  const vz5a =
    vz0a +
    ha *
      (0.1996369936449133 * az0a +
        0.37729376930432884 * az2a -
        0.46345538964060623 * az3a +
        0.38652462669136406 * az4a);
  const ux5a = vx5a - wxa;
  const uy5a = vy5a - wya;
  const uu5a = ux5a * ux5a + uy5a * uy5a + vz5a * vz5a;
  const cx5a = oya * vz5a - oza * uy5a;
  const cy5a = oza * ux5a - oxa * vz5a;
  const cz5a = oxa * uy5a - oya * ux5a;
  const D5a = (draga + spinDraga * left2a) * Math.sqrt(uu5a);
  const L5a =
    (lifta * left2a * uu5a) /
    (liftOffset * uu5a + saturationa * left2a * Math.sqrt(cx5a * cx5a + cy5a * cy5a + cz5a * cz5a) + tiny);
  const ax5a = L5a * cx5a - D5a * ux5a;
  const ay5a = L5a * cy5a - D5a * uy5a;
  const az5a = L5a * cz5a - D5a * vz5a - gravity;
  const vx5b =
    vx0b +
    hb *
      (0.1996369936449133 * ax0b +
        0.37729376930432884 * ax2b -
        0.46345538964060623 * ax3b +
        0.38652462669136406 * ax4b);
  const vy5b =
    vy0b +
    hb *
      (0.1996369936449133 * ay0b +
        0.37729376930432884 * ay2b -
        0.46345538964060623 * ay3b +
        0.38652462669136406 * ay4b);
  const vz5b =
    vz0b +
    hb *
      (0.1996369936449133 * az0b +
        0.37729376930432884 * az2b -
        0.46345538964060623 * az3b +
        0.38652462669136406 * az4b);
  const ux5b = vx5b - wxb;
  const uy5b = vy5b - wyb;
  const uu5b = ux5b * ux5b + uy5b * uy5b + vz5b * vz5b;
  const cx5b = oyb * vz5b - ozb * uy5b;
  const cy5b = ozb * ux5b - oxb * vz5b;
  const cz5b = oxb * uy5b - oyb * ux5b;
  const D5b = (dragb + spinDragb * left2b) * Math.sqrt(uu5b);
  const L5b =
    (liftb * left2b * uu5b) /
    (liftOffset * uu5b + saturationb * left2b * Math.sqrt(cx5b * cx5b + cy5b * cy5b + cz5b * cz5b) + tiny);
  const ax5b = L5b * cx5b - D5b * ux5b;
  const ay5b = L5b * cy5b - D5b * uy5b;
  const az5b = L5b * cz5b - D5b * vz5b - gravity;
  const vx6a =
    vx0a +
    ha *
      (0.1289862929772419 * ax0a -
        0.03302551131448491 * ax2a -
        0.3497052863177424 * ax3a +
        0.32851721314173604 * ax4a +
        0.09790045615925952 * ax5a);
  const vy6a =
    vy0a +
    ha *
      (0.1289862929772419 * ay0a -
        0.03302551131448491 * ay2a -
        0.3497052863177424 * ay3a +
        0.32851721314173604 * ay4a +
        0.09790045615925952 * ay5a);
  const vz6a =
    vz0a +
    ha *
      (0.1289862929772419 * az0a -
        0.03302551131448491 * az2a -
        0.3497052863177424 * az3a +
        0.32851721314173604 * az4a +
        0.09790045615925952 * az5a);
  const ux6a = vx6a - wxa;
  const uy6a = vy6a - wya;
  const uu6a = ux6a * ux6a + uy6a * uy6a + vz6a * vz6a;
  const cx6a = oya * vz6a - oza * uy6a;
  const cy6a = oza * ux6a - oxa * vz6a;
  const cz6a = oxa * uy6a - oya * ux6a;
  const D6a = (draga + spinDraga * left1a) * Math.sqrt(uu6a);
  const L6a =
    (lifta * left1a * uu6a) /
    (liftOffset * uu6a + saturationa * left1a * Math.sqrt(cx6a * cx6a + cy6a * cy6a + cz6a * cz6a) + tiny);
  const ax6a = L6a * cx6a - D6a * ux6a;
  const ay6a = L6a * cy6a - D6a * uy6a;
  const az6a = L6a * cz6a - D6a * vz6a - gravity;
  const vx6b =
    vx0b +
    hb *
      (0.1289862929772419 * ax0b -
        0.03302551131448491 * ax2b -
        0.3497052863177424 * ax3b +
        0.32851721314173604 * ax4b +
        0.09790045615925952 * ax5b);
  const vy6b =
    vy0b +
    hb *
      (0.1289862929772419 * ay0b -
        0.03302551131448491 * ay2b -
        0.3497052863177424 * ay3b +
        0.32851721314173604 * ay4b +
        0.09790045615925952 * ay5b);
  const vz6b =
    vz0b +
    hb *
      (0.1289862929772419 * az0b -
        0.03302551131448491 * az2b -
        0.3497052863177424 * az3b +
        0.32851721314173604 * az4b +
        0.09790045615925952 * az5b);
  const ux6b = vx6b - wxb;
  const uy6b = vy6b - wyb;
  const uu6b = ux6b * ux6b + uy6b * uy6b + vz6b * vz6b;
  const cx6b = oyb * vz6b - ozb * uy6b;
  const cy6b = ozb * ux6b - oxb * vz6b;
  const cz6b = oxb * uy6b - oyb * ux6b;
  const D6b = (dragb + spinDragb * left1b) * Math.sqrt(uu6b);
  const L6b =
    (liftb * left1b * uu6b) /
    (liftOffset * uu6b + saturationb * left1b * Math.sqrt(cx6b * cx6b + cy6b * cy6b + cz6b * cz6b) + tiny);
  const ax6b = L6b * cx6b - D6b * ux6b;
  const ay6b = L6b * cy6b - D6b * uy6b;
  const az6b = L6b * cz6b - D6b * vz6b - gravity;
  const vx7a =
    vx0a +
    ha *
      (0.07142857142857142 * ax0a +
        0.0020021659931149178 * ax4a -
        0.011868683886786038 * ax5a +
        0.1111111111111111 * ax6a);
  const vy7a =
    vy0a +
    ha *
      (0.07142857142857142 * ay0a +
        0.0020021659931149178 * ay4a -
        0.011868683886786038 * ay5a +
        0.1111111111111111 * ay6a);
  const vz7a =
    vz0a +
    ha *
      (0.07142857142857142 * az0a +
        0.0020021659931149178 * az4a -
        0.011868683886786038 * az5a +
        0.1111111111111111 * az6a);
  const ux7a = vx7a - wxa;
  const uy7a = vy7a - wya;
  const uu7a = ux7a * ux7a + uy7a * uy7a + vz7a * vz7a;
  const cx7a = oya * vz7a - oza * uy7a;
  const cy7a = oza * ux7a - oxa * vz7a;
  const cz7a = oxa * uy7a - oya * ux7a;
  const D7a = (draga + spinDraga * left1a) * Math.sqrt(uu7a);
  const L7a =
    (lifta * left1a * uu7a) /
    (liftOffset * uu7a + saturationa * left1a * Math.sqrt(cx7a * cx7a + cy7a * cy7a + cz7a * cz7a) + tiny);
  const ax7a = L7a * cx7a - D7a * ux7a;
  const ay7a = L7a * cy7a - D7a * uy7a;
  const az7a = L7a * cz7a - D7a * vz7a - gravity;
  const vx7b =
    vx0b +
    hb *
      (0.07142857142857142 * ax0b +
        0.0020021659931149178 * ax4b -
        0.011868683886786038 * ax5b +
        0.1111111111111111 * ax6b);
  const vy7b =
    vy0b +
    hb *
      (0.07142857142857142 * ay0b +
        0.0020021659931149178 * ay4b -
        0.011868683886786038 * ay5b +
        0.1111111111111111 * ay6b);
  const vz7b =
    vz0b +
    hb *
      (0.07142857142857142 * az0b +
        0.0020021659931149178 * az4b -
        0.011868683886786038 * az5b +
        0.1111111111111111 * az6b);
  const ux7b = vx7b - wxb;
  const uy7b = vy7b - wyb;
  const uu7b = ux7b * ux7b + uy7b * uy7b + vz7b * vz7b;
  const cx7b = oyb * vz7b - ozb * uy7b;
  const cy7b = ozb * ux7b - oxb * vz7b;
  const cz7b = oxb * uy7b - oyb * ux7b;
  const D7b = (dragb + spinDragb * left1b) * Math.sqrt(uu7b);
  const L7b =
    (liftb * left1b * uu7b) /
    (liftOffset * uu7b + saturationb * left1b * Math.sqrt(cx7b * cx7b + cy7b * cy7b + cz7b * cz7b) + tiny);
  const ax7b = L7b * cx7b - D7b * ux7b;
  const ay7b = L7b * cy7b - D7b * uy7b;
  const az7b = L7b * cz7b - D7b * vz7b - gravity;
  const vx8a =
    vx0a +
    ha *
      (0.03125 * ax0a -
        0.00908696110082056 * ax4a +
        0.1527777777777778 * ax5a -
        0.6325461606959097 * ax6a +
        0.9576053440189525 * ax7a);
  const vy8a =
    vy0a +
    ha *
      (0.03125 * ay0a -
        0.00908696110082056 * ay4a +
        0.1527777777777778 * ay5a -
        0.6325461606959097 * ay6a +
        0.9576053440189525 * ay7a);
  const vz8a =
    vz0a +
    ha *
      (0.03125 * az0a -
        0.00908696110082056 * az4a +
        0.1527777777777778 * az5a -
        0.6325461606959097 * az6a +
        0.9576053440189525 * az7a);
  const ux8a = vx8a - wxa;
  const uy8a = vy8a - wya;
  const uu8a = ux8a * ux8a + uy8a * uy8a + vz8a * vz8a;
  const cx8a = oya * vz8a - oza * uy8a;
  const cy8a = oza * ux8a - oxa * vz8a;
  const cz8a = oxa * uy8a - oya * ux8a;
  const D8a = (draga + spinDraga * left2a) * Math.sqrt(uu8a);
  const L8a =
    (lifta * left2a * uu8a) /
    (liftOffset * uu8a + saturationa * left2a * Math.sqrt(cx8a * cx8a + cy8a * cy8a + cz8a * cz8a) + tiny);
  const ax8a = L8a * cx8a - D8a * ux8a;
  const ay8a = L8a * cy8a - D8a * uy8a;
  const az8a = L8a * cz8a - D8a * vz8a - gravity;
  const vx8b =
    vx0b +
    hb *
      (0.03125 * ax0b -
        0.00908696110082056 * ax4b +
        0.1527777777777778 * ax5b -
        0.6325461606959097 * ax6b +
        0.9576053440189525 * ax7b);
  const vy8b =
    vy0b +
    hb *
      (0.03125 * ay0b -
        0.00908696110082056 * ay4b +
        0.1527777777777778 * ay5b -
        0.6325461606959097 * ay6b +
        0.9576053440189525 * ay7b);
  const vz8b =
    vz0b +
    hb *
      (0.03125 * az0b -
        0.00908696110082056 * az4b +
        0.1527777777777778 * az5b -
        0.6325461606959097 * az6b +
        0.9576053440189525 * az7b);
  const ux8b = vx8b - wxb;
  const uy8b = vy8b - wyb;
  const uu8b = ux8b * ux8b + uy8b * uy8b + vz8b * vz8b;
  const cx8b = oyb * vz8b - ozb * uy8b;
  const cy8b = ozb * ux8b - oxb * vz8b;
  const cz8b = oxb * uy8b - oyb * ux8b;
  const D8b = (dragb + spinDragb * left2b) * Math.sqrt(uu8b);
  const L8b =
    (liftb * left2b * uu8b) /
    (liftOffset * uu8b + saturationb * left2b * Math.sqrt(cx8b * cx8b + cy8b * cy8b + cz8b * cz8b) + tiny);
  const ax8b = L8b * cx8b - D8b * ux8b;
  const ay8b = L8b * cy8b - D8b * uy8b;
  const az8b = L8b * cz8b - D8b * vz8b - gravity;
  const vx9a =
    vx0a +
    ha *
      (0.07142857142857142 * ax0a +
        0.1111111111111111 * ax4a -
        0.6379313501852646 * ax5a +
        2.031083139166862 * ax6a -
        1.8108630829377543 * ax7a +
        1.0624984467704632 * ax8a);
  const vy9a =
    vy0a +
    ha *
      (0.07142857142857142 * ay0a +
        0.1111111111111111 * ay4a -
        0.6379313501852646 * ay5a +
        2.031083139166862 * ay6a -
        1.8108630829377543 * ay7a +
        1.0624984467704632 * ay8a);
  const vz9a =
    vz0a +
    ha *
      (0.07142857142857142 * az0a +
        0.1111111111111111 * az4a -
        0.6379313501852646 * az5a +
        2.031083139166862 * az6a -
        1.8108630829377543 * az7a +
        1.0624984467704632 * az8a);
  const ux9a = vx9a - wxa;
  const uy9a = vy9a - wya;
  const uu9a = ux9a * ux9a + uy9a * uy9a + vz9a * vz9a;
  const cx9a = oya * vz9a - oza * uy9a;
  const cy9a = oza * ux9a - oxa * vz9a;
  const cz9a = oxa * uy9a - oya * ux9a;
  const D9a = (draga + spinDraga * left3a) * Math.sqrt(uu9a);
  const L9a =
    (lifta * left3a * uu9a) /
    (liftOffset * uu9a + saturationa * left3a * Math.sqrt(cx9a * cx9a + cy9a * cy9a + cz9a * cz9a) + tiny);
  const ax9a = L9a * cx9a - D9a * ux9a;
  const ay9a = L9a * cy9a - D9a * uy9a;
  const az9a = L9a * cz9a - D9a * vz9a - gravity;
  const vx9b =
    vx0b +
    hb *
      (0.07142857142857142 * ax0b +
        0.1111111111111111 * ax4b -
        0.6379313501852646 * ax5b +
        2.031083139166862 * ax6b -
        1.8108630829377543 * ax7b +
        1.0624984467704632 * ax8b);
  const vy9b =
    vy0b +
    hb *
      (0.07142857142857142 * ay0b +
        0.1111111111111111 * ay4b -
        0.6379313501852646 * ay5b +
        2.031083139166862 * ay6b -
        1.8108630829377543 * ay7b +
        1.0624984467704632 * ay8b);
  const vz9b =
    vz0b +
    hb *
      (0.07142857142857142 * az0b +
        0.1111111111111111 * az4b -
        0.6379313501852646 * az5b +
        2.031083139166862 * az6b -
        1.8108630829377543 * az7b +
        1.0624984467704632 * az8b);
  const ux9b = vx9b - wxb;
  const uy9b = vy9b - wyb;
  const uu9b = ux9b * ux9b + uy9b * uy9b + vz9b * vz9b;
  const cx9b = oyb * vz9b - ozb * uy9b;
  const cy9b = ozb * ux9b - oxb * vz9b;
  const cz9b = oxb * uy9b - oyb * ux9b;
  const D9b = (dragb + spinDragb * left3b) * Math.sqrt(uu9b);
  const L9b =
    (liftb * left3b * uu9b) /
    (liftOffset * uu9b + saturationb * left3b * Math.sqrt(cx9b * cx9b + cy9b * cy9b + cz9b * cz9b) + tiny);
  const ax9b = L9b * cx9b - D9b * ux9b;
  const ay9b = L9b * cy9b - D9b * uy9b;
  const az9b = L9b * cz9b - D9b * vz9b - gravity;
  const vx10a =
    vx0a +
    ha *
      (-0.5512205630727292 * ax4a +
        2.4513804324169666 * ax5a -
        7.164951553231382 * ax6a +
        7.553840442120271 * ax7a -
        2.2291582101947447 * ax8a +
        0.940109451961618 * ax9a);
  const vy10a =
    vy0a +
    ha *
      (-0.5512205630727292 * ay4a +
        2.4513804324169666 * ay5a -
        7.164951553231382 * ay6a +
        7.553840442120271 * ay7a -
        2.2291582101947447 * ay8a +
        0.940109451961618 * ay9a);
  const vz10a =
    vz0a +
    ha *
      (-0.5512205630727292 * az4a +
        2.4513804324169666 * az5a -
        7.164951553231382 * az6a +
        7.553840442120271 * az7a -
        2.2291582101947447 * az8a +
        0.940109451961618 * az9a);
  const ux10a = vx10a - wxa;
  const uy10a = vy10a - wya;
  const uu10a = ux10a * ux10a + uy10a * uy10a + vz10a * vz10a;
  const cx10a = oya * vz10a - oza * uy10a;
  const cy10a = oza * ux10a - oxa * vz10a;
  const cz10a = oxa * uy10a - oya * ux10a;
  const D10a = (draga + spinDraga * left4a) * Math.sqrt(uu10a);
  const L10a =
    (lifta * left4a * uu10a) /
    (liftOffset * uu10a +
      saturationa * left4a * Math.sqrt(cx10a * cx10a + cy10a * cy10a + cz10a * cz10a) +
      tiny);
  const ax10a = L10a * cx10a - D10a * ux10a;
  const ay10a = L10a * cy10a - D10a * uy10a;
  const az10a = L10a * cz10a - D10a * vz10a - gravity;
  const vx10b =
    vx0b +
    hb *
      (-0.5512205630727292 * ax4b +
        2.4513804324169666 * ax5b -
        7.164951553231382 * ax6b +
        7.553840442120271 * ax7b -
        2.2291582101947447 * ax8b +
        0.940109451961618 * ax9b);
  const vy10b =
    vy0b +
    hb *
      (-0.5512205630727292 * ay4b +
        2.4513804324169666 * ay5b -
        7.164951553231382 * ay6b +
        7.553840442120271 * ay7b -
        2.2291582101947447 * ay8b +
        0.940109451961618 * ay9b);
  const vz10b =
    vz0b +
    hb *
      (-0.5512205630727292 * az4b +
        2.4513804324169666 * az5b -
        7.164951553231382 * az6b +
        7.553840442120271 * az7b -
        2.2291582101947447 * az8b +
        0.940109451961618 * az9b);
  const ux10b = vx10b - wxb;
  const uy10b = vy10b - wyb;
  const uu10b = ux10b * ux10b + uy10b * uy10b + vz10b * vz10b;
  const cx10b = oyb * vz10b - ozb * uy10b;
  const cy10b = ozb * ux10b - oxb * vz10b;
  const cz10b = oxb * uy10b - oyb * ux10b;
  const D10b = (dragb + spinDragb * left4b) * Math.sqrt(uu10b);
  const L10b =
    (liftb * left4b * uu10b) /
    (liftOffset * uu10b +
      saturationb * left4b * Math.sqrt(cx10b * cx10b + cy10b * cy10b + cz10b * cz10b) +
      tiny);
  const ax10b = L10b * cx10b - D10b * ux10b;
  const ay10b = L10b * cy10b - D10b * uy10b;
  const az10b = L10b * cz10b - D10b * vz10b - gravity;
  const vx11a =
    vx0a +
    ha *
      (0.05 * ax0a +
        0.2722222222222222 * ax7a +
        0.35555555555555557 * ax8a +
        0.2722222222222222 * ax9a +
        0.05 * ax10a);
  const vy11a =
    vy0a +
    ha *
      (0.05 * ay0a +
        0.2722222222222222 * ay7a +
        0.35555555555555557 * ay8a +
        0.2722222222222222 * ay9a +
        0.05 * ay10a);
  const vz11a =
    vz0a +
    ha *
      (0.05 * az0a +
        0.2722222222222222 * az7a +
        0.35555555555555557 * az8a +
        0.2722222222222222 * az9a +
        0.05 * az10a);
  const ux11a = vx11a - wxa;
  const uy11a = vy11a - wya;
  const uu11a = ux11a * ux11a + uy11a * uy11a + vz11a * vz11a;
  const cx11a = oya * vz11a - oza * uy11a;
  const cy11a = oza * ux11a - oxa * vz11a;
  const cz11a = oxa * uy11a - oya * ux11a;
  const D11a = (draga + spinDraga * left4a) * Math.sqrt(uu11a);
  const L11a =
    (lifta * left4a * uu11a) /
    (liftOffset * uu11a +
      saturationa * left4a * Math.sqrt(cx11a * cx11a + cy11a * cy11a + cz11a * cz11a) +
      tiny);
  const ax11a = L11a * cx11a - D11a * ux11a;
  const ay11a = L11a * cy11a - D11a * uy11a;
  const az11a = L11a * cz11a - D11a * vz11a - gravity;
  const vx11b =
    vx0b +
    hb *
      (0.05 * ax0b +
        0.2722222222222222 * ax7b +
        0.35555555555555557 * ax8b +
        0.2722222222222222 * ax9b +
        0.05 * ax10b);
  const vy11b =
    vy0b +
    hb *
      (0.05 * ay0b +
        0.2722222222222222 * ay7b +
        0.35555555555555557 * ay8b +
        0.2722222222222222 * ay9b +
        0.05 * ay10b);
  const vz11b =
    vz0b +
    hb *
      (0.05 * az0b +
        0.2722222222222222 * az7b +
        0.35555555555555557 * az8b +
        0.2722222222222222 * az9b +
        0.05 * az10b);
  const ux11b = vx11b - wxb;
  const uy11b = vy11b - wyb;
  const uu11b = ux11b * ux11b + uy11b * uy11b + vz11b * vz11b;
  const cx11b = oyb * vz11b - ozb * uy11b;
  const cy11b = ozb * ux11b - oxb * vz11b;
  const cz11b = oxb * uy11b - oyb * ux11b;
  const D11b = (dragb + spinDragb * left4b) * Math.sqrt(uu11b);
  const L11b =
    (liftb * left4b * uu11b) /
    (liftOffset * uu11b +
      saturationb * left4b * Math.sqrt(cx11b * cx11b + cy11b * cy11b + cz11b * cz11b) +
      tiny);
  const ax11b = L11b * cx11b - D11b * ux11b;
  const ay11b = L11b * cy11b - D11b * uy11b;
  const az11b = L11b * cz11b - D11b * vz11b - gravity;

  next[0] = here[0]! + ha;
  next[1] =
    here[1]! +
    ha *
      (0.05 * vx0a +
        0.2722222222222222 * vx7a +
        0.35555555555555557 * vx8a +
        0.2722222222222222 * vx9a +
        0.05 * vx10a);
  next[4] = vx11a;
  acceleration[3] = ax8a;
  acceleration[6] = ax11a;
  next[2] =
    here[2]! +
    ha *
      (0.05 * vy0a +
        0.2722222222222222 * vy7a +
        0.35555555555555557 * vy8a +
        0.2722222222222222 * vy9a +
        0.05 * vy10a);
  next[5] = vy11a;
  acceleration[4] = ay8a;
  acceleration[7] = ay11a;
  next[3] =
    here[3]! +
    ha *
      (0.05 * vz0a +
        0.2722222222222222 * vz7a +
        0.35555555555555557 * vz8a +
        0.2722222222222222 * vz9a +
        0.05 * vz10a);
  next[6] = vz11a;
  acceleration[5] = az8a;
  acceleration[8] = az11a;
  plan[1] = ha * ha * (Math.abs(ax11a - ax10a) + Math.abs(ay11a - ay10a) + Math.abs(az11a - az10a));

  next[8] = here[8]! + hb;
  next[9] =
    here[9]! +
    hb *
      (0.05 * vx0b +
        0.2722222222222222 * vx7b +
        0.35555555555555557 * vx8b +
        0.2722222222222222 * vx9b +
        0.05 * vx10b);
  next[12] = vx11b;
  acceleration[12] = ax8b;
  acceleration[15] = ax11b;
  next[10] =
    here[10]! +
    hb *
      (0.05 * vy0b +
        0.2722222222222222 * vy7b +
        0.35555555555555557 * vy8b +
        0.2722222222222222 * vy9b +
        0.05 * vy10b);
  next[13] = vy11b;
  acceleration[13] = ay8b;
  acceleration[16] = ay11b;
  next[11] =
    here[11]! +
    hb *
      (0.05 * vz0b +
        0.2722222222222222 * vz7b +
        0.35555555555555557 * vz8b +
        0.2722222222222222 * vz9b +
        0.05 * vz10b);
  next[14] = vz11b;
  acceleration[14] = az8b;
  acceleration[17] = az11b;
  plan[3] = hb * hb * (Math.abs(ax11b - ax10b) + Math.abs(ay11b - ay10b) + Math.abs(az11b - az10b));
}
