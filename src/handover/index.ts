/** What a report shows. */

export { chooseRows, type GradeSpan, rowSeconds } from "./choose-rows.js";
export { clockText } from "./clock-text.js";
export { gradeMeanings, gradeSigns } from "./grade-mark.js";
export type { Role } from "./inks.js";
export { decidesLine } from "./page.js";
export type { Cell, SideRow } from "./side-table.js";
export { type StripPicture, type StripRow, stripPicture } from "./strip-picture.js";
export { createThinner, type Thinner, type Trace } from "./trace.js";
export { type WaterlinePicture, type WaterlineSide, waterlinePicture } from "./waterline-picture.js";
