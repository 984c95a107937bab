/** Strings that must stay text wherever they land: markup, quotes, escapes, direction marks, paths, sheer length. */
export const NASTY: readonly string[] = [
  "<script>window.caught = true</script>",
  '</script><img src=x onerror="window.caught=true">',
  "\"' onmouseover='window.caught=true' x=\"",
  "\u001b[2J\u001b]0;owned\u0007",
  "\u202egnp.exe\u202c",
  "../../../etc/passwd",
  "[click](javascript:window.caught=true) ![x](https://example.org/x.png) www.example.org",
  "| a | b |\n# heading\n- [ ] item",
  // biome-ignore lint/suspicious/noTemplateCurlyInString: a template that must never be filled in
  "{{constructor.constructor('window.caught=true')()}} ${window.caught=true}",
  "x".repeat(10_000),
  "</style><style>body{display:none}</style>",
  "&lt;script&gt; &amp;",
];

/** All of them at once. */
export const ALL_NASTY = NASTY.join(" ");
