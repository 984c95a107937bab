/** A file name of small letters, digits and hyphens: no folder, no dot, no reserved word can come out of it. */
export function safeFileName(id: string): string {
  const plain = id
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 80)
    .replace(/-+$/, "");
  if (plain === "") return "unnamed";
  return RESERVED.test(plain) ? `${plain}-file` : plain;
}

/** Names that one operating system or another keeps for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/;
