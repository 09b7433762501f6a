import { expect, test } from "vitest";
import { runLimb } from "../testing/limb-run.js";

// Raamat, Med Eng Phys 2009;31:522: 31.0 mmHg per 40 cm reckoned, 30.0 to 31.2 measured.
test("check 9, by construction: a digit 40 cm up stands under 31 ± 0.5 mmHg less", () => {
  // Held open by a pump, with its veins banded until they are full, the digit takes the pressure of its artery.
  const level = (height: number, pressure: number) => {
    const run = runLimb({
      seconds: 400,
      quietTone: true,
      heart: { rhythm: "steady-flow", systolic: pressure, diastolic: pressure, breathing: 0 },
      site: { height, band: 200 },
      dt: 0.002,
    });
    return run.digit[run.digit.length - 1] as number;
  };
  const lower = level(0, 90) - level(40, 90);
  expect(lower).toBeGreaterThan(30.5);
  expect(lower).toBeLessThan(31.5);
});
