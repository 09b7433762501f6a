/** The second pass: values of the chosen columns, put on the grid and cut into blocks. */
import { type Annotation, type Block, type Channel, excerpt, sampleIndex } from "../../model/index.js";
import type { RowClock } from "../clock-fit.js";
import { createGrid } from "../even-grid.js";
import { textOf } from "../file-text.js";
import { labelFactor } from "../label-factor.js";
import { createCellParser } from "./cell-number.js";
import { createMarkCollector, type MarkColumn, mostMarks } from "./mark-columns.js";
import { longestRow } from "./scan-rows.js";
import { type RowWalk, type Table, walkRows } from "./table-rows.js";
import { problem, type Tally, times } from "./tally.js";

export interface TableBody {
  readonly table: Table;
  readonly channels: readonly Channel[];
  /** Column of each channel. */
  readonly data: readonly number[];
  readonly clock: RowClock;
  readonly repeats: readonly number[];
  readonly tally: Tally;
  /** Columns of remarks, and where they go once all rows were seen. */
  readonly marks: readonly MarkColumn[];
  readonly annotations: Annotation[];
}

/** Samples of all chosen channels held at once: half a MiB of doubles. */
const heldSamples = 1 << 16;
const waveKinds: ReadonlySet<string> = new Set(["raw-light", "display-pleth", "ecg", "pressure"]);

/** Columns whose bad cells are told one by one. */
const mostTold = 50;

interface CellFault {
  count: number;
  line: number;
  found: string;
}

export async function* tableBlocks(body: TableBody, which: readonly number[]): AsyncGenerator<Block> {
  const { table, channels, clock, repeats } = body;
  if (which.length === 0) return;
  const columns = which.map((channel) => body.data[channel]!);
  const waves = which.map((channel) => waveKinds.has(channels[channel]!.kind));
  const grid = createGrid(clock, waves, Math.max(16, Math.min(8192, Math.floor(heldSamples / which.length))));
  const parser = createCellParser(table.dialect.decimal);
  const values = new Float64Array(which.length);
  const rows = walkRows(table);
  const faults = createFaults(table.columns);
  const factors = which.map((channel) => {
    const { name, unit, kind } = channels[channel]!;
    return labelFactor(name, unit, kind);
  });
  const marks = createMarkCollector(body.marks, clock, table.dialect.decimal);
  let number = 0;
  let repeat = 0;

  function readRow(): void {
    const { cells } = rows;
    if (rows.empty) {
      values.fill(Number.NaN);
      return;
    }
    const { bytes, starts, ends, count, line } = cells;
    if (count !== table.columns) faults.width(count, line);
    for (let i = 0; i < columns.length; i++) {
      const column = columns[i]!;
      values[i] = Number.NaN;
      if (column >= count) continue;
      const kind = parser.parse(bytes, starts[column]!, ends[column]!);
      if (kind === "value") values[i] = parser.value / factors[i]!;
      else if (kind !== "missing")
        faults.cell(kind, i, line, () =>
          textOf(bytes, starts[column]!, Math.min(ends[column]!, starts[column]! + 100)),
        );
    }
  }

  function* cut(): Generator<Block> {
    const first = sampleIndex(grid.first);
    for (const [i, block] of grid.take().entries()) {
      if (block.length > 0) yield { channel: which[i]!, first, values: block };
    }
  }

  try {
    do {
      while (rows.next()) {
        if (repeats[repeat] === number++) {
          repeat++;
          continue;
        }
        marks.row(rows.empty ? null : rows.cells);
        readRow();
        grid.row(values);
        while (grid.fill()) yield* cut();
      }
    } while (await rows.more());
    yield* cut();
    body.annotations.splice(0, Number.POSITIVE_INFINITY, ...marks.marks);
    if (marks.left > 0) {
      const found = `${marks.left} more, left out`;
      const told = problem(
        "marks-left-out",
        "lost-part",
        table.source.name,
        `${mostMarks} marks at most`,
        found,
      );
      body.tally.report("marks", marks.left, told);
    }
  } finally {
    faults.tell(body, which, rows);
  }
}

function createFaults(columns: number) {
  const cells = { bad: new Map<number, CellFault>(), overflow: new Map<number, CellFault>() };
  const width = { short: { count: 0, line: 0, found: "" }, long: { count: 0, line: 0, found: "" } };
  return {
    cell(kind: "bad" | "overflow", column: number, line: number, text: () => string): void {
      const known = cells[kind].get(column);
      if (known !== undefined) known.count++;
      else if (cells[kind].size < mostTold) cells[kind].set(column, { count: 1, line, found: text() });
    },
    width(count: number, line: number): void {
      const fault = count < columns ? width.short : width.long;
      if (fault.count++ === 0) Object.assign(fault, { line, found: `${count} cells` });
    },
    tell({ table, channels, tally }: TableBody, which: readonly number[], rows: RowWalk): void {
      const file = table.source.name;
      const report = (
        code: string,
        key: string,
        weight: "note" | "lost-part",
        fault: CellFault,
        expected: string,
      ) => {
        const found = `${fault.found}, ${times(fault.count)}`;
        if (fault.count > 0)
          tally.report(
            key,
            fault.count,
            problem(code, weight, `${file}, line ${fault.line}`, expected, found),
          );
      };
      for (const [kind, code, expected] of [
        ["bad", "not-a-number", "a number"],
        ["overflow", "number-overflow", "a number within range"],
      ] as const) {
        for (const [i, fault] of cells[kind]) {
          const { name, kind: what } = channels[which[i]!]!;
          const told = {
            ...fault,
            found: `"${excerpt(fault.found)}" in column "${excerpt(name)}", left missing`,
          };
          report(code, `${code} ${which[i]}`, what === "other" ? "note" : "lost-part", told, expected);
        }
      }
      report(
        "short-rows",
        "short-rows",
        "note",
        width.short,
        `${table.columns} cells, missing ones left missing`,
      );
      report("long-rows", "long-rows", "note", width.long, `${table.columns} cells, further ones not read`);
      const { textLines, firstTextLine, cells: scan } = rows;
      report(
        "text-lines",
        "text-lines",
        "note",
        { count: textLines, line: firstTextLine, found: "a line of text, left out" },
        "rows of numbers",
      );
      const long = {
        count: scan.tooLong,
        line: scan.firstTooLong,
        found: `a row of more than ${longestRow} bytes, left out`,
      };
      report("row-too-long", "row-too-long", "lost-part", long, "rows of cells");
    },
  };
}
