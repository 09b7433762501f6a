/** One artery to the digit: two sections with a soft, narrowable segment between, and a way round it. */
import { constants as c } from "./constants.js";
import type { Route, Sections } from "./route.js";
import type { Surroundings } from "./surroundings.js";
import { slack, squeeze } from "./tube-law.js";

const halfOpen = 0.5 * c.segment.value;

export class OneArtery implements Route {
  upstream: number;
  downstream: number;
  mainFlow = 0;
  collateralFlow = 0;
  muscleFlow = 0;
  handFlow = 0;
  private inflow = 0;

  constructor(
    private readonly s: Sections,
    private readonly around: Surroundings,
    private readonly dt: number,
    pressure: number,
  ) {
    this.upstream = pressure;
    this.downstream = pressure;
  }

  /** Flows first, each with its own resistance taken at the end of the step; pressures from the new flows. */
  step(): void {
    const { s, around, dt } = this;
    const p1 = this.upstream;
    const p2 = this.downstream;
    const first = dt / s.inertance1;
    const q1 = (this.inflow + first * (around.root - p1)) / (1 + first * s.resistance1);
    const main = segmentFlow(this.mainFlow, p1, p2, s, around, dt);
    const beside = (Math.max(p1, around.cuff) - Math.max(p2, around.cuff)) * around.collateral;
    const muscle = Math.max(p2 - around.muscleFloor, 0) * around.muscle;
    const hand = Math.max(p2 - around.handFloor, 0) * around.hand;
    this.inflow = q1;
    this.mainFlow = main;
    this.collateralFlow = beside;
    this.muscleFlow = muscle;
    this.handFlow = hand;
    this.upstream = p1 + (dt / s.compliance1) * (q1 - main - beside);
    this.downstream = p2 + (dt / (s.compliance2 * slack.at(p2))) * (main + beside - muscle - hand);
  }
}

/** Next flow through the second section. Between E above and E below nothing below is felt; with both below E nothing flows. */
export function segmentFlow(
  flow: number,
  above: number,
  below: number,
  s: Sections,
  around: Surroundings,
  dt: number,
): number {
  const e = around.external;
  const drive = Math.max(above, e) - Math.max(below, e);
  const step = dt / s.inertance2;
  return (flow + step * drive) / (1 + step * (s.resistance2 + hindrance(flow, above, below, s, around)));
}

/** Resistance of the segment: squeezed by the cuff, and narrowed. */
export function hindrance(
  flow: number,
  above: number,
  below: number,
  s: Sections,
  around: Surroundings,
): number {
  const e = around.external;
  const squeezed =
    squeeze.at(Math.max(above, below) - e) +
    squeeze.at(Math.max(Math.min(above, below) - e, s.chokePressure));
  return halfOpen * squeezed + around.linear + around.quadratic * Math.abs(flow);
}
