/**
 * Counters that run over: a device's sample counter or millisecond clock of 8, 16 or 32 bits starts again at 0.
 *
 * A whole number that falls back counts on from the top when the fall is one turn of the smallest such counter that could
 * have held all numbers so far, and the step over the top is one the clock makes: at most 4 times the last step
 * forward, or, where a turn is 64 times longer still, up to 32 times it, for packets lost there. Any other fall is a restart.
 */

const turns = [2 ** 8, 2 ** 16, 2 ** 32];

export interface CounterUnwrap {
  /** Times it ran over so far. */
  readonly wraps: number;
  /** Numbers in one turn; `null` before the first. */
  readonly turn: number | null;
  /** The next number as written (NaN: none); given back as if the counter had no top. */
  next(value: number): number;
}

export function createCounterUnwrap(): CounterUnwrap {
  let last = Number.NaN;
  let step = Number.NaN;
  let largest = 0;

  function runsOver(value: number, turn: number): boolean {
    if (!(Number.isInteger(value) && Number.isInteger(last) && value >= 0 && largest < turn)) return false;
    const over = value + turn - last;
    return over > 0 && over <= Math.max(4 * step, Math.min(32 * step, turn / 64));
  }

  const counter = {
    wraps: 0,
    turn: null as number | null,
    next(value: number): number {
      if (Number.isNaN(value)) return value;
      // A number from just below the top, come late after the counter ran over, belongs to the turn before.
      if (counter.turn !== null && value < counter.turn && value > last + counter.turn / 2) {
        return value + (counter.wraps - 1) * counter.turn;
      }
      if (value < last) {
        const turn = counter.turn ?? turns.find((one) => one > largest);
        if (turn !== undefined && runsOver(value, turn)) {
          counter.turn = turn;
          counter.wraps++;
          last = value;
        }
      } else if (value > last) step = value - last;
      // A number behind the one before is no step, and does not move what the next is held against.
      if (!(value < last) || value < last - largest / 2) last = value;
      if (value > largest) largest = value;
      return value + counter.wraps * (counter.turn ?? 0);
    },
  };
  return counter;
}
