import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { activeDrugs, type ActiveDrug } from "../../../lib/questions/active-drugs"
import { severalClassesCounts } from "../../../lib/questions/several-classes-counts"
import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import { severalClassesPeople } from "../../../lib/questions/several-classes-people"
import { resistanceFacts } from "../../fixtures/resistance-facts"
import { resistancePeople, today, type ResistancePerson } from "../../fixtures/resistance-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

// Names are those of the hand-made people; who is found with what follows from what was worked out by hand beside each.
const found = resistancePeople.filter(({ parts }) => parts.length > 0)
const simpler = [
  ...["supply-gaps", "office-only", "interfering-drug", "no-diuretic", "no-ras-blocker"],
  ...["no-calcium-channel-blocker", "dose-below-half", "dose-unknown"],
]

// Somebody whose dose was doubled before the supply had run out; without a pressure, and so not listed.
const raised = "dose raised early"
const onceADay = { dose_unit: "mg", times_per_day: 1 }

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      ...resistanceFacts,
      patient_records_raw: [...(resistanceFacts.patient_records_raw ?? []), raw.person(raised)],
      orders_raw: [
        ...(resistanceFacts.orders_raw ?? []),
        raw.order(raised, "amlodipine", "2026-09-01", { ...onceADay, dose: 5, supply_days: 60 }),
        raw.order(raised, "amlodipine", "2026-10-20", { ...onceADay, dose: 10, supply_days: 60 }),
      ],
      readings_raw: [
        ...(resistanceFacts.readings_raw ?? []),
        // Above 130/80 in the office by 20, and by 25 in the diastolic; severe from 180 or 120 (the words of the definitions).
        raw.reading("five classes", "2026-10-25", 150, { diastolic: 105 }),
        raw.reading("four classes", "2026-10-25", 181),
        raw.reading("all at half", "2026-10-25", 156),
      ],
    },
    { today },
  )
})

afterAll(() => engine.close())

function isFoundByHand({ byHand, parts }: ResistancePerson, finding: string): boolean {
  const isSimpler = parts.some((part) => simpler.includes(part))
  if (finding === "supply-unknown") return byHand.gapDays === null
  if (finding === "nothing-simpler") return byHand.gapDays !== null && !isSimpler
  return parts.some((part) => part === finding)
}

async function peopleWith(detail: string | null, page: { limit: number; offset: number }) {
  const rows = await engine.ask(severalClassesPeople, { as_of: today, detail, ...page })
  return rows.map((row) => row.public_id.replace("public ", ""))
}

const all = { limit: 1000, offset: 0 }

describe("those above target on several classes", () => {
  it("are those who are found by hand, nobody left out or added", async () => {
    expect((await peopleWith(null, all)).toSorted()).toEqual(found.map(({ name }) => name).toSorted())
  })

  it.each(severalClassesFindings.map(({ id }, place) => [id, place] as const))(
    "are counted and listed with %s as by hand",
    async (id, place) => {
      const byHand = found.filter((person) => isFoundByHand(person, id)).map(({ name }) => name)

      const [counts] = await engine.ask(severalClassesCounts, { as_of: today })

      expect((await peopleWith(id, all)).toSorted()).toEqual(byHand.toSorted())
      expect(counts?.found[place]).toBe(byHand.length)
      const rows = await engine.ask(severalClassesPeople, { as_of: today, detail: null, ...all })
      expect(rows.filter((row) => row.holds[place]).length).toBe(byHand.length)
    },
  )

  it("stand severe first, then by how far above target, systolic or diastolic", async () => {
    const [counts] = await engine.ask(severalClassesCounts, { as_of: today })
    const listed = await peopleWith(null, all)

    expect(listed.slice(0, 3)).toEqual(["four classes", "all at half", "five classes"])
    expect(counts).toMatchObject({ people: found.length, severe: 1 })
  })

  it("come in pages that join to the whole, each with the number of all", async () => {
    const whole = await peopleWith(null, all)
    const pages = [
      await peopleWith(null, { limit: 20, offset: 0 }),
      await peopleWith(null, { limit: 1000, offset: 20 }),
    ]
    const [first] = await engine.ask(severalClassesPeople, {
      as_of: today,
      detail: null,
      limit: 1,
      offset: 0,
    })

    expect(pages.flat()).toEqual(whole)
    expect(first?.total).toBe(found.length)
  })

  it("are nobody for a finding that there is not", async () => {
    expect(await peopleWith("no-such-finding", all)).toEqual([])
  })
})

describe("what somebody takes", () => {
  const drugsOf = (...names: string[]) =>
    engine.ask(activeDrugs, { as_of: today, listed_ids: names.map((name) => `public ${name}`).join(",") })
  const words = (drug: ActiveDrug) => [drug.class, drug.drug, drug.dose, drug.max_daily_mg, drug.interferes]

  it("stands under its class, with the usual maximum of the code list", async () => {
    expect((await drugsOf("all at half")).map(words)).toEqual([
      ["calcium_channel_blocker", "amlodipine", 5, 10, false],
      ["diuretic", "chlortalidone", 25, 50, false],
      ["ras_blocker", "lisinopril", 20, 40, false],
    ])
  })

  it("stands without a class, last, where it interferes", async () => {
    expect((await drugsOf("with ibuprofen")).map(words).at(-1)).toEqual([null, "ibuprofen", 400, null, true])
  })

  it("is under each class of a pill of two, without a maximum", async () => {
    const both = (await drugsOf("combination pill")).filter(({ drug }) => drug === "amlodipine + valsartan")

    expect(both.map(({ class: of, max_daily_mg: most }) => [of, most])).toEqual([
      ["calcium_channel_blocker", null],
      ["ras_blocker", null],
    ])
  })

  it("is that of the latest supply where it has replaced the one before", async () => {
    expect((await drugsOf(raised)).map(({ drug, dose }) => [drug, dose])).toEqual([["amlodipine", 10]])
  })

  it("has nothing that was stopped, nor anybody else's", async () => {
    const drugs = await drugsOf("fourth class until today")

    expect(drugs.map(({ drug }) => drug)).toEqual(["amlodipine", "chlortalidone", "lisinopril"])
    expect(await drugsOf()).toEqual([])
  })
})
