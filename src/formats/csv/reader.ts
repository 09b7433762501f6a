/**
 * Tables of text: CSV in its many forms, tab, semicolon, bar or blank separated; one row per moment.
 * How names, times and missing values are understood is written for users in `docs/reading-tables.md`.
 *
 * Problem codes: table `label-factor`, `empty-file`, `no-table`, `too-many-columns`, `marks-left-out`, `kind-assumed`; rows `row-too-long`, `text-lines`,
 * `short-rows`, `long-rows`; cells `not-a-number`, `number-overflow`; time `rate-unknown`, `time-unit-assumed`,
 * `clock-set-aside`, `clock-uneven`, `gap`, `gap-off-grid`, `gap-too-long`, `clock-holes`, `time-missing`, `time-backwards`,
 * `time-outlier`, `time-doubled`, `clock-restarted`, `clock-wrapped`, `midnight-passed`.
 */
import { type Annotation, type Channel, excerpt, hertz, seconds } from "../../model/index.js";
import { inferKind, inferLoneKind } from "../channel-kind.js";
import { chosenChannels, noBlocks } from "../chosen-channels.js";
import { type ClockColumn, findClock } from "../clock-column.js";
import { type RowClock, steadyClock } from "../clock-fit.js";
import { detectEncoding, type Encoding, textChunks } from "../file-text.js";
import { labelFactor } from "../label-factor.js";
import type { ByteSource, Reader, ReadOptions, Recording } from "../recording.js";
import { createCellParser } from "./cell-number.js";
import { type Dialect, mostColumns, sniffDialect } from "./dialect.js";
import { type Header, readHeader } from "./header.js";
import { findMarkColumns } from "./mark-columns.js";
import { tableBlocks } from "./table-blocks.js";
import { readClock } from "./table-clock.js";
import type { Table } from "./table-rows.js";
import { createTally, problem, type Tally } from "./tally.js";

const headBytes = 1 << 18;

export const csvReader: Reader = {
  format: "csv",

  recognises(name, head) {
    if (/\.(csv|tsv|tab|txt|dat\.txt)$/i.test(name)) return true;
    if (/\.\w+$/.test(name) || head.includes(0)) return false;
    return sniffDialect(head, false) !== null;
  },

  async open(source, _folder, options) {
    const tally = createTally();
    const opened = await openTable(source, options, tally);
    return opened ?? nothing(tally);
  },
};

async function openTable(
  source: ByteSource,
  options: ReadOptions | undefined,
  tally: Tally,
): Promise<Recording | null> {
  const stated = options?.rate === undefined ? null : hertz(options.rate);
  const fatal = (code: string, expected: string, found: string) =>
    tally.report(code, 1, problem(code, "fatal", source.name, expected, found));
  if (source.size === 0) {
    fatal("empty-file", "a table", "an empty file");
    return null;
  }
  const from = detectEncoding(await source.read(0, 1024));
  const { head, whole } = await readHead(source, from);
  const dialect = sniffDialect(head, whole);
  if (dialect === null) {
    fatal("no-table", "rows of numbers", "none in the first 256 KiB");
    return null;
  }
  const header = readHeader(dialect);
  const columns = Math.min(dialect.columns, mostColumns);
  if (dialect.columns >= mostColumns) {
    const found = `${mostColumns} or more; the rest was left out`;
    tally.report(
      "columns",
      1,
      problem("too-many-columns", "lost-part", source.name, `fewer than ${mostColumns} columns`, found),
    );
  }
  const looked = candidates(dialect, header, columns);
  const clockColumn = findClock(looked);
  const timed = await timing(
    { source, from, dialect, columns, clock: null },
    header,
    clockColumn,
    stated,
    tally,
  );
  if (timed === null) return null;
  const { clock, table } = timed;
  const others = header.names
    .slice(0, columns)
    .map((_, column) => column)
    .filter((column) => column !== clockColumn?.column);
  const found = findMarkColumns(looked).filter(
    ({ column, name }) => others.includes(column) && options?.kinds?.[name] === undefined,
  );
  // A table of nothing but marks still has its columns.
  const marks = found.length < others.length ? found : [];
  const data = others.filter((column) => !marks.some((mark) => mark.column === column));
  const annotations: Annotation[] = [];
  const channels = data.map((column) =>
    channelOf(header.names[column]!, data.length === 1, clock, options, source, tally),
  );
  return {
    format: "csv",
    channels,
    startedAt: timed.startedAt,
    annotations,
    problems: tally.problems,
    blocks: (which) =>
      tableBlocks(
        { table, channels, data, clock, repeats: timed.repeats, tally, marks, annotations },
        chosenChannels(channels.length, which),
      ),
  };
}

