import { readFileSync } from "node:fs"
import { beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { openDrugs } from "../../helpers/open-drugs"

const Texts = z.strictObject({
  about: z.string(),
  texts: z.array(
    z.strictObject({
      source: z.string().min(1),
      text: z.string(),
      ingredients: z.array(z.string()),
      unknown: z.array(z.string()),
      status: z.string().optional(),
    }),
  ),
})

const Row = z.object({
  text: z.string(),
  ingredients: z.array(z.string()),
  unknown_words: z.array(z.string()),
  status: z.string(),
})

const { texts } = Texts.parse(
  JSON.parse(readFileSync(new URL("../../fixtures/vectors/drug-texts.json", import.meta.url), "utf8")),
)
const found = new Map<string, z.infer<typeof Row>>()

beforeAll(async () => {
  const connection = await openDrugs({ orders: texts.map(({ text }) => ({ drug: text })) })
  const reader = await connection.runAndReadAll(
    "select text, ingredients, unknown_words, status from drug_texts",
  )
  for (const row of z.array(Row).parse(reader.getRowObjectsJson())) found.set(row.text, row)
})

describe("drug texts", () => {
  it.each(texts)("reads $text", ({ text, ingredients, unknown }) => {
    const row = found.get(text)

    expect(row?.ingredients).toEqual(ingredients)
    expect(row?.unknown_words).toEqual(unknown)
  })

  it("tells counted drugs, other drugs, unknown words and unknown texts apart", () => {
    const told = texts.filter((row) => row.status !== undefined)

    expect(told.map(({ text }) => [text, found.get(text)?.status])).toEqual(
      told.map(({ text, status }) => [text, status]),
    )
    expect(new Set(told.map((row) => row.status))).toEqual(
      new Set(["not a counted drug", "unmapped", "part not recognised"]),
    )
  })

  it("leaves no text of the table out", () => {
    expect(found.size).toBe(texts.length)
    expect(texts.length).toBeGreaterThanOrEqual(120)
  })
})
