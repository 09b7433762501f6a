/** The variables of a level 5 MAT-file: names, sizes and where their numbers lie; no numbers are kept. */
import { excerpt } from "../../model/index.js";
import { textOf } from "../file-text.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";
import { type ByteStream, type Extent, memoryStream, openStream } from "./byte-stream.js";
import { readTag, type Tag, wholeData } from "./element.js";
import { headerBytes } from "./level.js";
import {
  classNames,
  complexFlag,
  compressedType,
  firstNumericClass,
  lastNumericClass,
  matrixType,
  type StorageType,
  storageTypes,
} from "./storage-type.js";

/** A matrix of real numbers. */
export interface Variable {
  readonly name: string;
  readonly rows: number;
  readonly columns: number;
  readonly storage: StorageType;
  readonly littleEndian: boolean;
  /** Numbers that are there; fewer than rows × columns where the file is cut or damaged. */
  readonly held: number;
  /** A new stream from the first number on, column after column. */
  open(): Promise<ByteStream>;
}

const mostVariables = 2000;
const longestName = 256;
/** A deflate stream can't grow by more than this. */
const mostGrowth = 1032;

export async function readVariables(
  source: ByteSource,
  littleEndian: boolean,
  log: ProblemLog,
): Promise<Variable[]> {
  const variables: Variable[] = [];
  let at = headerBytes;
  for (let n = 0; at < source.size; n++) {
    const where = `${source.name}, byte ${at}`;
    if (n >= mostVariables) {
      log.add(
        "too-many-variables",
        "lost-part",
        where,
        `at most ${mostVariables} variables`,
        "more; not read",
      );
      break;
    }
    const tag = await readFully(source, at, 8);
    if (tag.length < 8) {
      log.add("file-cut", "lost-part", where, "a whole data element", `${tag.length} bytes`);
      break;
    }
    const view = new DataView(tag.buffer, tag.byteOffset, 8);
    const type = view.getUint32(0, littleEndian);
    const size = view.getUint32(4, littleEndian);
    const from = at + 8;
    if (type !== matrixType && type !== compressedType) {
      log.add("element-type", "lost-part", where, "a matrix", `data type ${type}; not read from here on`);
      break;
    }
    if (from + size > source.size) {
      const found = `${source.size - from} before the file ends`;
      log.add("file-cut", "lost-part", where, `${size} bytes of data`, found);
    }
    const variable = await readVariable(source, { from, to: from + size }, type, littleEndian, where, log);
    if (variable !== null) variables.push(variable);
    at = from + size;
  }
  return variables;
}

/** @returns `null`, mostly after a problem, if it is no matrix of real numbers */
async function readVariable(
  source: ByteSource,
  span: { from: number; to: number },
  type: number,
  littleEndian: boolean,
  where: string,
  log: ProblemLog,
): Promise<Variable | null> {
  const compressed = type === compressedType;
  const extent: Extent = { ...span, compressed };
  const stream = openStream(source, extent);
  const damaged = (found: string) => {
    log.add("variable-damaged", "lost-part", where, "a matrix: flags, sizes, name, numbers", found);
    return null;
  };
  if (compressed) {
    const inner = await readTag(stream, littleEndian);
    if (inner === null || inner.type !== matrixType) return damaged("other bytes in a compressed part");
  }
  const flags = await readTag(stream, littleEndian);
  const flagBytes = flags === null || flags.size !== 8 ? null : await wholeData(stream, flags);
  if (flagBytes === null) return damaged("no flags");
  const flag = new DataView(flagBytes.buffer, flagBytes.byteOffset).getUint32(0, littleEndian);
  const code = flag & 0xff;
  const sizes = await readTag(stream, littleEndian);
  if (sizes === null || sizes.size % 4 !== 0 || sizes.size > 4 * 32) return damaged("no sizes");
  const sizeBytes = await wholeData(stream, sizes);
  if (sizeBytes === null) return damaged("no sizes");
  const sizeView = new DataView(sizeBytes.buffer, sizeBytes.byteOffset);
  const dimensions = Array.from({ length: sizes.size / 4 }, (_, n) => sizeView.getInt32(4 * n, littleEndian));
  const nameTag = await readTag(stream, littleEndian);
  if (nameTag === null || nameTag.size > longestName) return damaged("no name");
  const nameBytes = await wholeData(stream, nameTag);
  if (nameBytes === null) return damaged("no name");
  const name = textOf(nameBytes, 0, nameTag.size).replaceAll("\0", "").trim();

  const skipped = (what: string) => {
    const found = `${what}; not read`;
    log.add(
      "variable-skipped",
      "note",
      `${source.name}, variable ${excerpt(name)}`,
      "a matrix of real numbers",
      found,
    );
    return null;
  };
  const className = classNames.get(code);
  if (className === undefined) return damaged(`class ${code}`);
  if (code < firstNumericClass || code > lastNumericClass) return skipped(className);
  if (((flag >> 8) & complexFlag) !== 0) return skipped("complex numbers");
  if (dimensions.length !== 2) return skipped(`${dimensions.length} dimensions`);
  const [rows, columns] = dimensions as [number, number];
  if (rows < 0 || columns < 0) return damaged(`sizes ${rows} by ${columns}`);
  if (rows * columns === 0) return skipped("empty");
  const numbers = await readTag(stream, littleEndian);
  const storage = numbers === null ? undefined : storageTypes.get(numbers.type);
  if (numbers === null || storage === undefined)
    return damaged(numbers === null ? "no numbers" : `numbers of type ${numbers.type}`);
  const stated = Math.floor(numbers.size / storage.bytes);
  if (stated !== rows * columns) {
    const expected = `${rows} by ${columns} numbers`;
    log.add("size-differs", "lost-part", `${source.name}, variable ${excerpt(name)}`, expected, `${stated}`);
  }
  const before = stream.at;
  const open = async () => {
    if (numbers.inline !== null) return memoryStream(numbers.inline);
    const again = openStream(source, extent);
    await again.skip(before);
    return again;
  };
  const there = await bytesThere(source, extent, numbers, before, name, log);
  const held = Math.min(rows * columns, stated, Math.floor(there / storage.bytes));
  return { name, rows, columns, storage, littleEndian, held, open };
}

/** Bytes of numbers that can be read; a compressed part is unpacked once to know, and to check its sum. */
async function bytesThere(
  source: ByteSource,
  extent: Extent,
  numbers: Tag,
  before: number,
  name: string,
  log: ProblemLog,
): Promise<number> {
  if (numbers.inline !== null) return numbers.size;
  const end = Math.min(extent.to, source.size);
  const where = `${source.name}, variable ${excerpt(name)}`;
  if (!extent.compressed) return Math.max(0, Math.min(numbers.size, end - extent.from - before));
  if (before + numbers.size > (end - extent.from) * mostGrowth + 1024) {
    const found = `${end - extent.from} compressed bytes, which can't hold them`;
    log.add("size-absurd", "lost-part", where, `${numbers.size} bytes of numbers`, found);
    return 0;
  }
  const stream = openStream(source, extent);
  await stream.skip(before);
  let there = 0;
  for (;;) {
    const bytes = await stream.read(Math.min(1 << 16, numbers.size - there));
    if (bytes.length === 0) break;
    there += bytes.length;
  }
  if (!(await stream.sound())) {
    const found =
      there < numbers.size
        ? `only ${there} can be unpacked`
        : "another sum; some numbers are not what was saved";
    log.add("checksum-mismatch", "lost-part", where, `${numbers.size} bytes of numbers and their sum`, found);
  }
  return there;
}
