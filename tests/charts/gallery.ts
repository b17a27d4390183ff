/** Every chart as its golden copy shows it: a name, and how it is drawn at a width. */
import {
  bucketStrip,
  caterpillar,
  contactMap,
  contactPlace,
  driftShifts,
  fieldChances,
  flightSide,
  flightTop,
  groupPanels,
  lastFlight,
  pitchOutcomes,
  pairGrid,
  reliability,
  repeatability,
  seasonTrends,
  setupPlan,
  setupSide,
  sprayChart,
  timing,
  waterfall,
  withinSession,
  zoneMap,
} from "../../src/charts/index.ts";
import { ft } from "../../src/units/index.ts";
import * as figures from "./figures.ts";
import * as gaps from "./gapFigures.ts";
import { ceilingPanel, panels, swingPanels, swingSession } from "./seasonFigures.ts";
import { gridPairs } from "./pairFigures.ts";
import { placement, shifts } from "./setupFigures.ts";
import { oddities, surface, swings } from "./fixture.ts";

const odd = [...swings, ...oddities];
const { field, lanes, cells, pitches, speeds, spread, middle, timingLine, depth, wellHit, flights } = figures;

/** `document` is left to the caller, so that a browser draws the very same. */
export const gallery: Readonly<Record<string, (width: number, document?: Document) => SVGSVGElement>> = {
  "contact-map": (width, document) => contactMap(swings, { document, width, surface }),
  "contact-map-odd": (width, document) =>
    contactMap(odd, {
      document,
      width,
      surface,
      units: "metric",
      target: {
        exit_velocity_mph_low: 85,
        exit_velocity_mph_high: null,
        launch_angle_deg_low: 8,
        launch_angle_deg_high: 28,
      },
    }),
  "spray-chart": (width, document) =>
    sprayChart(swings, {
      document,
      width,
      field,
      lanes,
      range: {
        carry_ft: 330,
        carry_low_ft: 309,
        carry_high_ft: 352,
        ellipse: { x: -24.3, y: 97.6, long: 11.4, short: 5.6, toward: -0.9, level: 0.8 },
        label: "where eight of ten balls like one of these come down",
      },
    }),
  "spray-chart-odd": (width, document) =>
    sprayChart(odd, {
      document,
      width,
      field,
      units: "metric",
      subtitle: "Hitter A, three sessions",
      target: { spray_angle_deg_low: -15, spray_angle_deg_high: 20 },
    }),
  "spray-chart-tip": (width, document) => sprayChart(swings, { document, width, field, lanes, tip: true }),
  "bucket-strip": (width, document) => bucketStrip(odd, { document, width, figures: wellHit }),
  "zone-map": (width, document) => zoneMap(cells, { document, width, bats: "R" }),
  "zone-map-left": (width, document) => zoneMap(cells, { document, width, bats: "L" }),
  "zone-map-both": (width, document) => zoneMap(cells.slice(0, 5), { document, width }),
  "contact-place": (width, document) =>
    contactPlace(odd, {
      document,
      width,
      bats: "R",
      depth,
      target: {
        contact_side_ft_low: -0.5,
        contact_side_ft_high: 0.5,
        contact_depth_ft_low: 1.2,
        contact_depth_ft_high: 2.4,
      },
    }),
  "contact-place-metric": (width, document) => contactPlace(swings, { document, width, units: "metric" }),
  repeatability: (width, document) => repeatability(odd, { document, width, spread, middle }),
  timing: (width, document) => timing(odd, { document, width, line: timingLine }),
  "timing-left": (width, document) =>
    timing(
      swings.map((row) => ({ ...row, bats: "L" as const, spray_angle_deg: -row.spray_angle_deg! })),
      {
        document,
        width,
        units: "metric",
        line: { ...timingLine, slope: { n: 2, value: null, low: null, high: null } },
      },
    ),
  "flight-side": (width, document) => flightSide(flights.far, { document, width }),
  "flight-side-low": (width, document) =>
    flightSide(flights.low, { document, width, units: "metric", title: "A low one from the side" }),
  "flight-side-behind": (width, document) => flightSide(flights.behind, { document, width }),
  "flight-top": (width, document) => flightTop(flights.far, { document, width }),
  "flight-top-low": (width, document) =>
    flightTop(flights.low, { document, width, units: "metric", title: "A low one from above" }),
  "flight-top-behind": (width, document) => flightTop(flights.behind, { document, width }),
  "last-flight": (width, document) =>
    lastFlight(
      { ...flights.far, carry_ft: flights.far.flight.carry / ft },
      { document, width, field: flights.far.field },
    ),
  "pitch-outcomes": (width, document) => pitchOutcomes(pitches, { document, width }),
  "pitch-outcomes-speed": (width, document) =>
    pitchOutcomes(speeds, { document, width, units: "metric", title: "What came of each pitch, by speed" }),
  waterfall: (width, document) =>
    waterfall(gaps.parts, { document, width, subtitle: "Hitter A, tee to live" }),
  "waterfall-untold": (width, document) =>
    waterfall(gaps.untold, { document, width, units: "metric", title: "What the gap is made of" }),
  "waterfall-angle": (width, document) => waterfall(gaps.angle, { document, width, unit: "deg" }),
  caterpillar: (width, document) =>
    caterpillar(gaps.hitters, {
      document,
      width,
      unit: "mph",
      measure: "Exit velocity beyond the pitch's part",
      group: gaps.group,
      chosen: "Hitter C",
    }),
  "caterpillar-alone": (width, document) =>
    caterpillar(gaps.alone, { document, width, unit: "share", measure: "Power kept, median", from: "flip" }),
  "field-chances": (width, document) =>
    fieldChances(gaps.chances, { document, width, field, fielders: [{ name: "center field", x: 0, y: 97 }] }),
  "field-chances-empty": (width, document) => fieldChances([], { document, width, field, units: "metric" }),
  "group-panels": (width, document) => groupPanels(gaps.groupLines, gaps.groupPanels, { document, width }),
  "group-panels-many": (width, document) =>
    groupPanels(
      Array.from({ length: 30 }, (_, i) => ({ hitter: `Hitter ${i + 1}`, did: `${i} swings` })),
      [
        {
          ...gaps.groupPanels[0]!,
          cells: Array.from({ length: 30 }, (_, i) => gaps.groupPanels[0]!.cells[i % 3]!),
        },
      ],
      { document, width },
    ),
  "pair-grid": (width, document) => pairGrid(gridPairs, { document, width }),
  reliability: (width, document) => reliability(gaps.settlings, { document, width }),
  "within-session": (width, document) =>
    withinSession(swingPanels, swingSession, {
      document,
      width,
      title: "Exit velocity falls within a session",
    }),
  "within-session-metric": (width, document) =>
    withinSession(
      [...swingPanels].reverse(),
      { ...swingSession, rests: [] },
      { document, width, units: "metric" },
    ),
  "season-trends": (width, document) => seasonTrends(panels, { document, width }),
  "season-trends-ceiling": (width, document) =>
    seasonTrends(ceilingPanel, { document, width, units: "metric" }),
  "setup-plan": (width, document) => setupPlan(placement("off"), { document, width }),
  "setup-plan-straight": (width, document) => setupPlan(placement("straight"), { document, width }),
  "setup-plan-far": (width, document) => setupPlan(placement("far"), { document, width }),
  "setup-plan-behind": (width, document) => setupPlan(placement("behind"), { document, width }),
  "setup-plan-beside": (width, document) => setupPlan(placement("beside"), { document, width }),
  "setup-side-behind": (width, document) => setupSide(placement("behind"), { document, width }),
  "setup-side-beside": (width, document) => setupSide(placement("beside"), { document, width }),
  "setup-side": (width, document) => setupSide(placement("off"), { document, width }),
  "setup-side-far": (width, document) => setupSide(placement("far"), { document, width }),
  "drift-shifts": (width, document) => driftShifts(shifts, { document, width, axis: "yaw_deg" }),
  "drift-shifts-tilt": (width, document) => driftShifts(shifts, { document, width, axis: "tilt_deg" }),
};

