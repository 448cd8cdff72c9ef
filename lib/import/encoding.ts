import { isAscii, isUtf8 } from "node:buffer"

/** How the bytes of a file are to be read, or why they cannot be. */
export type Encoding =
  | { ok: true; encoding: "ascii" | "utf-8" | "windows-1252" }
  | { ok: false; reason: "mixed" | "utf-16"; byteOffset: number }

/**
 * Looks through a whole file. Bytes that are not UTF-8 make it Windows-1252, but only when no valid multi-byte UTF-8
 * sequence stands anywhere in it: with one, the file is a mixture that nobody can read right, and the offset of the first
 * bad byte is given.
 */
export async function sniffEncoding(chunks: AsyncIterable<Uint8Array>): Promise<Encoding> {
  let offset = 0
  let held: Uint8Array = new Uint8Array(0)
  let badByte: number | null = null
  let hasMultiByte = false

  for await (const chunk of chunks) {
    const bytes = held.length === 0 ? chunk : Buffer.concat([held, chunk])
    if (offset === 0 && isUtf16(bytes)) return { ok: false, reason: "utf-16", byteOffset: 0 }
    const whole = bytes.length - unfinishedLength(bytes)
    const complete = bytes.subarray(0, whole)
    if (!isAscii(complete)) {
      const found = isUtf8(complete) ? { bad: null, hasMultiByte: true } : inspect(complete)
      hasMultiByte ||= found.hasMultiByte
      if (badByte === null && found.bad !== null) badByte = offset + found.bad
      if (badByte !== null && hasMultiByte) return { ok: false, reason: "mixed", byteOffset: badByte }
    }
    held = bytes.subarray(whole)
    offset += whole
  }
  if (held.length > 0) badByte ??= offset
  if (badByte !== null && hasMultiByte) return { ok: false, reason: "mixed", byteOffset: badByte }
  if (badByte !== null) return { ok: true, encoding: "windows-1252" }
  return { ok: true, encoding: hasMultiByte ? "utf-8" : "ascii" }
}

/** Byte by byte: the first one that is not UTF-8, and whether a valid multi-byte sequence stands anywhere. */
function inspect(bytes: Uint8Array): { bad: number | null; hasMultiByte: boolean } {
  let bad: number | null = null
  let hasMultiByte = false
  for (let at = 0; at < bytes.length;) {
    if ((bytes[at] ?? 0) < 0x80) {
      at += 1
      continue
    }
    const length = sequenceLength(bytes[at] ?? 0)
    if (length > 1 && at + length <= bytes.length && isUtf8(bytes.subarray(at, at + length))) {
      hasMultiByte = true
      at += length
    } else {
      bad ??= at
      at += 1
    }
    if (bad !== null && hasMultiByte) break
  }
  return { bad, hasMultiByte }
}

/** The length that the first byte of a UTF-8 sequence announces; 1 when none starts with it. */
function sequenceLength(first: number): number {
  if (first >= 0xc2 && first <= 0xdf) return 2
  if (first >= 0xe0 && first <= 0xef) return 3
  if (first >= 0xf0 && first <= 0xf4) return 4
  return 1
}

/** How many bytes at the end begin a sequence that the next chunk may complete. */
function unfinishedLength(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back += 1) {
    const byte = bytes[bytes.length - back] ?? 0
    if (byte >= 0x80 && byte < 0xc0) continue
    return sequenceLength(byte) > back ? back : 0
  }
  return 0
}

function isUtf16(bytes: Uint8Array): boolean {
  return (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)
}
