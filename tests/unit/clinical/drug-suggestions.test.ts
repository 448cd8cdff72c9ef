import { describe, expect, it } from "vitest"
import { z } from "zod"
import { drugSuggestions } from "../../../lib/questions/drug-suggestions"
import { openDrugs, type DrugMapping } from "../../helpers/open-drugs"

async function suggest(texts: readonly string[], mappings: readonly DrugMapping[] = []) {
  const connection = await openDrugs({ orders: texts.map((drug) => ({ drug })), mappings })
  const reader = await connection.runAndReadAll(drugSuggestions.sql)
  return z.array(drugSuggestions.Row).parse(reader.getRowObjectsJson())
}

describe("a word that misses a known name by one letter", () => {
  it.each([
    ["a letter left out", "ramiprl 5 mg", "ramipril"],
    ["the first letter left out", "amipril 5 mg", "ramipril"],
    ["a letter doubled", "losarrtan", "losartan"],
    ["a letter after the last", "losartane 50", "losartan"],
    ["a letter changed", "amlodipone", "amlodipine"],
    ["the first letter changed", "Kisoprolol 2.5mg", "bisoprolol"],
    ["the last letter changed", "bisoprolom", "bisoprolol"],
    ["two neighbours swapped", "spironolcatone 25", "spironolactone"],
    ["the first two swapped", "ilsinopril", "lisinopril"],
    ["a name of several words", "isosorbid mononitrate 30 mg", "isosorbide mononitrate"],
  ])("is suggested that name: %s", async (_case, text, name) => {
    const rows = await suggest([text])

    expect(rows.map((row) => row.name)).toEqual([name])
    expect(rows[0]?.ingredients).toHaveLength(1)
  })

  it("is suggested every name it is near to", async () => {
    const rows = await suggest(["predniolone"])

    expect(rows.map((row) => row.name)).toContain("prednisolone")
  })

  it("brings the ingredients behind another name of a drug", async () => {
    const [row] = await suggest(["furosemid 40 mg", "albuterl"])

    expect(row).toMatchObject({ word: "albuterl", name: "albuterol", ingredients: ["salbutamol"] })
  })

  it("is found in a combination that was read in part", async () => {
    const rows = await suggest(["lisinopril and hydrochlorthiazide 20/12.5"])

    expect(rows.map(({ word, name }) => [word, name])).toEqual([
      ["hydrochlorthiazide", "hydrochlorothiazide"],
    ])
  })

  it("is still mapped to nothing", async () => {
    const connection = await openDrugs({ orders: [{ drug: "ramiprl 5 mg" }] })
    const reader = await connection.runAndReadAll("select ingredients, status from drug_texts")

    expect(reader.getRowsJson()).toEqual([[[], "unmapped"]])
  })
})

describe("no name is suggested", () => {
  it.each([
    ["two letters missing", "ramprl"],
    ["two letters swapped over a third", "rapimril"],
    ["a word of four letters", "aspr"],
    ["a word the lists know", "ramipril 5 mg tablets"],
    ["a text of no drug", "herbal tea"],
  ])("for %s", async (_case, text) => {
    expect(await suggest([text])).toEqual([])
  })

  it("for what a person has mapped", async () => {
    const mapping = { text: "ramiprl", ingredients: ["ramipril"], isIgnored: false }

    expect(await suggest(["ramiprl 5 mg"], [mapping])).toEqual([])
    expect(await suggest(["ramiprl 5 mg"], [{ ...mapping, ingredients: [], isIgnored: true }])).toEqual([])
  })
})