/** Where rows lie in time: as stated, by the clock column, by a rate in the header; else unknown. */
async function timing(
  plain: Table,
  header: Header,
  column: ClockColumn | null,
  stated: number | null,
  tally: Tally,
) {
  const { source } = plain;
  const steady = (rate: number) => ({ clock: steadyClock(rate), table: plain, repeats: [], startedAt: null });
  const name = column === null ? "" : excerpt(header.names[column.column]!.name);
  const where = `${source.name}, column "${name}"`;
  if (stated !== null) {
    if (column !== null) {
      const found = `a clock column, not used because a rate of ${stated} per second was stated`;
      tally.report("aside", 1, problem("clock-set-aside", "note", where, "one source of time", found));
    }
    return steady(stated);
  }
  if (column !== null && column.scale !== null) {
    if (column.assumed) {
      const unit = column.scale === 1 ? "seconds" : column.scale === 1e-3 ? "milliseconds" : "microseconds";
      tally.report(
        "unit",
        1,
        problem("time-unit-assumed", "note", where, "a unit of time", `none; ${unit} taken, by the steps`),
      );
    }
    const table = { ...plain, clock: column.column };
    const read = await readClock(table, column, name, tally);
    if (read !== null || header.rate === null) return read === null ? null : { ...read, table };
  }
  if (header.rate !== null) return steady(header.rate.value);
  const names = header.names.slice(0, 8).map((one) => one.name);
  const found = column === null ? "neither" : `column "${name}" without a unit that can be told`;
  const expected = "a time column or a sampling rate; state it: --rate SAMPLES_PER_SECOND";
  const listed = `${found}; columns: ${excerpt(names.join(", "), 100)}`;
  tally.report("rate", 1, problem("rate-unknown", "fatal", source.name, expected, listed));
  return null;
}

function channelOf(
  column: Header["names"][number],
  alone: boolean,
  clock: RowClock,
  options: ReadOptions | undefined,
  source: ByteSource,
  tally: Tally,
): Channel {
  const { name, unit } = column;
  const { assumed, ...kind } = alone
    ? inferLoneKind(column, clock.rate, options)
    : { ...inferKind(column, options), assumed: false };
  const factor = labelFactor(name, unit, kind.kind);
  if (factor !== 1) {
    const where = `${source.name}, column "${excerpt(name)}"`;
    const found = `a factor in its name; values divided by ${factor}`;
    tally.report(`factor ${name}`, 1, problem("label-factor", "note", where, "values as measured", found));
  }
  if (assumed) {
    const where = `${source.name}, column "${excerpt(name)}"`;
    const expected = "a name that says what the column is";
    tally.report("kind", 1, problem("kind-assumed", "note", where, expected, kind.because));
  }
  return { name, unit, ...kind, rate: hertz(clock.rate), start: seconds(0), samples: clock.places };
}

function candidates(dialect: Dialect, header: Header, columns: number) {
  const parser = createCellParser(dialect.decimal);
  return header.names.slice(0, columns).map(({ name, unit }, i) => {
    const cells = dialect.sample.map((row) => row.cells[i] ?? "");
    const values = cells.map((cell) => {
      const bytes = Uint8Array.from(cell, (char) => Math.min(255, char.charCodeAt(0)));
      return parser.parse(bytes, 0, bytes.length) === "value" ? parser.value : Number.NaN;
    });
    return { name, unit, cells, values };
  });
}

async function readHead(
  source: ByteSource,
  from: { encoding: Encoding; mark: number },
): Promise<{ head: Uint8Array; whole: boolean }> {
  const parts: Uint8Array[] = [];
  let length = 0;
  let whole = true;
  for await (const chunk of textChunks(source, from)) {
    parts.push(chunk.slice());
    length += chunk.length;
    if (length >= headBytes) {
      whole = false;
      break;
    }
  }
  const head = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    head.set(part, at);
    at += part.length;
  }
  return { head, whole };
}

function nothing(tally: Tally): Recording {
  return {
    format: "csv",
    channels: [],
    startedAt: null,
    annotations: [],
    problems: tally.problems,
    blocks: noBlocks,
  };
}
