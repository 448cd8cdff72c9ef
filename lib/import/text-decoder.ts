import { StringDecoder } from "node:string_decoder"

// What Windows-1252 writes where Latin-1 has control characters, bytes 0x80 to 0x9f (WHATWG Encoding, index windows-1252).
// Not left to TextDecoder, which in some releases of Node reads these bytes as Latin-1.
const windows1252 = [
  ..."\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f",
  ..."\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178",
]

/** Turns the chunks of a file into text, without a byte order mark; `decode()` with no chunk gives what is left. */
export function createDecoder(
  encoding: "ascii" | "utf-8" | "windows-1252",
): (chunk: Buffer | undefined) => string {
  const decode = decoderOf(encoding)
  let isAtStart = true
  return (chunk) => {
    const text = decode(chunk)
    if (!isAtStart || text === "") return text
    isAtStart = false
    return text.startsWith("\uFEFF") ? text.slice(1) : text
  }
}

function decoderOf(encoding: "ascii" | "utf-8" | "windows-1252"): (chunk: Buffer | undefined) => string {
  // Latin-1 reads ASCII just the same and is the fastest of all.
  if (encoding === "ascii") return (chunk) => chunk?.toString("latin1") ?? ""
  if (encoding === "utf-8") {
    const decoder = new StringDecoder("utf8")
    return (chunk) => (chunk ? decoder.write(chunk) : decoder.end())
  }
  return (chunk) =>
    (chunk?.toString("latin1") ?? "").replace(
      /[\x80-\x9f]/g,
      (byte) => windows1252[byte.charCodeAt(0) - 0x80] ?? byte,
    )
}
