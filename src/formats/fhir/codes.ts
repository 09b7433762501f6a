/**
 * Codes of what a series measures, as rows.
 *
 * @see ISO/IEEE 11073-10101 (nomenclature; partition 2 terms as 32-bit codes), LOINC
 */
import type { Channel } from "../../model/index.js";
import type { Json } from "./json.js";
import { textAt } from "./json.js";

export interface CodeRow {
  readonly system: "mdc" | "loinc";
  readonly code: string;
  readonly name: string;
  readonly kind: Channel["kind"];
}

export const codeRows: readonly CodeRow[] = [
  { system: "mdc", code: "150452", name: "MDC_PULS_OXIM_PLETH", kind: "display-pleth" },
  { system: "mdc", code: "150456", name: "MDC_PULS_OXIM_SAT_O2", kind: "spo2" },
  { system: "mdc", code: "149530", name: "MDC_PULS_OXIM_PULS_RATE", kind: "pulse-rate" },
  { system: "mdc", code: "150448", name: "MDC_PULS_OXIM_PERF_REL", kind: "perfusion-index" },
  { system: "mdc", code: "150604", name: "MDC_PULS_OXIM_DEV_STATUS", kind: "other" },
  { system: "mdc", code: "147842", name: "MDC_ECG_HEART_RATE", kind: "pulse-rate" },
  { system: "mdc", code: "150021", name: "MDC_PRESS_BLD_NONINV_SYS", kind: "pressure" },
  { system: "mdc", code: "150022", name: "MDC_PRESS_BLD_NONINV_DIA", kind: "pressure" },
  { system: "mdc", code: "150023", name: "MDC_PRESS_BLD_NONINV_MEAN", kind: "pressure" },
  // The four ECG codes as in the FHIR specification's own SampledData example.
  { system: "mdc", code: "131328", name: "MDC_ECG_ELEC_POTL", kind: "ecg" },
  { system: "mdc", code: "131329", name: "MDC_ECG_ELEC_POTL_I", kind: "ecg" },
  { system: "mdc", code: "131330", name: "MDC_ECG_ELEC_POTL_II", kind: "ecg" },
  { system: "mdc", code: "131389", name: "MDC_ECG_ELEC_POTL_III", kind: "ecg" },
  { system: "loinc", code: "59408-5", name: "SpO2 by pulse oximetry", kind: "spo2" },
  { system: "loinc", code: "2708-6", name: "Arterial oxygen saturation", kind: "spo2" },
  { system: "loinc", code: "8889-8", name: "Heart rate by pulse oximetry", kind: "pulse-rate" },
  { system: "loinc", code: "8867-4", name: "Heart rate", kind: "pulse-rate" },
  { system: "loinc", code: "61006-3", name: "Perfusion index by pulse oximetry", kind: "perfusion-index" },
  { system: "loinc", code: "73798-1", name: "Perfusion index, preductal", kind: "perfusion-index" },
  { system: "loinc", code: "73794-0", name: "Perfusion index, postductal", kind: "perfusion-index" },
  { system: "loinc", code: "8480-6", name: "Systolic pressure", kind: "pressure" },
  { system: "loinc", code: "8462-4", name: "Diastolic pressure", kind: "pressure" },
  { system: "loinc", code: "8478-0", name: "Mean pressure", kind: "pressure" },
];

/** The nomenclature by its URN, or by its object identifier as in older files. */
const systems: Readonly<Record<string, CodeRow["system"]>> = {
  "urn:iso:std:iso:11073:10101": "mdc",
  "urn:oid:2.16.840.1.113883.6.24": "mdc",
  "http://loinc.org": "loinc",
};

/** The row of the first coding that is known; a code counts only together with its system. */
export function knownCode(codings: readonly Json[]): CodeRow | null {
  for (const coding of codings) {
    const system = systems[textAt(coding, "system") ?? ""];
    const code = textAt(coding, "code");
    const row = codeRows.find((one) => one.system === system && one.code === code);
    if (row !== undefined) return row;
  }
  return null;
}
