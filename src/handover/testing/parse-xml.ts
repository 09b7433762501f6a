/**
 * A strict reader of the XML that pictures are written in (XML 1.0, 5th ed., sections 2.1 to 3.1, 4.1):
 * elements, attributes in double quotes, text and the five named entities. Anything else is an error.
 */
export interface Parsed {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Parsed[];
  readonly text: string;
}

const entities: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

function plain(text: string): string {
  const odd = /&(?!(amp|lt|gt|quot|apos);)|</.exec(text);
  if (odd !== null) throw new Error(`unescaped "${odd[0]}" in "${text.slice(0, 40)}"`);
  for (const letter of text) {
    const code = letter.codePointAt(0) as number;
    const allowed =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 32 && !(code >= 0xd800 && code <= 0xdfff) && code < 0xfffe) ||
      code >= 0x10000;
    if (!allowed) throw new Error(`character U+${code.toString(16)} is not allowed in XML`);
  }
  return text.replace(/&(\w+);/g, (_, name: string) => entities[name] as string);
}

export function parseXml(source: string): Parsed {
  let at = source.startsWith("<?xml") ? source.indexOf("?>") + 2 : 0;
  const fail = (what: string): never => {
    throw new Error(`${what} at ${at}: ${source.slice(at, at + 40)}`);
  };

  function element(): Parsed {
    const open = /<([A-Za-z][\w-]*)((?:\s+[A-Za-z][\w:-]*="[^"<]*")*)\s*(\/?)>/y;
    open.lastIndex = at;
    const match = open.exec(source) ?? fail("no element");
    at = open.lastIndex;
    const [, name = "", written = "", slash] = match;
    const attributes: Record<string, string> = {};
    for (const [, key = "", value = ""] of written.matchAll(/([\w:-]+)="([^"]*)"/g)) {
      if (Object.hasOwn(attributes, key)) fail(`attribute ${key} twice`);
      attributes[key] = plain(value);
    }
    if (slash === "/") return { name, attributes, children: [], text: "" };
    const children: Parsed[] = [];
    let text = "";
    for (;;) {
      const next = source.indexOf("<", at);
      if (next < 0) fail(`<${name}> is not closed`);
      text += plain(source.slice(at, next));
      at = next;
      if (source.startsWith("</", at)) {
        const end = `</${name}>`;
        if (!source.startsWith(end, at)) fail(`<${name}> is closed by another`);
        at += end.length;
        return { name, attributes, children, text };
      }
      children.push(element());
    }
  }

  while (/\s/.test(source[at] ?? "")) at++;
  const root = element();
  if (source.slice(at).trim() !== "") fail("something after the root");
  return root;
}
