import { expect, test } from "vitest";
import { movingAngle } from "./quality-sine.js";

const list = (count: number, at: (i: number) => number) =>
  Float64Array.from({ length: count }, (_, i) => at(i));
const angle = (2 * Math.PI) / 50;

test("the angle at which values move is a sine's own over whole cycles, and π at most", () => {
  expect(
    movingAngle(
      list(5001, (i) => Math.sin(angle * i)),
      5001,
    ),
  ).toBeCloseTo(angle, 3);
  expect(
    movingAngle(
      list(100, (i) => (-1) ** i),
      100,
    ),
  ).toBeCloseTo(Math.PI, 0);
});
