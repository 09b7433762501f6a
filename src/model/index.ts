/** The nouns of the project. */
export * from "./beat.js";
export * from "./block.js";
export * from "./capture.js";
export * from "./channel.js";
export * from "./estimate.js";
export * from "./presence.js";
export * from "./problem.js";
export * from "./site.js";
export * from "./units.js";
