import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

// One arm raised: 38 ms between the sides (right-left arrival study, read as an abstract); Zheng and Murray, J Biomech 2009;42:1032: 88 − 57 = 31 ms.
test("check 8, fitted: in an arm raised 50 cm the pulse comes 10 to 45 ms later", () => {
  const later =
    1000 * (medianOf(settledBeats({ site: { height: 50 } }), "foot") - medianOf(settledBeats(), "foot"));
  expect(later).toBeGreaterThan(10);
  expect(later).toBeLessThan(45);
});
