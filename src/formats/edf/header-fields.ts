/**
 * The fixed-width fields of an EDF header and how their text becomes values.
 *
 * @see B. Kemp et al., "A simple format for exchange of digitized polygraphic recordings",
 *   Electroencephalogr. Clin. Neurophysiol. 82:391-393, 1992 (field widths);
 *   B. Kemp and J. Olivan, "European data format 'plus' (EDF+)", Clin. Neurophysiol. 114:1755-1761, 2003
 */

/** Start and width in bytes within the first 256. */
export const fileFields = {
  version: [0, 8],
  patient: [8, 80],
  recording: [88, 80],
  startDate: [168, 8],
  startTime: [176, 8],
  headerBytes: [184, 8],
  reserved: [192, 44],
  records: [236, 8],
  duration: [244, 8],
  signals: [252, 4],
} as const;

/** Widths in bytes; each field is there once per signal, all of one field together. */
export const signalFields = [
  ["label", 16],
  ["transducer", 80],
  ["unit", 8],
  ["physicalMinimum", 8],
  ["physicalMaximum", 8],
  ["digitalMinimum", 8],
  ["digitalMaximum", 8],
  ["prefilter", 80],
  ["samplesPerRecord", 8],
  ["reserved", 32],
] as const;

export type SignalFieldName = (typeof signalFields)[number][0];

export const fixedHeaderBytes = 256;
/** Header bytes for each signal. */
export const signalHeaderBytes = 256;

/** Text of one field; bytes above 127 are read as Latin-1, the commonest breach of "ASCII only". */
export function fieldText(bytes: Uint8Array, from: number, width: number): string {
  let text = "";
  for (let n = from; n < from + width; n++) text += String.fromCharCode(bytes[n] ?? 32);
  // A micro sign written as UTF-8 shows as two Latin-1 characters.
  return (text.split("\0")[0] ?? "").replace(/\u00c2\u00b5/g, "\u00b5").trim();
}

/** A number as EDF writes it; `null` for anything else. A decimal comma is taken as a point. */
export function fieldNumber(text: string): number | null {
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i.test(text)) return null;
  const value = Number(text.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/** A whole number as EDF writes it; `null` for anything else. */
export function fieldCount(text: string): number | null {
  const value = fieldNumber(text);
  return value !== null && Number.isSafeInteger(value) ? value : null;
}
