/** The presence part of the accuracy page, with its pictures. */
import { drawChart } from "./chart.js";
import { decimals, shareOf, tableOf } from "./markdown.js";
import { fractions, type PresenceFigures } from "./presence.js";

/** @returns the lines of the page, and pictures by file name */
export function pageOfPresence(figures: PresenceFigures): {
  readonly lines: string[];
  readonly pictures: Readonly<Record<string, string>>;
} {
  const { falseAlarms, tones, round, coverage, power, nulls, putBack, alone, trials } = figures;
  const withReference = falseAlarms.filter((row) => row.test !== "alone");
  const without = falseAlarms.filter((row) => row.test === "alone");
  const records = [...new Set(putBack.map((row) => row.name))];
  const lines = [
    "## Presence",
    "",
    "### False alarms with a reference (synthetic noise)",
    "",
    `${trials} trials a row, 50 to 110/min. *claimed* is \`found\` or \`likely\` after all guards. A 1 % test should fire 1 % of the time; less on breathing and lines is no fault.`,
    "",
    tableOf(
      ["window, s", "test", "noise", "p < 0.01", "p < 0.001", "claimed", "found"],
      withReference.map((row) => [
        row.seconds,
        row.test,
        row.noise,
        shareOf(row.atOnePercent, 2),
        shareOf(row.atOnePerMille, 2),
        shareOf(row.claimed, 2),
        shareOf(row.found, 2),
      ]),
    ),
    "",
    "### Steady tones, and pulses as round as one (synthetic)",
    "",
    "A tone that runs by the clock (mains alias, a fan) is told from a pulse by the unevenness of the beats and by the harmonics it lacks; where it",
    "rather looks like a tone, p is raised to 1 and the answer is `cannot-tell`. Bar: not above the interval of 1 %. The rows *line* above, of 10 and 20 s:",
    "",
    tableOf(
      ["window, s", "test", "p < 0.01", "p < 0.001", "claimed", "found"],
      withReference
        .filter((row) => row.noise === "line" && row.seconds >= 10)
        .map((row) => [
          row.seconds,
          row.test,
          shareOf(row.atOnePercent, 2),
          shareOf(row.atOnePerMille, 2),
          shareOf(row.claimed, 2),
          shareOf(row.found, 2),
        ]),
    ),
    "",
    "Tones by size, delay searched, 3 % interval scatter. *amplitude* is over the noise's SD per sample, 50 samples/s:",
    "",
    tableOf(
      ["window, s", "amplitude", "p < 0.01", "found", "likely"],
      tones.map((row) => [
        row.seconds,
        row.amplitude,
        shareOf(row.atOnePercent, 2),
        shareOf(row.found, 2),
        shareOf(row.likely, 2),
      ]),
    ),
    "",
    "What that guard costs: real but round pulses, as behind a narrowing. At almost even beats (a paced heart) one close to a bare sine cannot be told from a tone.",
    "",
    tableOf(
      ["window, s", "shape", "interval scatter", "amplitude", "found", "likely"],
      round.map((row) => [
        row.seconds,
        row.what,
        `${100 * row.scatter} %`,
        row.amplitude,
        shareOf(row.found),
        shareOf(row.likely),
      ]),
    ),
    "",
    "### False alarms without a reference (synthetic noise)",
    "",
    "The bare p of the periodicity test is calibrated on pink noise only, and means nothing on waves that are not noise; what counts is what is claimed after the guards.",
    "",
    tableOf(
      ["window, s", "noise", "bare p < 0.01", "claimed", "found"],
      without.map((row) => [
        row.seconds,
        row.noise,
        shareOf(row.atOnePercent, 2),
        shareOf(row.claimed, 2),
        shareOf(row.found, 2),
      ]),
    ),
    "",
    "### Power against the ideal matched filter (synthetic, white noise, 1 % test)",
    "",
    "Loss in dB at 90 % power. Bars: 1.5 dB with delay and shape known, 2 dB generic shape, 3 dB delay searched (20 s); without a reference 7 dB at 3 % interval scatter. The sharp shapes of `data` and `data2` have no bar of their own; the second template sought lies between them, so it is not blind to them.",
    "",
    tableOf(
      ["case", "window, s", "loss, dB"],
      power.map(({ name, seconds, lossAtNinety }) => [name, seconds, decimals(lossAtNinety, 2)]),
    ),
    "",
    "![Power curves](accuracy/power.svg)",
    "",
    "### Upper limit when nothing is found (synthetic)",
    "",
    "How often the true size lies below the limit, counted at any answer; nominal 95 %, bar 94 %. *d* is the signal's energy for the ideal filter.",
    "A pulse of d = 6 is seldom missed; in the few windows where it is, the limit was low by the same bad luck and covers it less often than this.",
    "",
    "By shape, the worst cell of each:",
    "",
    tableOf(
      ["shape", "worst cell", "covered"],
      [...new Set(coverage.map((row) => row.shape))].map((shape) => {
        const worst = coverage
          .filter((row) => row.shape === shape)
          .reduce((least, row) => (row.covered.value < least.covered.value ? row : least));
        return [shape, `${worst.noise}, ${worst.seconds} s, d = ${worst.d}`, shareOf(worst.covered)];
      }),
    ),
    "",
    "All cells:",
    "",
    tableOf(
      ["shape", "noise", "window, s", "d", "covered", "median limit / noise SD"],
      coverage.map((row) => [
        row.shape,
        row.noise,
        row.seconds,
        row.d,
        shareOf(row.covered),
        decimals(row.medianLimit, 2),
      ]),
    ),
    "",
    "### Real recordings with the pulse taken out (altered)",
    "",
    "*own beats*: against the marks of the pulse that was there, which flatters, since the subtraction thins the noise at its harmonics. *unrelated beats* is the figure to quote. Bar: at most 1 % at p < 0.001.",
    "",
    tableOf(
      ["record", "window, s", "beats", "phases randomised", "p < 0.01", "p < 0.001"],
      nulls.map((row) => [
        `\`${row.name}\``,
        row.seconds,
        row.beats,
        row.randomised ? "yes" : "no",
        shareOf(row.atOnePercent),
        shareOf(row.atOnePerMille),
      ]),
    ),
    "",
    "### The pulse put back at a fraction of its size (altered)",
    "",
    "Share `found`. The reference is the R wave where there is an ECG, else the channel's own marked feet.",
    "",
    tableOf(
      [
        "record",
        "reference",
        "window, s",
        ...fractions.map((fraction) => (fraction === 0 ? "0" : `1/${1 / fraction}`)),
      ],
      records.flatMap((name) =>
        [...new Set(putBack.filter((row) => row.name === name).map((row) => row.seconds))].map((seconds) => {
          const rows = putBack.filter((row) => row.name === name && row.seconds === seconds);
          return [
            `\`${name}\``,
            rows[0]!.reference,
            seconds,
            ...fractions.map((fraction) => {
              const found = rows.find((row) => row.fraction === fraction)?.found;
              return found === undefined || found.trials === 0 ? "–" : `${Math.round(100 * found.value)} %`;
            }),
          ];
        }),
      ),
    ),
    "",
    "![Where detection ends](accuracy/put-back.svg)",
    "",
    "### Labelled windows without a reference (real recordings)",
    "",
    tableOf(
      ["window, s", "label", "found", "claimed", "rate within 5 %, of those claimed"],
      alone.map((row) => [
        row.seconds,
        row.label,
        shareOf(row.found),
        shareOf(row.claimed),
        shareOf(row.rateRight),
      ]),
    ),
    "",
  ];
  const percentTicks = [0, 25, 50, 75, 100];
  return {
    lines,
    pictures: {
      "power.svg": drawChart({
        title: "Power of the presence test, 20 s, white noise, 1 % test",
        x: { label: "signal above the ideal filter's need, dB", from: 0, to: 8, ticks: [0, 2, 4, 6, 8] },
        y: { label: "detected, %", from: 0, to: 100, ticks: percentTicks },
        lines: power
          .filter((curve) => curve.seconds === 20)
          .slice(0, 6)
          .map(({ name, points }) => ({
            name,
            points: points.map(({ loss, power: p }) => [loss, 100 * p.value] as const),
          })),
      }),
      "put-back.svg": drawChart({
        title: "Real pulses put back smaller, 10 s windows",
        x: { label: "share of the pulse's own size", from: 0, to: 6, ticks: [0, 1, 2, 3, 4, 5, 6] },
        y: { label: "found, %", from: 0, to: 100, ticks: percentTicks },
        tickText: (x) => (x === 0 ? "1" : `1/${2 ** x}`),
        lines: records
          .map((name) => ({
            name,
            points: putBack
              .filter(
                (row) =>
                  row.name === name && row.seconds === 10 && row.fraction > 0 && row.found.trials >= 10,
              )
              .map((row) => [-Math.log2(row.fraction), 100 * row.found.value] as const),
          }))
          .filter(({ points }) => points.length > 1)
          .slice(0, 6),
      }),
    },
  };
}
