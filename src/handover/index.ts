/** What a report shows. */
export { gradeMeanings, gradeSigns } from "./grade-mark.js";
export type { Role } from "./inks.js";
export { decidesLine } from "./page.js";
export type { Cell, SideRow } from "./side-table.js";
export {
  chooseRows,
  clockText,
  type GradeSpan,
  rowSeconds,
  type StripPicture,
  type StripRow,
  stripPicture,
} from "./strip-picture.js";
export { createThinner, type Thinner, type Trace } from "./trace.js";
export { type WaterlinePicture, type WaterlineSide, waterlinePicture } from "./waterline-picture.js";
