/**
 * What channel names in recordings mean, as rows. The first row that matches decides, so order is
 * knowledge too: a status beats the thing it is the status of, a wave beats the number of that name.
 *
 * Names are matched as lower-case words (`IR_ADC` is `ir adc`, `PulseRate` is `pulse rate`), except
 * where `asWritten` is set: lead names mean something only in capitals.
 *
 * Sources: ISO/IEEE 11073-10101 reference identifiers (`MDC_...`), EDF+ standard texts (edfplus.info,
 * "Standard texts", signal types), PhysioNet signal names (WFDB documentation, and the open recordings
 * in `data/`), LOINC long names. A row without source is common practice.
 */
import type { ChannelKind, LightColour, Polarity } from "../model/index.js";

export interface KindRow {
  /** In the user's words, completes: name "X" means ... */
  readonly says: string;
  readonly name: RegExp;
  /** Must match too, on the unit as written; left out where the name is enough. */
  readonly unit?: RegExp;
  /** Match the name as written, capitals kept. */
  readonly asWritten?: true;
  readonly kind: ChannelKind;
  readonly colour?: LightColour;
  readonly polarity?: Polarity;
}

const processed =
  /\b(filt|filtered|ac|pleth\w*|wave|waveform|normali[sz]ed|norm|display|bandpass|detrended|derivative)\b/;

