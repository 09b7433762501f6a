/** Natural logarithms of whole numbers, looked up: distances in samples are compared often. */

export type LogTable = (whole: number) => number;

/** @param upTo largest whole number held; above it the logarithm is worked out */
export function createLogTable(upTo: number): LogTable {
  const logs = Float64Array.from({ length: upTo + 1 }, (_, n) => Math.log(n));
  return (whole) => (whole <= upTo ? logs[whole]! : Math.log(whole));
}
