/** The cases in the browser's database, without reading their readings. */
import type { Database } from "./browser-database.js";
import { type Landmarks, landmarkKinds, type Row } from "./shelf.js";

/** Every key that begins with the case: an array sorts after any text or number. */
const ofCase = (caseId: string) => IDBKeyRange.bound([caseId], [caseId, []]);

export async function readLandmarks(database: Database): Promise<readonly Landmarks[]> {
  const look = database.transaction("events");
  const marked = await Promise.all(landmarkKinds.map((kind) => look.store.index("by-kind").getAll(kind)));
  const rows = new Map<string, Row[]>();
  for (const row of marked.flat()) rows.set(row.case, [...(rows.get(row.case) ?? []), row]);
  const marks: Landmarks[] = [];
  let cursor = await look.store.openKeyCursor();
  while (cursor !== null) {
    const [caseId] = cursor.key;
    const count = await look.store.count(ofCase(caseId));
    const last = await look.store.index("by-time").openKeyCursor(ofCase(caseId), "prev");
    marks.push({ case: caseId, count, lastAt: last?.key[1] ?? null, rows: rows.get(caseId) ?? [] });
    // The other requests are over by now, and the cursor still stands in the same transaction.
    cursor = await cursor.continue([caseId, []] as never);
  }
  return marks;
}