export const kindRows: readonly KindRow[] = [
  {
    says: "a status, count or mark",
    name: /\b(status|state|flags?|quality|sqi|confidence|alarms?|alerts?|battery|batt|counter|count|seq|sequence|packet|device id|id|events?|markers?|trigger|code|labels?|annotations?|temp|temperature|ambient|barometric|atmospheric|acc|accel\w*|gyro\w*|ratio)\b/,
    kind: "other",
  },
  // MDC_PULS_OXIM_PERF_REL; LOINC "Perfusion index"
  {
    says: "a perfusion index",
    name: /\bperf(usion)? ?(index|idx|indx|rel|mod)\b|^pi( ir| red)?( x ?\d+)?( (pct|percent))?$|\b(pleth|ppg|spo2) pi\b|^perf(usion)?( (pct|percent))?$/,
    kind: "perfusion-index",
  },
  {
    says: "an index of the pleth's variation, not a wave",
    name: /\bpvi\b|\bvariability\b|^hrv\b/,
    kind: "other",
  },
  // EDF+ "Resp"; MDC_RESP..., MDC_AWAY_...; chest-band plethysmography is breathing, not pulse.
  {
    says: "breathing",
    name: /\b(resp|respir\w*|breath\w*|airway|away|airflow|flow|effort|thor\w*|tthor|abdo\w*|chest|imped\w*|inductance|inductive|rip|capno\w*|e?t?co2)\b/,
    kind: "other",
  },
  // MDC_PULS_OXIM_PULS_RATE, MDC_ECG_HEART_RATE, MDC_PULS_RATE
  {
    says: "a pulse or heart rate",
    name: /\b(heart ?rate|pulse ?rate|puls rate|heart ?beats?|bpm)\b|\b(ecg|pleth|ppg|spo2|oxim) (rate|hr|pr)\b/,
    kind: "pulse-rate",
  },
  {
    says: "infrared light, processed",
    name: new RegExp(`(?=.*${processed.source}).*\\b(ir|infra ?red)\\d*\\b`),
    kind: "display-pleth",
    polarity: "systole-up",
  },
  {
    says: "red light, processed",
    name: new RegExp(`(?=.*${processed.source}).*\\bred\\d*\\b`),
    kind: "display-pleth",
    polarity: "systole-up",
  },
  {
    says: "green light, processed",
    name: new RegExp(`(?=.*${processed.source}).*\\bgreen\\d*\\b`),
    kind: "display-pleth",
    polarity: "systole-up",
  },
  {
    says: "raw infrared light",
    name: /\b(ir|infra ?red)\d*\b/,
    kind: "raw-light",
    colour: "infrared",
    polarity: "systole-down",
  },
  {
    says: "raw red light",
    name: /\bred\d*\b/,
    kind: "raw-light",
    colour: "red",
    polarity: "systole-down",
  },
  {
    says: "raw green light",
    name: /\bgreen\d*\b/,
    kind: "raw-light",
    colour: "green",
    polarity: "systole-down",
  },
  // MDC_PULS_OXIM_PLETH; PhysioNet PLETH; "SpO2 waveform" on many monitors' exports.
  {
    says: "a pleth trace",
    name: /\b(pleth\w*|plth|photo ?pleth\w*|ppg\d*)\b|\b(spo2|sao2|pulse|puls|pulse ?ox\w*|oxim\w*)\b.*\b(wave\w*|curve|trace|signal|sensor|raw)\b/,
    kind: "display-pleth",
    polarity: "systole-up",
  },
  {
    says: "a saturation of tissue or veins, not of pulsing blood",
    name: /\b(s[tv] ?o2|scv ?o2|rso2|sjv ?o2|tissue|venous|ven|cerebral)\b/,
    kind: "other",
  },
  // MDC_PULS_OXIM_SAT_O2, MDC_SAT_O2; EDF+ "SaO2"; LOINC "Oxygen saturation in Arterial blood by Pulse oximetry"
  {
    says: "an oxygen saturation",
    name: /\bs[ap] ?o ?2\d?\b|\bsat ?o2\b|\bo2 ?sat\w*\b|\boxygen saturation\b|^(oxygen )?sat(uration)?$/,
    kind: "spo2",
  },
  // MDC_PRESS_BLD_..., MDC_PRESS_CUFF; PhysioNet ABP, ART, PAP, CVP; finger volume-clamp FAP
  {
    says: "a pressure",
    name: /\b(abp\d*|art\d*|bp|nbp|nibp|ibp\d*|pap|cvp|icp|lap|rap|uap|fap|bap|finap|reap|sbp|dbp|systolic|diastolic|cuff|press|pressure|manometer)\b/,
    kind: "pressure",
  },
  { says: "a value in mmHg", name: /(?:)/, unit: /^(mm ?\[?hg\]?|torr)$/i, kind: "pressure" },
  {
    says: "an interval or slope of the ECG, not its wave",
    name: /\b(st|pr|qt|qtc|rr|pq|qrs) ?(interval|int|segment|level|slope|dur\w*)\b|\bampl st\b|^(rr|qt|qtc|st)$/,
    kind: "other",
  },
  // MDC_ECG_ELEC_POTL_...; EDF+ "ECG"
  { says: "an ECG", name: /\b(ecg\w*|ekg\w*|electrocardio\w*)\b/, kind: "ecg" },
  // IEC 60601-2-25 lead names; modified leads as in the MIT-BIH and MIMIC databases; V alone = a precordial lead of a monitor
  {
    says: "an ECG lead",
    name: /^([Ll]ead )?(I{1,3}|[aA]V[RLF]|AV[rlf]|V([1-9]R?)?|ML(I{1,3})|MCL ?\d?|MC\d|MV\d|CM\d|CC\d|CS\d|D[123])[+-]?$/,
    asWritten: true,
    kind: "ecg",
  },
  // Without another word: the number a device prints. MDC_... carry "rate" and are above.
  {
    says: "a pulse or heart rate",
    name: /^(hr|pr|pulse)\b(?! (amp\w*|transit|delay))|\b(hr|pr)$/,
    kind: "pulse-rate",
  },
];

/** Names that say nothing of what is recorded. */
export const namelessWords =
  /^(|x|y|values?|val|data|signals?|samples?|raw|adc|analog|sensor|wave|waveform|trace|amplitude|(column|channel|ch|signal|sensor|a|adc) ?\d+)$/;
