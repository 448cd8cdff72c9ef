import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

/** What was answered, and the groups that the contract and the code set say it belongs to. */
const people = [
  { answered: ["en-GB", "2106-3", "2186-5"], groups: ["en", "White", "Not Hispanic or Latino"] },
  { answered: ["EN", "white", "hispanic or latino"], groups: ["en", "White", "Hispanic or Latino"] },
  { answered: ["es", "White;2106-3", "2135-2"], groups: ["es", "White", "Hispanic or Latino"] },
  { answered: ["vi", "2028-9;White", "declined"], groups: ["vi", "more than one", "declined"] },
  { answered: ["ar", "declined", "Sami"], groups: ["ar", "declined", "sami"] },
  { answered: ["ar", "declined;Asian", null], groups: ["ar", "Asian", null] },
  { answered: [" ", "", ""], groups: [null, null, null] },
  { answered: [null, null, null], groups: [null, null, null] },
]

const Row = z.object({
  language: z.string().nullable(),
  race: z.string().nullable(),
  ethnicity: z.string().nullable(),
})

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      patient_records_raw: people.map(({ answered: [language, race, ethnicity] }, place) => ({
        ...{ patient_id: `P-${place}`, public_id: `public-${place}`, birth_date: "1960-01-01" },
        ...{ sex: "female", registered_on: "2020-01-01" },
        ...{ language: language ?? null, race: race ?? null, ethnicity: ethnicity ?? null },
      })),
    },
    { today: "2026-10-31" },
  )
})

afterAll(() => engine.close())

test("puts each person in one group of language, race and ethnicity, whatever way it was written", async () => {
  const sql = "select language, race, ethnicity from person_groups order by patient_id"

  const rows = await engine.ask({ sql, Row })

  expect(rows.map(({ language, race, ethnicity }) => [language, race, ethnicity])).toEqual(
    people.map(({ groups }) => groups),
  )
})
