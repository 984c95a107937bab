/** Markup that is known to be well formed and escaped; only `html` and `trusted` make it. */
export class Html {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

export type Piece = string | number | Html | undefined | false | readonly Piece[];

/** Template tag: what stands in the template is markup, what is filled in is text and is escaped. */
export function html(strings: TemplateStringsArray, ...pieces: Piece[]): Html {
  return new Html(strings.map((part, index) => part + (index < pieces.length ? render(pieces[index]) : "")).join(""));
}

/** Markup of our own that needs no escaping: style sheets, scripts, packed data. */
export function trusted(markup: string): Html {
  return new Html(markup);
}

/** Text for an element or a quoted attribute; what has no shape, or turns the direction of writing, becomes a space. */
export function escapeHtml(text: string): string {
  return text.replace(SHAPELESS, " ").replace(/[&<>"'`]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is being removed
const SHAPELESS = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;

function render(piece: Piece): string {
  if (piece === undefined || piece === false) return "";
  if (piece instanceof Html) return piece.text;
  if (typeof piece === "object") return piece.map(render).join("");
  return escapeHtml(String(piece));
}
