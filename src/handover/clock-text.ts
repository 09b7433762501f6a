/** Times of a record in words. */

/** `0:12`, `1:05` or `2:01:05`; parts of a second are dropped. */
export function clockText(time: number): string {
  const whole = Math.floor(time + 1e-9);
  const s = whole % 60;
  const m = Math.floor(whole / 60) % 60;
  const h = Math.floor(whole / 3600);
  const two = (value: number) => String(value).padStart(2, "0");
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}
