/** One step of a streaming chain: a sample in, a value out, history inside. */
export interface Stage<In, Out> {
  /** Consumes one sample. Constant time, allocates nothing. */
  next(sample: In): Out;
  /** Forgets all history. Call it at every gap in the input. */
  reset(): void;
}
