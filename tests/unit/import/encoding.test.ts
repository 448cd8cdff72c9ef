import { describe, expect, test } from "vitest"
import { sniffEncoding } from "../../../lib/import/encoding"
import { createDecoder } from "../../../lib/import/text-decoder"

function bytes(...parts: (string | number[])[]): Buffer {
  return Buffer.concat(parts.map((part) => Buffer.from(part)))
}

async function sniff(content: Buffer, chunkSize = content.length || 1) {
  return sniffEncoding(chunksOf(content, chunkSize))
}

async function* chunksOf(content: Buffer, size: number) {
  for (let at = 0; at < content.length; at += size) yield content.subarray(at, at + size)
}

describe("tells how a file is written", () => {
  test("plain ASCII", async () => {
    expect(await sniff(bytes("a,b\n"))).toEqual({ ok: true, encoding: "ascii" })
  })

  test("UTF-8 with letters of two, three and four bytes", async () => {
    expect(await sniff(bytes("é ≥ 𝄞"))).toEqual({ ok: true, encoding: "utf-8" })
  })

  test("Windows-1252, when no valid sequence of UTF-8 stands anywhere", async () => {
    expect(await sniff(bytes("umol ", [0xb5], "\nRen", [0xe9, 0x0a]))).toEqual({
      ok: true,
      encoding: "windows-1252",
    })
  })

  test("a mixture is refused at the offset of the first byte that is not UTF-8", async () => {
    expect(await sniff(bytes("abc", [0xe9], "def é"))).toEqual({ ok: false, reason: "mixed", byteOffset: 3 })
    expect(await sniff(bytes("é, abc ", [0xe9], "x"))).toEqual({ ok: false, reason: "mixed", byteOffset: 8 })
  })

  test("a file cut off inside a letter is a mixture at the start of that letter", async () => {
    expect(await sniff(bytes("é and ", [0xe2, 0x89]))).toEqual({ ok: false, reason: "mixed", byteOffset: 7 })
  })

  test.each([
    ["an overlong sequence", [0xc0, 0xaf]],
    ["a surrogate", [0xed, 0xa0, 0x80]],
    ["beyond the last code point", [0xf5, 0x80, 0x80, 0x80]],
    ["a lone continuation byte", [0x80]],
  ])("%s is not UTF-8", async (_, sequence) => {
    expect(await sniff(bytes("é", sequence, "x"))).toEqual({ ok: false, reason: "mixed", byteOffset: 2 })
  })

  test("UTF-16 is named", async () => {
    expect(await sniff(bytes([0xff, 0xfe, 0x61, 0]))).toEqual({ ok: false, reason: "utf-16", byteOffset: 0 })
  })

  test("the size of the chunks makes no difference", async () => {
    const contents = [
      bytes("plain, é, ≥, 𝄞, plain"),
      bytes("abc", [0xe9], "def ≥ é"),
      bytes("abc", [0xe9], "def", [0xb5]),
      bytes("≥ and 𝄞 and ", [0xf0, 0x9d]),
    ]
    for (const content of contents) {
      const whole = await sniff(content)
      for (let size = 1; size <= content.length; size += 1) expect(await sniff(content, size)).toEqual(whole)
    }
  })
})

describe("reads the text", () => {
  test("a byte order mark is dropped, once", () => {
    const decode = createDecoder("utf-8")
    expect(decode(bytes([0xef, 0xbb])) + decode(bytes([0xbf], "a")) + decode(undefined)).toBe("a")
  })

  test("a letter split between chunks is read", () => {
    const decode = createDecoder("utf-8")
    expect(decode(bytes([0xe2, 0x89])) + decode(bytes([0xa5])) + decode(undefined)).toBe("≥")
  })

  // WHATWG Encoding Standard, index windows-1252.
  test.each([
    [0x80, "€"],
    [0x82, "‚"],
    [0x8a, "Š"],
    [0x91, "‘"],
    [0x96, "–"],
    [0x99, "™"],
    [0x9f, "Ÿ"],
    [0xa0, "\u00a0"],
    [0xb5, "µ"],
    [0xe9, "é"],
    [0xff, "ÿ"],
  ])("Windows-1252 byte %i is %s", (byte, letter) => {
    expect(createDecoder("windows-1252")(bytes([byte]))).toBe(letter)
  })
})
