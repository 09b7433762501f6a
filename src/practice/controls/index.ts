/** Everything that can be turned while the practice limb runs. */
export type { ControlRow } from "./control-row.js";
export * from "./heart-controls.js";
export * from "./site-controls.js";
export * from "./values.js";
