/**
 * How numbers are stored in MAT-files, as rows. A matrix of doubles is often stored in the smallest type
 * that holds its values; the class of the matrix says nothing of it.
 *
 * @see MathWorks, "MAT-File Format", version 5, table "MAT-file data types"
 */

export interface StorageType {
  readonly name: string;
  readonly bytes: number;
  readonly read: (view: DataView, at: number, littleEndian: boolean) => number;
}

export const storageTypes: ReadonlyMap<number, StorageType> = new Map<number, StorageType>([
  [1, { name: "int8", bytes: 1, read: (view, at) => view.getInt8(at) }],
  [2, { name: "uint8", bytes: 1, read: (view, at) => view.getUint8(at) }],
  [3, { name: "int16", bytes: 2, read: (view, at, little) => view.getInt16(at, little) }],
  [4, { name: "uint16", bytes: 2, read: (view, at, little) => view.getUint16(at, little) }],
  [5, { name: "int32", bytes: 4, read: (view, at, little) => view.getInt32(at, little) }],
  [6, { name: "uint32", bytes: 4, read: (view, at, little) => view.getUint32(at, little) }],
  [7, { name: "single", bytes: 4, read: (view, at, little) => view.getFloat32(at, little) }],
  [9, { name: "double", bytes: 8, read: (view, at, little) => view.getFloat64(at, little) }],
  // Beyond 2^53 the nearest double.
  [12, { name: "int64", bytes: 8, read: (view, at, little) => Number(view.getBigInt64(at, little)) }],
  [13, { name: "uint64", bytes: 8, read: (view, at, little) => Number(view.getBigUint64(at, little)) }],
]);

/** Data types of elements that hold others. */
export const matrixType = 14;
export const compressedType = 15;

/** Classes of matrices by code; the numeric ones can be channels. */
export const classNames: ReadonlyMap<number, string> = new Map([
  [1, "cell array"],
  [2, "structure"],
  [3, "object"],
  [4, "text"],
  [5, "sparse matrix"],
  [6, "double"],
  [7, "single"],
  [8, "int8"],
  [9, "uint8"],
  [10, "int16"],
  [11, "uint16"],
  [12, "int32"],
  [13, "uint32"],
  [14, "int64"],
  [15, "uint64"],
  [16, "function"],
  [17, "opaque object"],
]);

export const firstNumericClass = 6;
export const lastNumericClass = 15;
export const complexFlag = 0x08;
