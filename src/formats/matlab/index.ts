/** MAT-files of level 5. */
export { matlabReader } from "./reader.js";
