/** Up to the first full stop outside brackets, which may hold a label with one of its own. */
export function firstSentence(text: string): string {
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    if (text[at] === "(") depth++;
    else if (text[at] === ")") depth--;
    else if (depth <= 0 && /[.!?]/.test(text[at]!) && (at + 1 === text.length || text[at + 1] === " "))
      return text.slice(0, at + 1);
  }
  return text;
}
