/** Said before anyone copies a scenario on a volunteer (S12). Each bears where it comes from. */

/** Supervision, consent, a release in a second hand: common practice, no source. */
export const onAVolunteer =
  "On the simulated limb only, unless a trained supervisor leads, the volunteer has agreed and may stop at any word, and a second person holds the release.";

/**
 * Who is left out: screening for blood-flow restriction, Front Physiol 2022 (10.3389/fphys.2022.808622), and from
 * memory sickle trait, lymphoedema, dialysis arm, neuropathy, broken skin, anticoagulants.
 */
export const whoIsLeftOut =
  "Not on anyone with a clot or clotting trouble, heart, artery, kidney or nerve disease, high pressure, diabetes, pregnancy, sickle trait, lymphoedema, a dialysis arm, broken skin, or taking anticoagulants.";

/** Sixty seconds for a show and five minutes of rest: working default, no source. */
export const shortCuff =
  "A cuff above systolic stays for 60 s at most in a demonstration, up and down fast, then at least 5 minutes of rest; release at any tingling or numbness.";

/** Full tightening can hurt or harm: a study of shielded limbs for training (on tourniquet practice). */
export const noTourniquet =
  "Tightening a tourniquet fully can hurt or harm: practise on a manikin or a shielded limb, never for show on a person.";

/** Height changes on a sound volunteer: common practice, no source. */
export const raiseGently = "Only a limb that is not hurt may be raised or lowered for practice.";

/** Pressing arteries: common practice, no source. */
export const pressGently =
  "Press on a wrist artery only as long as the trace needs, and let go at any discomfort.";

export const protocolDecides = "Local protocol and licensed judgement decide.";
