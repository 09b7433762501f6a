/** The practice limb. */
export * from "./errors.js";
