/** The reading before an act and the reading after it; the empty half stays in sight until it is filled. */
import type { CaptureGrade } from "../model/index.js";
import type { EventOf } from "./event.js";
import type { CaseView, Pair } from "./view.js";

/** A probe that was off and a trace that could not be read answer nothing, so they close nothing. */
export function answers(grade: CaptureGrade): boolean {
  return grade === "solid" || grade === "shaky" || grade === "none";
}

interface Closer {
  readonly act: string;
  readonly event: string;
  readonly answers: boolean;
}

/** The first that answers closes the pair; later ones change nothing. */
export function closePair(pairs: readonly Pair[], closer: Closer): readonly Pair[] {
  return pairs.map((pair) => {
    if (pair.act !== closer.act || pair.after !== null) return pair;
    return closer.answers
      ? { ...pair, after: closer.event }
      : { ...pair, tries: [...pair.tries, closer.event] };
  });
}

/** Also finds what closes it already: another device's clock may put the reading before the act. */
export function openPair(view: CaseView, event: EventOf<"act-done">): readonly Pair[] {
  const { act, other, limb, before, due } = event.body;
  const when = event.body.when ?? event.at;
  const pair = {
    act: event.id,
    what: act,
    other,
    limb,
    when,
    before,
    after: null,
    due: due ?? when,
    tries: [],
  };
  const closers = [
    ...view.readings.map((one) => ({ one, answers: answers(one.value.grade) })),
    ...view.numbers.map((one) => ({ one, answers: true })),
  ].filter(({ one }) => one.value.closes === event.id);
  return closers.reduce<readonly Pair[]>(
    (pairs, { one, answers }) => closePair(pairs, { act: event.id, event: one.event, answers }),
    [...view.pairs, pair],
  );
}
