import { describeReader, type ReaderFixture } from "../testing/reader-contract.js";
import { csvReader } from "./reader.js";
import { bytesOf, waveTable } from "./testing/table-text.js";

/** Rows of one width, so that a byte tells its row: 8 characters of time, comma, 11 of value, line end. */
const fixedWidth = waveTable({ rows: 300, at: (n) => n / 125, stamp: (t) => t.toFixed(3).padStart(8, "0") });
const headerLength = "time_s,PLETH\n".length;

const fixtures: readonly ReaderFixture[] = [
  {
    name: "a clock column of even times",
    file: "even.csv",
    files: { "even.csv": bytesOf(fixedWidth) },
    // The first rows decide how the table is written; damage there may change that for all.
    damage: [
      {
        file: "even.csv",
        from: headerLength + 21 * 60,
        kept: (byte) => [Math.floor((byte - headerLength) / 21) - 1],
      },
    ],
  },
  {
    name: "an uneven millisecond clock with a gap",
    file: "uneven.csv",
    files: {
      "uneven.csv": bytesOf(
        waveTable({
          rows: 500,
          at: (n) => n / 250 + 0.02 * Math.sin(n / 200) + (n > 250 ? 1.7 : 0),
          stamp: (t) => Math.floor(5000 + 1000 * t).toFixed(0),
          header: "clock_ms,PPG Finger",
          lineEnd: "\r\n",
        }),
      ),
    },
  },
  {
    name: "decimal commas, missing cells, a stated rate, no clock",
    file: "comma.txt",
    files: {
      "comma.txt": bytesOf(
        `\ufeff# made up\r\nPLETH;SpO2 [%];event\r\n${Array.from({ length: 200 }, (_, n) => `${n % 7 === 3 ? "" : `${n},25`};97,5;${n === 50 ? '"a ""b""; c"' : ""}\r\n`).join("")}`,
      ),
    },
    options: { rate: 50 },
  },
];

describeReader("csv", csvReader, fixtures, {
  large: () => ({
    name: "five MiB",
    file: "large.csv",
    files: {
      "large.csv": bytesOf(
        fixedWidth.slice(0, headerLength) +
          waveTable({
            rows: 260_000,
            at: (n) => n / 125,
            stamp: (t) => t.toFixed(3).padStart(8, "0"),
            header: "",
          }),
      ),
    },
  }),
});
