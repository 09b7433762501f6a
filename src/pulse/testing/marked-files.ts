/** The two marked recordings that are plain columns of numbers, read without any of the project's readers. For tests only. */
import { readFileSync } from "node:fs";

const data = new URL("../../../data/", import.meta.url);

export interface MarkedFile {
  readonly values: Float64Array;
  readonly rate: number;
  readonly feet: readonly number[];
}

/** `data`: 24.8 s at 100/s, strong upper harmonics. `noisy_20s`: 20 s at 1000/s, smooth. See data/README.md. */
export function readMarked(name: "data" | "noisy_20s"): MarkedFile {
  const file = name === "data" ? "data.csv" : "noisy_20s_1000hz.txt";
  const lines = readFileSync(new URL(`recordings/${file}`, data), "utf8").split(/\r?\n/);
  const cells = lines.filter((line) => line.trim() !== "" && !line.startsWith("#"));
  const marks = readFileSync(new URL(`beats/${name}.csv`, data), "utf8").split(/\r?\n/);
  return {
    values: Float64Array.from(cells, (line) => Number(line.trim().split(/\s+/).at(-1))),
    rate: name === "data" ? 100 : 1000,
    feet: marks.filter((line) => line.startsWith("F,")).map((line) => Number(line.slice(2))),
  };
}
