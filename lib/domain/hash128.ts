/** 128 bits as four signed 32-bit integers. */
export type Hash128 = readonly [number, number, number, number]

const c1 = 0x239b961b
const c2 = 0xab0e9789 | 0
const c3 = 0x38b34ae5
const c4 = 0xa1e38b93 | 0

/**
 * MurmurHash3_x86_128 (seed 0 unless said) of the bytes from `from` to before `to`. It tells contents apart quickly, no more:
 * among a hundred million different ones, two of the same hash are to be expected once in 10^22 clinics.
 *
 * Source: Austin Appleby, MurmurHash3.cpp (public domain).
 */
export function hash128(bytes: DataView, from: number, to: number, seed = 0): Hash128 {
  let [h1, h2, h3, h4] = [seed, seed, seed, seed]
  const blockEnd = to - ((to - from) % 16)
  for (let at = from; at < blockEnd; at += 16) {
    h1 ^= scramble(bytes.getInt32(at, true), c1, 15, c2)
    h1 = (Math.imul(rotate(h1, 19) + h2, 5) + 0x561ccd1b) | 0
    h2 ^= scramble(bytes.getInt32(at + 4, true), c2, 16, c3)
    h2 = (Math.imul(rotate(h2, 17) + h3, 5) + 0x0bcaa747) | 0
    h3 ^= scramble(bytes.getInt32(at + 8, true), c3, 17, c4)
    h3 = (Math.imul(rotate(h3, 15) + h4, 5) + 0x96cd1c35) | 0
    h4 ^= scramble(bytes.getInt32(at + 12, true), c4, 18, c1)
    h4 = (Math.imul(rotate(h4, 13) + h1, 5) + 0x32ac3b17) | 0
  }
  if (to > blockEnd + 12) h4 ^= scramble(tail(bytes, blockEnd + 12, to), c4, 18, c1)
  if (to > blockEnd + 8) h3 ^= scramble(tail(bytes, blockEnd + 8, to), c3, 17, c4)
  if (to > blockEnd + 4) h2 ^= scramble(tail(bytes, blockEnd + 4, to), c2, 16, c3)
  if (to > blockEnd) h1 ^= scramble(tail(bytes, blockEnd, to), c1, 15, c2)
  const length = to - from
  return finish(h1 ^ length, h2 ^ length, h3 ^ length, h4 ^ length)
}

export function hexOf(hash: Hash128): string {
  return hash.map((part) => (part >>> 0).toString(16).padStart(8, "0")).join("")
}

/** Up to four bytes as one integer, the missing ones zero. */
function tail(bytes: DataView, from: number, to: number): number {
  if (to - from >= 4) return bytes.getInt32(from, true)
  let word = 0
  for (let at = to - 1; at >= from; at -= 1) word = (word << 8) | bytes.getUint8(at)
  return word
}

function scramble(word: number, first: number, shift: number, second: number): number {
  return Math.imul(rotate(Math.imul(word, first), shift), second)
}

function rotate(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by))
}

function finish(a: number, b: number, c: number, d: number): Hash128 {
  const first = (a + b + c + d) | 0
  const h1 = mix(first)
  const h2 = mix((b + first) | 0)
  const h3 = mix((c + first) | 0)
  const h4 = mix((d + first) | 0)
  const sum = (h1 + h2 + h3 + h4) | 0
  return [sum, (h2 + sum) | 0, (h3 + sum) | 0, (h4 + sum) | 0]
}

function mix(word: number): number {
  let mixed = word
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b)
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
  return mixed ^ (mixed >>> 16)
}
