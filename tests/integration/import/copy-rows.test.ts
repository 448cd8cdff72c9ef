import { once } from "node:events"
import fc from "fast-check"
import { from as copyFrom } from "pg-copy-streams"
import { afterAll, beforeAll, expect, test } from "vitest"
import type { Ledger } from "../../../lib/domain/ledgers"
import { copyColumns, createRowEncoder, type CopyRow } from "../../../lib/store/copy-rows"
import { createCopySpool } from "../../../lib/store/copy-spool"
import { openFolder } from "../../helpers/extract"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore

const probe: Ledger = {
  ...{
    kind: "staff",
    table: "probe",
    spellings: 1,
    numberedWithout: null,
    canBePreliminary: false,
    events: [],
  },
  columns: [
    ["words", "text"],
    ["day", "date"],
    ["instant", "instant"],
    ["amount", "number"],
    ["is_so", "boolean"],
    ["spelling", "text"],
  ],
}

beforeAll(async () => {
  store = await openStore()
  await store.client
    .query(`set timezone to 'UTC'; create table probe (import_id int, line int, known_at timestamptz(3),
    key uuid, hash uuid, words text, day date, instant timestamptz(3), amount numeric, is_so boolean, spelling text)`)
})
afterAll(async () => {
  await store.close()
  folder.close()
})

async function load(rows: readonly CopyRow["values"][]): Promise<Record<string, unknown>[]> {
  await store.client.query("truncate probe")
  const encoder = createRowEncoder(probe, { importId: 7, knownAt: new Date("2026-03-15T18:00:00.123Z") })
  const copy = store.client.query(
    copyFrom(`copy probe (${copyColumns(probe).join(", ")}) from stdin (format binary)`),
  )
  rows.forEach((values, index) =>
    encoder.add({ line: index + 1, key: [1, -2, 3, index], values, size: values.join("").length }),
  )
  copy.end(encoder.end())
  await once(copy, "finish")
  const { rows: found } = await store.client.query(
    `select words, day - date '1970-01-01' as day, extract(epoch from instant) * 1000 as instant, amount::text, is_so,
       spelling, key::text, hash::text, known_at from probe order by line`,
  )
  return found
}

const decimal = fc
  .tuple(fc.boolean(), fc.bigInt({ min: 0n, max: 10n ** 30n }), fc.nat({ max: 12 }))
  .map(([isNegative, digits, scale]) => {
    const text = digits.toString().padStart(scale + 1, "0")
    const [whole, fraction] = [
      text.slice(0, text.length - scale),
      text.slice(text.length - scale).replace(/0+$/, ""),
    ]
    const size = fraction === "" ? whole : `${whole}.${fraction}`
    return isNegative && digits > 0n ? `-${size}` : size
  })

const values = fc.tuple(
  fc.option(fc.string({ unit: "grapheme", maxLength: 60 }).filter((text) => !text.includes("\0"))),
  fc.option(fc.integer({ min: -719_162, max: 2_932_896 })),
  fc.option(fc.integer({ min: -62_135_596_800_000, max: 253_402_300_799_999 })),
  fc.option(decimal),
  fc.option(fc.boolean()),
  fc.option(fc.string({ maxLength: 5 }).filter((text) => !text.includes("\0"))),
)

test("Postgres reads back every value that the binary rows hold", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(values, { maxLength: 30 }), async (rows) => {
      const found = await load(rows)

      expect(
        found.map(({ words, day, instant, amount, is_so, spelling }) => [
          ...[words, day, instant === null ? null : Number(instant), amount, is_so, spelling],
        ]),
      ).toEqual(rows)
    }),
    { numRuns: 60 },
  )
})

test("numbers on either side of a group of four digits", async () => {
  const numbers = [
    "0",
    "9999",
    "10000",
    "0.0001",
    "0.00001",
    "99999999.99999999",
    "-1",
    "120.5",
    "1000000000000000",
  ]
  const found = await load(numbers.map((number) => [null, null, null, number, null, null]))

  expect(found.map((row) => row.amount)).toEqual(numbers)
})

test("the hash is of the content: another spelling keeps it, anything else changes it", async () => {
  const row = ["a", 1, 2, "3", true, "three"] as const
  const others = [
    ["b", ...row.slice(1)],
    ["a", 2, ...row.slice(2)],
    [...row.slice(0, 4), null, "three"],
  ]
  const [first, respelled, ...changed] = await load([row, [...row.slice(0, 5), "3.0"], ...others])

  expect(respelled?.hash).toBe(first?.hash)
  expect(new Set([first, ...changed].map((found) => found?.hash)).size).toBe(4)
})

test("a row of a million characters is carried whole", async () => {
  const long = "é".repeat(1_000_000)
  const found = await load([[long, null, null, null, null, long]])

  expect(found[0]).toMatchObject({ words: long, spelling: long })
})

test("waiting rows come through in order, from memory and from disk", async () => {
  const spool = createCopySpool(`${folder.dir}/spool/rows`)
  const texts = Array.from({ length: 400 }, (_, index) => `${index}\t\\\r\n${"x".repeat(8000)}\0`)
  for (const text of texts) spool.add([text, null])
  await store.client.query("truncate probe")
  await spool.copyInto(store.client, "probe (words, spelling)")
  spool.clear()
  const { rows } = await store.client.query("select words, spelling from probe")

  expect(rows.map((row) => row.words)).toEqual(texts.map((text) => text.replace("\0", "\u2400")))
  expect(rows.every((row) => row.spelling === null)).toBe(true)
})
