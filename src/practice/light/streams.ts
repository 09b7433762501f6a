/** Which random stream belongs to what: each has its own, so that turning one control moves no other's draws. */
export const lightStreams = {
  infraredNoise: 0,
  redNoise: 1,
  drift: 2,
  tremor: 3,
  knocks: 4,
  knockTimes: 5,
  rubbing: 6,
  transport: 7,
  transportSurge: 8,
  heartShake: 9,
  slosh: 10,
  lamps: 11,
} as const;

/** Streams set aside for one probe. */
export const streamsPerProbe = 16;
