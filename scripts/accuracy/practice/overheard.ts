/** A practice body with the project's own ear at each probe. */
import { createSiteListener, type SiteListener, type SiteSink } from "../../../src/limb/index.js";
import { type Channel, hertz, type Site, seconds } from "../../../src/model/index.js";
import { Body, type BodyPlan, type SiteBlock } from "../../../src/practice/index.js";

/** Converter steps over full scale. */
const fullScale = 2 ** 18;

export function lightChannel(rate: number): Channel {
  return {
    name: "IR",
    kind: "raw-light",
    colour: "infrared",
    polarity: "systole-down",
    unit: "count",
    rate: hertz(rate),
    start: seconds(0),
    samples: null,
    because: "practice limb",
  };
}

export interface Overheard {
  readonly body: Body;
  readonly ears: readonly SiteListener[];
  /** Runs on by whole samples; `look` sees each block before the next one overwrites it. */
  advance(samples: number, look?: (sites: readonly SiteBlock[], first: number) => void): void;
  end(): void;
}

/** @param sinks what each ear tells, in the plan's order */
export function overhear(plan: BodyPlan, sinks: readonly SiteSink[] = [], keep = 60): Overheard {
  const body = new Body(plan);
  const ears = plan.sites.map(({ at }, s) =>
    createSiteListener(
      { channel: lightChannel(plan.rate), site: at.digit === "ear" ? null : (at as Site), keep },
      sinks[s],
    ),
  );
  return {
    body,
    ears,
    advance(samples, look) {
      const { sites, first } = body.advance(samples);
      for (const [s, { infrared }] of sites.entries()) {
        ears[s]!.push(infrared.map((value) => value * fullScale));
      }
      look?.(sites, first);
    },
    end() {
      for (const ear of ears) ear.end();
    },
  };
}

/** The two settings of the unsettled constant, mmHg: what is scored is scored at both. */
export const chokePressures = [-2, -12] as const;
