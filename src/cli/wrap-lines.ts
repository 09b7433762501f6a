/** Paragraphs for a terminal. */

/** Lines of at most `width` letters, each after `indent`; the first after `first` instead. */
export function wrapLines(text: string, width: number, indent = "", first = indent): string {
  const lines: string[] = [];
  let current = first;
  let empty = true;
  for (const word of text.split(" ")) {
    if (!empty && current.length + 1 + word.length > width) {
      lines.push(current);
      current = indent + word;
    } else {
      current += (empty ? "" : " ") + word;
    }
    empty = false;
  }
  lines.push(current);
  return lines.join("\n");
}

/** Letters in a line of an answer: the terminal's, within what reads well. */
export function textWidthOf(shell: { readonly columns: number }): number {
  return Math.min(100, Math.max(40, shell.columns));
}
