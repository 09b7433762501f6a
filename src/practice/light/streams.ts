/** Which random stream belongs to what: each has its own, so that turning one control moves no other's draws. */
export const lightStreams = {
  infraredNoise: 0,
  redNoise: 1,
  drift: 2,
  tremor: 3,
  knocks: 4,
  rubbing: 5,
  transport: 6,
  transportSurge: 7,
  heartShake: 8,
  slosh: 9,
  lamps: 10,
} as const;

/** Streams set aside for one probe. */
export const streamsPerProbe = 16;
