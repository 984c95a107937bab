import { expect, test } from "vitest";
import { escapeHtml, html, trusted } from "../../src/report/html.ts";

test("html escapes what is filled in and keeps what stands in the template", () => {
  expect(html`<p title="${'"<x>'}">${"a & b"}</p>`.text).toBe('<p title="&#34;&#60;x&#62;">a &#38; b</p>');
});

test("html takes pieces of markup, lists of them, numbers, and nothing", () => {
  const items = ["<", ">"].map((text) => html`<li>${text}</li>`);
  expect(html`<ul>${items}</ul>${3}${undefined}${false}${trusted("<br>")}`.text).toBe(
    "<ul><li>&#60;</li><li>&#62;</li></ul>3<br>",
  );
});

test("escapeHtml leaves no sign that opens or closes anything", () => {
  expect(escapeHtml(`<>&"'\``)).not.toMatch(/[<>"'`]/);
});

test("escapeHtml takes away what has no shape or turns the direction of writing, and keeps line breaks", () => {
  expect(escapeHtml("a\u0000b\u202ec\n")).toBe("a b c\n");
});
