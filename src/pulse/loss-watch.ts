import type { Beat } from "../model/beat.js";
import type { Loss } from "../model/capture.js";
import type { InnerBlock } from "./inner-stream.js";
import type { TraceMemory } from "./trace-memory.js";
export function createLossWatch(_trace: TraceMemory, _sink: (l: Loss) => void) {
  return { take(_b: InnerBlock) {}, beat(_b: Beat) {}, end() {} };
}
