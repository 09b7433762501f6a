/** What one event changes in the view. */
import { constrict, markAnew, takenReading } from "./constrictions.js";
import type { EventOf, KnownEvent } from "./event.js";
import { answers, closePair, openPair } from "./pairs.js";
import { sitesMoveSide } from "./sides-moved.js";
import type { CaseView, SourceNow, Told } from "./view.js";

/** What the other events of the case say about this one. */
export interface StepContext {
  /** Ids whose move of a side is confirmed, by themselves or by a correction of theirs. */
  readonly confirmed: ReadonlySet<string>;
  readonly corrected: ReadonlySet<string>;
}

/** @param event next in order, with the body that holds now */
export function stepView(view: CaseView, event: KnownEvent, context: StepContext): CaseView {
  const told = <T>(value: T): Told<T> => ({ value, at: event.at, device: event.device, event: event.id });
  switch (event.kind) {
    case "case-opened":
      return { ...view, name: told(event.body.name) };
    case "step-reached":
      return { ...view, step: told(event.body.step) };
    case "concern-set":
      return { ...view, concern: told(event.body.concern), mechanism: told(event.body.mechanism) };
    case "aim-chosen":
      return { ...view, aim: told(event.body.aim) };
    case "scene-chosen":
      return { ...view, scene: told(event.body.scene) };
    case "pump-marked":
      return { ...view, pump: told(event.body.pump) };
    case "sites-chosen": {
      const sites = told(event.body.sites);
      const moves = view.sites !== null && sitesMoveSide(view.sites.value, sites.value);
      if (moves && !context.confirmed.has(event.id)) return { ...view, sitesToConfirm: sites };
      return { ...view, sites, sitesToConfirm: null };
    }
    case "source-attached":
    case "source-lost":
    case "source-regained":
      return { ...view, sources: stepSources(view.sources, event) };
    case "reading-taken": {
      const { closes, grade } = event.body;
      const closer = closes === null ? null : { act: closes, event: event.id, answers: answers(grade) };
      return {
        ...view,
        readings: [...view.readings, takenReading(view, event)],
        pairs: closer === null ? view.pairs : closePair(view.pairs, closer),
        recheck: answers(grade) ? null : view.recheck,
      };
    }
    case "numbers-typed": {
      const { closes } = event.body;
      const closer = closes === null ? null : { act: closes, event: event.id, answers: true };
      return {
        ...view,
        numbers: [...view.numbers, told(event.body)],
        pairs: closer === null ? view.pairs : closePair(view.pairs, closer),
        recheck: null,
      };
    }
    case "comparison-answered": {
      const outdated = context.corrected.has(event.body.sound) || context.corrected.has(event.body.suspect);
      return { ...view, answers: [...view.answers, { ...told(event.body), outdated }] };
    }
    case "act-done":
      return stepAct({ ...view, pairs: openPair(view, event) }, event);
    case "finding-typed":
      return stepCuff({ ...view, findings: [...view.findings, told(event.body)] }, event);
    case "note-written":
      return { ...view, notes: [...view.notes, told(event.body.text)] };
    case "moment-set": {
      const others = view.moments.filter((one) => one.value.moment !== event.body.moment);
      return { ...view, moments: [...others, told(event.body)] };
    }
    case "recheck-set":
      return { ...view, recheck: told(event.body) };
    case "case-closed":
      return { ...view, closed: told(event.body) };
    // Both act through other events; see `resolve`.
    case "correction":
    case "sides-confirmed":
      return view;
  }
}

function stepAct(view: CaseView, { at, body }: EventOf<"act-done">): CaseView {
  const { act, limb } = body;
  if (limb === null || (act !== "band-on" && act !== "band-off")) return view;
  const constrictions = constrict(view.constrictions, "band", limb, act === "band-on", body.when ?? at);
  return markAnew({ ...view, constrictions });
}

function stepCuff(view: CaseView, { at, body }: EventOf<"finding-typed">): CaseView {
  if (body.finding.item !== "cuff") return view;
  const constrictions = constrict(view.constrictions, "cuff", body.where, body.finding.present, at);
  return markAnew({ ...view, constrictions });
}

function stepSources(
  sources: readonly SourceNow[],
  event: EventOf<"source-attached"> | EventOf<"source-lost"> | EventOf<"source-regained">,
): readonly SourceNow[] {
  const { source } = event.body;
  const before = sources.find((one) => one.source === source);
  const now: SourceNow = {
    source,
    what: event.kind === "source-attached" ? event.body.what : (before?.what ?? null),
    site: event.kind === "source-attached" ? event.body.site : (before?.site ?? null),
    lost: event.kind === "source-lost",
    since: event.at,
  };
  return before === undefined ? [...sources, now] : sources.map((one) => (one === before ? now : one));
}
