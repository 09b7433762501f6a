/** WFDB records. */
export { parseHeader, type WfdbHeader } from "./header.js";
export { findHeader } from "./header-search.js";
export { wfdbReader } from "./reader.js";