const nothing = { n: 0, value: null, low: null, high: null };

/** Every chart without a single row. */
export const emptyGallery: typeof gallery = {
  "contact-map-empty": (width, document) => contactMap([], { document, width, surface }),
  "spray-chart-empty": (width, document) => sprayChart([], { document, width, field }),
  "bucket-strip-empty": (width, document) => bucketStrip([], { document, width }),
  "zone-map-empty": (width, document) => zoneMap([], { document, width, bats: "R" }),
  "contact-place-empty": (width, document) => contactPlace([], { document, width }),
  "repeatability-empty": (width, document) =>
    repeatability([], { document, width, spread: { launch_angle_deg: nothing, spray_angle_deg: nothing } }),
  "timing-empty": (width, document) => timing([], { document, width }),
  "waterfall-empty": (width, document) => waterfall(null, { document, width }),
  "caterpillar-empty": (width, document) => caterpillar([], { document, width }),
  "group-panels-empty": (width, document) => groupPanels([], [], { document, width }),
  "pair-grid-empty": (width, document) => pairGrid([], { document, width }),
  "reliability-empty": (width, document) => reliability([], { document, width }),
  "pitch-outcomes-empty": (width, document) => pitchOutcomes([], { document, width }),
  "within-session-empty": (width, document) => withinSession([], swingSession, { document, width }),
  "season-trends-empty": (width, document) => seasonTrends([], { document, width }),
  "drift-shifts-empty": (width, document) => driftShifts([], { document, width, axis: "yaw_deg" }),
};
