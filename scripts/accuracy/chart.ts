/** Line charts for the accuracy page: SVG text, told apart by dash and mark as well as by ink. */

export interface ChartLine {
  readonly name: string;
  readonly points: readonly (readonly [number, number])[];
}

export interface Chart {
  readonly title: string;
  readonly x: {
    readonly label: string;
    readonly from: number;
    readonly to: number;
    readonly ticks: readonly number[];
  };
  readonly y: {
    readonly label: string;
    readonly from: number;
    readonly to: number;
    readonly ticks: readonly number[];
  };
  readonly lines: readonly ChartLine[];
  /** Text for an x tick; the number itself if left out. */
  readonly tickText?: (x: number) => string;
}

const width = 720;
const plot = { left: 64, right: 440, top: 44, bottom: 330 };
const height = 384;
const inks = ["#3b4a8c", "#a4521f", "#1c2030", "#7a5ea8", "#8a6d1d", "#5d6273"];
const dashes = ["", "7 4", "2 3", "10 3 2 3", "4 2", "1 4"];
const escaped = (text: string) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
const at = (value: number) => value.toFixed(1);

export function drawChart({ title, x, y, lines, tickText = String }: Chart): string {
  const px = (value: number) => plot.left + ((value - x.from) / (x.to - x.from)) * (plot.right - plot.left);
  const py = (value: number) => plot.bottom - ((value - y.from) / (y.to - y.from)) * (plot.bottom - plot.top);
  const text = (left: number, top: number, words: string, extra = "") =>
    `<text x="${at(left)}" y="${at(top)}" ${extra}>${escaped(words)}</text>`;
  const grid = [
    ...x.ticks.flatMap((tick) => [
      `<path d="M${at(px(tick))} ${plot.top}V${plot.bottom}" stroke="#d9d4c6"/>`,
      text(px(tick), plot.bottom + 18, tickText(tick), 'text-anchor="middle"'),
    ]),
    ...y.ticks.flatMap((tick) => [
      `<path d="M${plot.left} ${at(py(tick))}H${plot.right}" stroke="#d9d4c6"/>`,
      text(plot.left - 8, py(tick) + 4, String(tick), 'text-anchor="end"'),
    ]),
  ];
  const drawn = lines.flatMap(({ name, points }, i) => {
    const style = `stroke="${inks[i % inks.length]}" stroke-width="2" fill="none" stroke-dasharray="${dashes[i % dashes.length]}"`;
    const path = points.map(([a, b], k) => `${k === 0 ? "M" : "L"}${at(px(a))} ${at(py(b))}`).join("");
    const top = plot.top + 8 + i * 24;
    return [
      `<path d="${path}" ${style}/>`,
      `<path d="M${plot.right + 16} ${top}h32" ${style}/>`,
      text(plot.right + 56, top + 4, name),
    ];
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="sans-serif" font-size="13" fill="#1c2030" role="img" aria-label="${escaped(title)}">`,
    `<rect width="${width}" height="${height}" fill="#fffefa"/>`,
    text(plot.left, 24, title, 'font-size="15" font-weight="bold"'),
    ...grid,
    ...drawn,
    text((plot.left + plot.right) / 2, height - 14, x.label, 'text-anchor="middle"'),
    text(
      0,
      0,
      y.label,
      `text-anchor="middle" transform="translate(18 ${(plot.top + plot.bottom) / 2}) rotate(-90)"`,
    ),
    "</svg>",
    "",
  ].join("\n");
}
