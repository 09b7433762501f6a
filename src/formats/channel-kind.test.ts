import { describe, expect, test } from "vitest";
import { inferKind, inferLoneKind } from "./channel-kind.js";

// Names from open recordings (BIDMC, MIMIC, CinC 2015, PhysioKit, vital_sqi; see data/README.md), ISO/IEEE 11073-10101
// identifiers, EDF+ standard texts and LOINC long names; the rest marked c.p. is common practice, no source.
const table: readonly (readonly [name: string, unit: string, kind: string, colour?: string])[] = [
  // vital_sqi red_ir_spo2
  ["PULSE_BPM", "", "pulse-rate"],
  ["SPO2_PCT", "", "spo2"],
  ["SPO2_STATUS", "", "other"],
  ["PLETH", "", "display-pleth"],
  ["BATTERY_PCT", "", "other"],
  ["COUNTER", "", "other"],
  ["DEVICE_ID", "", "other"],
  ["RED_ADC", "", "raw-light", "red"],
  ["IR_ADC", "", "raw-light", "infrared"],
  ["PERFUSION_INDEX", "", "perfusion-index"],
  // PhysioKit
  ["EDA", "", "other"],
  ["Resp", "", "other"],
  ["PPG Finger", "", "display-pleth"],
  ["PPG Ear", "", "display-pleth"],
  ["event_code", "", "other"],
  // BIDMC, CinC 2015, MIMIC 041
  ["RESP", "", "other"],
  ["V", "", "ecg"],
  ["AVR", "", "ecg"],
  ["II", "", "ecg"],
  ["III", "mV", "ecg"],
  ["I", "mV", "ecg"],
  ["ABP", "mmHg", "pressure"],
  ["PAP", "mmHg", "pressure"],
  ["ART", "mmHg", "pressure"],
  ["MLII", "mV", "ecg"],
  ["MCL1", "mV", "ecg"],
  ["aVF", "mV", "ecg"],
  ["V5", "mV", "ecg"],
  // EDF files and EDF+ standard texts
  ["Pleth", "mNU", "display-pleth"],
  ["ECG II", "uV", "ecg"],
  ["EKG", "uV", "ecg"],
  ["Resp imp", "", "other"],
  ["SpO2", "%", "spo2"],
  ["SaO2", "%", "spo2"],
  ["Pulse", "bpm", "pulse-rate"],
  ["PI x10", "%", "perfusion-index"],
  ["EEG F4-M1", "uV", "other"],
  // mnirs
  ["VL_O2Hb_uM", "", "other"],
  ["VL_HHb_uM", "", "other"],
  ["event", "", "other"],
  // ISO/IEEE 11073-10101
  ["MDC_PULS_OXIM_SAT_O2", "%", "spo2"],
  ["MDC_PULS_OXIM_PLETH", "", "display-pleth"],
  ["MDC_PULS_OXIM_PULS_RATE", "{beat}/min", "pulse-rate"],
  ["MDC_PULS_OXIM_PERF_REL", "%", "perfusion-index"],
  ["MDC_PULS_OXIM_DEV_STATUS", "", "other"],
  ["MDC_ECG_ELEC_POTL_II", "mV", "ecg"],
  ["MDC_ECG_HEART_RATE", "/min", "pulse-rate"],
  ["MDC_PRESS_BLD_ART_ABP", "mm[Hg]", "pressure"],
  ["MDC_PRESS_CUFF", "mm[Hg]", "pressure"],
  ["MDC_RESP_RATE", "/min", "other"],
  // LOINC long names
  ["Oxygen saturation in Arterial blood by Pulse oximetry", "%", "spo2"],
  ["Heart rate", "/min", "pulse-rate"],
  ["Perfusion index Tissue by Pulse oximetry", "%", "perfusion-index"],
  // c.p.
  ["ir", "", "raw-light", "infrared"],
  ["red", "", "raw-light", "red"],
  ["ppg_ir", "", "raw-light", "infrared"],
  ["IR raw", "", "raw-light", "infrared"],
  ["irValue", "", "raw-light", "infrared"],
  ["Infrared", "counts", "raw-light", "infrared"],
  ["PPG green", "", "raw-light", "green"],
  ["ppg_ir_filtered", "", "display-pleth"],
  ["IR temperature", "", "other"],
  ["red/ir ratio", "", "other"],
  ["SpO2 waveform", "", "display-pleth"],
  ["pleth wave", "", "display-pleth"],
  ["Pleth quality", "", "other"],
  ["PulseRate", "", "pulse-rate"],
  ["HR", "", "pulse-rate"],
  ["PR", "", "pulse-rate"],
  ["PR interval", "ms", "other"],
  ["PI", "%", "perfusion-index"],
  ["PVI", "%", "other"],
  ["StO2", "%", "other"],
  ["cuff pressure", "", "pressure"],
  ["p3", "mmHg", "pressure"],
  ["pulse pressure", "", "pressure"],
  ["Inductance plethysmograph", "", "other"],
  ["i", "", "other"],
  ["", "", "other"],
];

describe("what a name means", () => {
  const rows = table.map(([name, unit, kind, colour]) => ({ name, unit, kind, colour: colour ?? null }));
  test.each(rows)("$name [$unit] is $kind", ({ name, unit, kind, colour }) => {
    const got = inferKind({ name, unit });
    expect([got.kind, got.colour]).toEqual([kind, colour]);
    expect(got.polarity).toBe(kind === "raw-light" ? "systole-down" : "systole-up");
    expect(got.because).not.toBe("");
  });

  test("what the user states overrides the name, with or without the same capitals", () => {
    const kinds = { PLETH: "infrared", ir_adc: "display" } as const;
    expect(inferKind({ name: "PLETH" }, { kinds })).toEqual({
      kind: "raw-light",
      colour: "infrared",
      polarity: "systole-down",
      because: "stated by the user",
    });
    expect(inferKind({ name: "IR_ADC" }, { kinds }).kind).toBe("display-pleth");
    expect(inferKind({ name: "constructor" }, { kinds }).kind).toBe("other");
  });
});

describe("the only column of a source", () => {
  test.each([
    ["hr", 117, "display-pleth", true],
    ["hr", 1, "pulse-rate", false],
    ["", 100, "display-pleth", true],
    ["value", 100, "display-pleth", true],
    ["column 1", 100, "display-pleth", true],
    ["", 4, "other", false],
    ["temperature", 100, "other", false],
    ["ECG", 250, "ecg", false],
    ["ir", 100, "raw-light", false],
  ])("named '%s' at %d per second is %s", (name, rate, kind, assumed) => {
    const got = inferLoneKind({ name }, rate);
    expect([got.kind, got.assumed]).toEqual([kind, assumed]);
  });
});
