import { hash128, type Hash128 } from "../domain/hash128"
import type { FactKey } from "./cells"

/** Ends a text in a key; no text of a row may hold it (see cells.ts). */
export const unitSeparator = "\u001f"

// Before each part stands what it is, so that no two keys write the same bytes.
const tags = { id: 1, absent: 2, number: 3, text: 4 }
const separatorCode = unitSeparator.charCodeAt(0)

let scratch = Buffer.alloc(4096)
let view = new DataView(scratch.buffer, scratch.byteOffset, scratch.length)
let at = 0

/** The natural key of a fact as the 128 bits it is looked up by. A row with an id never matches a row without. */
export function keyHash(key: FactKey): Hash128 {
  at = 0
  if ("id" in key) putText(tags.id, key.id)
  else for (const part of key.parts) putPart(part)
  return hash128(view, 0, at)
}

function putPart(part: string | number | null): void {
  if (typeof part === "string") return putText(tags.text, part)
  makeRoom(9)
  putByte(part === null ? tags.absent : tags.number)
  if (part === null) return
  view.setFloat64(at, part)
  at += 8
}

function putText(tag: number, text: string): void {
  makeRoom(text.length * 3 + 2)
  putByte(tag)
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index)
    if (code > 127) {
      at += scratch.write(text.slice(index), at)
      break
    }
    putByte(code)
  }
  putByte(separatorCode)
}

function putByte(byte: number): void {
  view.setUint8(at, byte)
  at += 1
}

function makeRoom(bytes: number): void {
  if (scratch.length - at >= bytes) return
  const larger = Buffer.alloc(at + bytes * 2)
  scratch.copy(larger, 0, 0, at)
  scratch = larger
  view = new DataView(scratch.buffer, scratch.byteOffset, scratch.length)
}
