/** How much memory a piece of work asks for, collected or not: the sampling profiler of the engine, from inside. */
import { type HeapProfiler, Session } from "node:inspector";

/** Mean distance of the samples taken, bytes: some ten thousand of them for a channel-day. */
const samplingInterval = 4096;

const sizeOf = (node: HeapProfiler.SamplingHeapProfileNode): number =>
  node.children.reduce((sum, child) => sum + sizeOf(child), node.selfSize);

/** @returns bytes on the heap while `work` ran, an estimate to one or two per cent; never call it around what is timed */
export function allocatedBy(work: () => void): number {
  const session = new Session();
  session.connect();
  session.post("HeapProfiler.startSampling", {
    samplingInterval,
    includeObjectsCollectedByMajorGC: true,
    includeObjectsCollectedByMinorGC: true,
  } as HeapProfiler.StartSamplingParameterType);
  work();
  let bytes = Number.NaN;
  session.post("HeapProfiler.stopSampling", (error, result) => {
    if (error === null) bytes = sizeOf(result.profile.head);
  });
  session.disconnect();
  return bytes;
}
