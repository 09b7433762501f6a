/** Writes batches one after another, in order; a batch that could not be written is held, and so are all after it. */
import type { CaseEvent } from "../case/index.js";
import type { StoreNews } from "./event-store.js";
import { done, failing, failureOf, type Result, type StoreFailure } from "./store-failure.js";

interface Batch {
  readonly events: readonly CaseEvent[];
  /** Answers the append; `null` once answered, while the batch may still wait. */
  answer: ((result: Result<null>) => void) | null;
}

export interface WriteQueue {
  append(events: readonly CaseEvent[]): Promise<Result<null>>;
  /** Resolves when nothing is being written any more; `ok` when nothing waits. */
  flush(): Promise<Result<null>>;
  readonly waiting: readonly CaseEvent[];
}

/**
 * @param write  all or none; may throw, which counts as a failure that waits
 * @param tell   hears of every batch exactly once that it was kept or refused, and of each failed try
 */
export function createWriteQueue(
  write: (events: readonly CaseEvent[]) => Promise<StoreFailure | null>,
  tell: (news: StoreNews) => void,
): WriteQueue {
  const batches: Batch[] = [];
  let running: Promise<Result<null>> | null = null;

  const settle = (batch: Batch, result: Result<null>) => {
    batch.answer?.(result);
    batch.answer = null;
  };

  /**
   * Works off the head of the queue until it is empty or a write fails. `running` ends before anyone is answered:
   * who appends on hearing the answer must start a new run, not join one that is over.
   */
  const run = async (): Promise<Result<null>> => {
    for (let head = batches[0]; head !== undefined; head = batches[0]) {
      const failure = await write(head.events).catch(failureOf);
      if (failure?.fate === "waits") {
        running = null;
        for (const batch of batches) settle(batch, failing(failure));
        tell({
          type: "trouble",
          failure,
          waiting: batches.reduce((sum, { events }) => sum + events.length, 0),
        });
        return failing(failure);
      }
      batches.shift();
      const last = batches.length === 0;
      if (last) running = null;
      settle(head, failure === null ? done(null) : failing(failure));
      if (failure !== null) tell({ type: "refused", failure, events: head.events });
      else
        for (const of of new Set(head.events.map(({ case: id }) => id)))
          tell({ type: "kept", case: of, here: true });
      if (last) break;
    }
    return done(null);
  };

  const start = (): Promise<Result<null>> => {
    running ??= run();
    return running;
  };

  return {
    append(events) {
      return new Promise((answer) => {
        batches.push({ events, answer });
        void start();
      });
    },
    async flush() {
      while (batches.length > 0) {
        const result = await start();
        if (!result.ok) return result;
      }
      return done(null);
    },
    get waiting() {
      return batches.flatMap((batch) => batch.events);
    },
  };
}
