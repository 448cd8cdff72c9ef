import "server-only"
import { hash128 } from "../domain/hash128"

const initialSize = 1 << 20
const shortText = 40

export type ByteWriter = ReturnType<typeof createByteWriter>

/** Writes integers (high byte first) and texts one after another. `makeRoom` must be asked for before writing. */
export function createByteWriter() {
  let buffer: Buffer = Buffer.allocUnsafe(initialSize)
  let view = viewOf(buffer)
  let at = 0

  function use(next: Buffer): void {
    buffer = next
    view = viewOf(next)
  }

  return {
    length: () => at,
    makeRoom(bytes: number): void {
      if (buffer.length - at >= bytes) return
      const larger = Buffer.allocUnsafe(Math.max(buffer.length * 2, at + bytes))
      buffer.copy(larger, 0, 0, at)
      use(larger)
    },
    int8(value: number): void {
      view.setInt8(at, value)
      at += 1
    },
    int16(value: number): void {
      view.setInt16(at, value)
      at += 2
    },
    int32(value: number): void {
      view.setInt32(at, value)
      at += 4
    },
    /** The length in bytes, then the text in UTF-8. */
    text(value: string): void {
      const start = at + 4
      const length = writeAscii(view, value, start) ? value.length : buffer.write(value, start)
      view.setInt32(at, length)
      at = start + length
    },
    /** Puts the hash of everything written from `from` on at a place that was kept for it. */
    putHash(place: number, from: number): void {
      for (const [index, part] of hash128(view, from, at).entries()) view.setInt32(place + 4 * index, part)
    },
    /** What has been written since the last time; the writer goes on in memory of its own. */
    take(): Buffer {
      const taken = buffer.subarray(0, at)
      use(Buffer.allocUnsafe(initialSize))
      at = 0
      return taken
    },
  }
}

/** For a short text a loop is faster than the call that encodes; false when the text is not short and plain. */
function writeAscii(view: DataView, text: string, from: number): boolean {
  if (text.length > shortText) return false
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index)
    if (code > 127) return false
    view.setUint8(from + index, code)
  }
  return true
}

function viewOf(buffer: Buffer): DataView {
  return new DataView(buffer.buffer, buffer.byteOffset, buffer.length)
}
