/** Bytes to values. */
export { type InferredKind, inferKind } from "./channel-kind.js";
export { chosenChannels, RecordingError, type RecordingErrorCode } from "./chosen-channels.js";
export { csvReader } from "./csv/reader.js";
export { edfReader } from "./edf/reader.js";
export { fhirReader } from "./fhir/reader.js";
export { matlabReader } from "./matlab/index.js";
export { openRecording, readers } from "./open-recording.js";
export { createProblemLog, type ProblemLog } from "./problem-log.js";
export { readFully } from "./read-fully.js";
export type { ByteSource, Folder, Reader, ReadOptions, Recording } from "./recording.js";
export { ucumUnit } from "./ucum-unit.js";
export { wfdbReader } from "./wfdb/index.js";
