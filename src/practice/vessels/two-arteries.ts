/** The hand with two arteries: after the segment a fork into radial and ulnar, joined again by the palmar arch. */
import { constants as c } from "./constants.js";
import { segmentFlow } from "./one-artery.js";
import type { Route, Sections } from "./route.js";
import type { Surroundings } from "./surroundings.js";
import { slack } from "./tube-law.js";

const elbowShare = c.elbowShare.value;
const wristShare = (1 - elbowShare) / 2;

export class TwoArteries implements Route {
  upstream: number;
  /** Radial side: thumb and index finger. */
  downstream: number;
  mainFlow = 0;
  collateralFlow = 0;
  muscleFlow = 0;
  handFlow = 0;
  private inflow = 0;
  private throughSegment = 0;
  private elbow: number;
  private radialFlow = 0;
  private ulnarFlow = 0;
  private ulnarSide: number;

  /** Half of the second section lies above the fork. */
  private readonly upper: Sections;

  constructor(
    private readonly s: Sections,
    private readonly around: Surroundings,
    private readonly dt: number,
    pressure: number,
  ) {
    this.upper = { ...s, inertance2: s.inertance2 * 0.5, resistance2: s.resistance2 * 0.5 };
    this.upstream = pressure;
    this.elbow = pressure;
    this.downstream = pressure;
    this.ulnarSide = pressure;
  }

  step(): void {
    const { s, around, dt } = this;
    const p1 = this.upstream;
    const p2 = this.elbow;
    const radialSide = this.downstream;
    const ulnarSide = this.ulnarSide;

    const first = dt / s.inertance1;
    const q1 = (this.inflow + first * (around.root - p1)) / (1 + first * s.resistance1);
    const main = segmentFlow(this.throughSegment, p1, p2, this.upper, around, dt);
    const beside = (Math.max(p1, around.cuff) - Math.max(p2, around.cuff)) * around.collateral;
    const muscle = Math.max(p2 - around.muscleFloor, 0) * around.muscle;

    // A whole second section in each forearm artery: side by side they are the other half.
    const fork = dt / s.inertance2;
    const radial =
      (this.radialFlow + fork * (p2 - radialSide)) / (1 + fork * (s.resistance2 + around.radial));
    const ulnar = (this.ulnarFlow + fork * (p2 - ulnarSide)) / (1 + fork * (s.resistance2 + around.ulnar));

    const toRadialSkin = Math.max(radialSide - around.handFloor, 0) * around.hand * 0.5;
    const toUlnarSkin = Math.max(ulnarSide - around.handFloor, 0) * around.hand * 0.5;
    const wrist = s.compliance2 * wristShare;
    const perRadial = dt / (wrist * slack.at(radialSide));
    const perUlnar = dt / (wrist * slack.at(ulnarSide));
    const radialFree = radialSide + perRadial * (radial - toRadialSkin);
    const ulnarFree = ulnarSide + perUlnar * (ulnar - toUlnarSkin);
    // The arch may be all but open: its flow is solved with the pressures it leaves.
    const across = (ulnarFree - radialFree) / (1 + (perRadial + perUlnar) * around.arch);
    const archFlow = across * around.arch;

    this.inflow = q1;
    this.throughSegment = main;
    this.radialFlow = radial;
    this.ulnarFlow = ulnar;
    this.muscleFlow = muscle;
    this.handFlow = toRadialSkin + toUlnarSkin;
    const roundSegment = Math.abs(beside) / (Math.abs(beside) + Math.abs(main) + 1e-12);
    this.mainFlow = radial * (1 - roundSegment);
    this.collateralFlow = archFlow + radial * roundSegment;
    this.upstream = p1 + (dt / s.compliance1) * (q1 - main - beside);
    this.elbow =
      p2 + (dt / (s.compliance2 * elbowShare * slack.at(p2))) * (main + beside - muscle - radial - ulnar);
    this.downstream = radialFree + perRadial * archFlow;
    this.ulnarSide = ulnarFree - perUlnar * archFlow;
  }
}
