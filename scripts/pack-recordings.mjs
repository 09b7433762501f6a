/**
 * Makes `data/` from the full collection of open recordings in `../shared/data`.
 * Lossless: only columns are left out and numbers written more tightly; each value that stays is checked.
 * Run by hand when the collection changes: node scripts/pack-recordings.mjs
 */
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";

const from = new URL("../../shared/data/", import.meta.url);
const to = new URL("../data/", import.meta.url);
const text = (name) => readFileSync(new URL(name, from), "utf8");
const rows = (name) =>
  text(name)
    .split(/\r?\n/)
    .filter((line) => line !== "")
    .map((line) => line.split(",").map((cell) => cell.trim()));

for (const folder of ["recordings", "beats", "windows", "LICENSES"]) {
  rmSync(new URL(folder, to), { recursive: true, force: true });
  mkdirSync(new URL(folder, to), { recursive: true });
}
for (const folder of ["beats", "windows", "LICENSES"]) {
  cpSync(new URL(folder, from), new URL(folder, to), { recursive: true });
}
for (const name of [
  "wfdb/a103l.hea",
  "wfdb/a103l.mat",
  "wfdb/041s/041s.hea",
  "wfdb/041s/041s01.hea",
  "wfdb/041s/041s01.dat",
  "wfdb/041s/041s02.hea",
  "wfdb/041s/041s02.dat",
  "finger/data.csv",
  "finger/data2.csv",
  "finger/noisy_20s_1000hz.txt",
  "fhir/observation-example-sample-data.json",
]) {
  cpSync(new URL(name, from), new URL(`recordings/${name.split("/").at(-1)}`, to));
}

/** A column as whole numbers: value = number / gain, checked against the text it came from. */
function whole(cells, gain, digits) {
  return cells.map((cell) => {
    if (cell === null) return null;
    const number = Math.round(Number(cell) * gain);
    if (Math.abs(number / gain - Number(cell)) > 0.5 * 10 ** -digits)
      throw new Error(`${cell} is not n/${gain}`);
    return number;
  });
}

/** WFDB signal groups in format 16 or 24, two's complement, little-endian, with header line checksums. */
function wfdb(name, rate, groups, comments) {
  const lines = [];
  let length = 0;
  for (const { format, signals } of groups) {
    const bytes = format / 8;
    const invalid = -(2 ** (format - 1));
    const file = `${name}_${format}.dat`;
    length = signals[0].numbers.length;
    const buffer = Buffer.alloc(length * signals.length * bytes);
    signals.forEach(({ label, gain, unit, numbers }, s) => {
      let sum = 0;
      numbers.forEach((n, i) => {
        const value = n ?? invalid;
        buffer.writeIntLE(value, (i * signals.length + s) * bytes, bytes);
        sum = (sum + value) | 0;
      });
      const checksum = (sum << 16) >> 16;
      lines.push(
        `${file} ${format} ${gain}(0)/${unit} ${format} 0 ${numbers[0] ?? invalid} ${checksum} 0 ${label}`,
      );
    });
    writeFileSync(new URL(`recordings/${file}`, to), buffer);
  }
  const head = `${name} ${lines.length} ${rate} ${length}`;
  const header = [head, ...lines, ...comments.map((line) => `# ${line}`)].join("\n");
  writeFileSync(new URL(`recordings/${name}.hea`, to), `${header}\n`);
}

const [bidmcHead, ...bidmc] = rows("ppg-ecg/bidmc_01_Signals.csv");
const column = (head, table, label) => table.map((row) => row[head.indexOf(label)] || null);
wfdb(
  "bidmc_01",
  125,
  [
    {
      format: 16,
      signals: [
        {
          label: "PLETH",
          gain: 1023,
          unit: "NU",
          numbers: whole(column(bidmcHead, bidmc, "PLETH"), 1023, 4),
        },
        { label: "II", gain: 510, unit: "mV", numbers: whole(column(bidmcHead, bidmc, "II"), 510, 4) },
      ],
    },
  ],
  ["PLETH and II of bidmc_01 (ODC-By 1.0), the whole record"],
);

const [redHead, ...red] = rows("red-ir/red_ir_spo2.csv");
const stamps = red.map((row) => Number(row[redHead.indexOf("TIMESTAMP_MS")]));
const onGrid = (label) => {
  const cells = column(redHead, red, label);
  const grid = new Array((stamps.at(-1) - stamps[0]) / 10 + 1).fill(null);
  stamps.forEach((stamp, i) => {
    grid[(stamp - stamps[0]) / 10] = cells[i];
  });
  return grid;
};
wfdb(
  "red_ir",
  100,
  [
    {
      format: 24,
      signals: [
        { label: "PLETH", gain: 1, unit: "adu", numbers: whole(onGrid("PLETH"), 1, 9) },
        { label: "RED_ADC", gain: 1, unit: "adu", numbers: whole(onGrid("RED_ADC"), 1, 9) },
        { label: "IR_ADC", gain: 1, unit: "adu", numbers: whole(onGrid("IR_ADC"), 1, 9) },
      ],
    },
    {
      format: 16,
      signals: [
        { label: "SPO2_PCT", gain: 10, unit: "%", numbers: whole(onGrid("SPO2_PCT"), 10, 4) },
        { label: "PERFUSION_INDEX", gain: 10, unit: "%", numbers: whole(onGrid("PERFUSION_INDEX"), 10, 4) },
        { label: "PULSE_BPM", gain: 1, unit: "/min", numbers: whole(onGrid("PULSE_BPM"), 1, 9) },
      ],
    },
  ],
  ["Columns of red_ir_spo2.csv (MIT), the whole record; its gap of 1740 ms is stored as invalid samples"],
);

for (const [name, source] of [
  ["P12_baseline", "two-site/P12_baseline_1675943910_462031.csv"],
  ["P22_baseline", "two-site/P22_baseline_1675951799_453496.first24000.csv"],
]) {
  const [head, ...table] = rows(source);
  const keep = ["PPG Finger", "PPG Ear", "arduino_ts"];
  const body = keep.map((label) => whole(column(head, table, label), 1, 9));
  const lines = body[0].map((_, i) => body.map((numbers) => numbers[i]).join(","));
  writeFileSync(new URL(`recordings/${name}.csv`, to), `${[keep.join(","), ...lines].join("\n")}\n`);
}
