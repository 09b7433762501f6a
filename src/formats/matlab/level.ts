/**
 * Which generation of MAT-file the first bytes are.
 *
 * @see MathWorks, "MAT-File Format", version 5 chapter 1 (header, byte order) and appendix (level 4)
 */

export type MatlabLevel =
  | { readonly kind: "level-5"; readonly littleEndian: boolean }
  | { readonly kind: "level-4" | "hdf5" | "unknown" };

/** Bytes before the first data element. */
export const headerBytes = 128;

const hdf5 = [0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a];

/** @param head at least 128 bytes of the file, or all of it */
export function matlabLevel(head: Uint8Array): MatlabLevel {
  const text = String.fromCharCode(...head.subarray(0, 10));
  if (text === "MATLAB 7.3" || hdf5.every((byte, n) => head[n] === byte)) return { kind: "hdf5" };
  const mark = String.fromCharCode(...head.subarray(126, 128));
  if (head.length >= headerBytes && (mark === "IM" || mark === "MI")) {
    return { kind: "level-5", littleEndian: mark === "IM" };
  }
  return isLevel4(head) ? { kind: "level-4" } : { kind: "unknown" };
}

/** Level 4 has no mark: five whole numbers (type code, rows, columns, imaginary flag, name length) that must make sense. */
function isLevel4(head: Uint8Array): boolean {
  if (head.length < 21) return false;
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  return [true, false].some((little) => {
    const [type, rows, columns, imaginary, name] = [0, 4, 8, 12, 16].map((n) => view.getUint32(n, little));
    const [order, zero, storage, kind] = [1000, 100, 10, 1].map(
      (unit) => Math.floor((type ?? 0) / unit) % 10,
    );
    const typed = (type ?? 0) < 5000 && order! <= 4 && zero === 0 && storage! <= 5 && kind! <= 2;
    return (
      typed && (imaginary ?? 2) <= 1 && name! > 0 && name! <= 64 && rows! < 2 ** 31 && columns! < 2 ** 31
    );
  });
}
