import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { rasBlockerInAlbuminuria } from "../../../lib/measures/ras-blocker-in-albuminuria"
import { listedAllergies } from "../../../lib/questions/listed-allergies"
import { overduePlans } from "../../../lib/questions/overdue-plans"
import { protectionCounts } from "../../../lib/questions/protection-counts"
import { protectionGroupIds, protectionGroups } from "../../../lib/questions/protection-groups"
import { protectionPeople } from "../../../lib/questions/protection-people"
import {
  rasConsiderationRules,
  rasConsiderations,
  rasStatements,
} from "../../../lib/questions/ras-considerations"
import { rasReasons } from "../../../lib/questions/ras-reasons"
import { rasStops } from "../../../lib/questions/ras-stops"
import { urineHistory } from "../../../lib/questions/urine-history"
import { protectionFacts, protectionPeopleByHand, today } from "../../fixtures/protection-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

// Who stands where was worked out by hand from the text of the definitions, beside each person.

const asked = { as_of: today, ras_from_category: "A2", clinician_id: null }
const all = { ...asked, group_id: null, limit: 1000, offset: 0 }
const byHand = (group: string) =>
  protectionPeopleByHand.filter((one) => one.group === group).map(({ name }) => name)

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(protectionFacts, { today })
})

afterAll(() => engine.close())

const namesOf = (rows: readonly { public_id: string }[]) =>
  rows.map((row) => row.public_id.replace("public ", ""))
const about = (...names: string[]) => ({
  as_of: today,
  listed_ids: names.map((name) => `public ${name}`).join(","),
})

describe("those with albuminuria and no ACE inhibitor or ARB", () => {
  it.each(protectionGroupIds)("are in the group %s as by hand, listed and counted", async (group) => {
    const rows = await engine.ask(protectionPeople, { ...all, group_id: group })
    const [counts] = await engine.ask(protectionCounts, asked)

    expect(namesOf(rows).toSorted()).toEqual(byHand(group).toSorted())
    expect(counts?.grouped[protectionGroups.findIndex(({ id }) => id === group)]).toBe(byHand(group).length)
  })

  it("are, but for those raised once, whom the measure finds not met or an exception", async () => {
    const Standing = z.object({ public_id: z.string(), standing: z.string() })
    const standings = await engine.ask(
      {
        sql: `select people.public_id, s.ras_blocker_in_albuminuria as standing
          from patient_standings as s join people on people.patient_id = s.patient_id
          where s.as_of = cast($as_of as date)`,
        Row: Standing,
      },
      { as_of: today },
    )
    const listed = await engine.ask(protectionPeople, all)
    const inGroups = (...groups: string[]) =>
      namesOf(listed.filter(({ group }) => groups.includes(group))).toSorted()
    const standing = (is: string) => namesOf(standings.filter((one) => one.standing === is)).toSorted()

    expect(inGroups("never-tried", "stopped")).toEqual(standing("not met"))
    expect(inGroups("documented-reason")).toEqual(standing("exception"))
    const outside = new Set(standing("outside"))
    expect(inGroups("raised-once").filter((name) => !outside.has(name))).toEqual([])
  })

  it("leave out the excluded, each counted under its reason", async () => {
    const [counts] = await engine.ask(protectionCounts, asked)
    const words = rasBlockerInAlbuminuria.excluded.map((one) => one.words)

    expect(Object.fromEntries(words.map((word, place) => [word, counts?.excluded[place]]))).toEqual({
      "on dialysis": 1,
      "kidney transplant": 1,
      "palliative care": 1,
      pregnant: 1,
      "eGFR under 15 (individual decision)": 1,
    })
    expect(counts?.met).toBe(2)
  })

  it("are fewer where the clinic asks from A3 on", async () => {
    const rows = await engine.ask(protectionPeople, { ...all, ras_from_category: "A3" })

    expect(namesOf(rows)).toContain("not so high once")
    expect(namesOf(rows)).not.toContain("raised again at 89 days")
  })

  it("are those of one clinician where only these are asked for", async () => {
    const own = { ...all, clinician_id: "S1" }
    const rows = await engine.ask(protectionPeople, own)
    const [counts] = await engine.ask(protectionCounts, own)

    expect(namesOf(rows)).toEqual(["A3 of 500", "A2 with diabetes", "A2 of 200", "A2 in mg/mmol"])
    expect(counts?.people).toBe(4)
  })

  it("stand without a reason first, then raised once, then with a reason, the highest ACR first in A3", async () => {
    const rows = await engine.ask(protectionPeople, all)
    const places = rows.map(({ group }) => ["raised-once", "documented-reason"].indexOf(group))

    expect(places).toEqual(places.toSorted((one, other) => one - other))
    expect(namesOf(rows).slice(0, 2)).toEqual(["so high once", "A3 of 500"])
  })

  it("come in pages that join to the whole", async () => {
    const whole = await engine.ask(protectionPeople, all)
    const first = await engine.ask(protectionPeople, { ...all, limit: 7 })
    const rest = await engine.ask(protectionPeople, { ...all, offset: 7 })

    expect(namesOf([...first, ...rest])).toEqual(namesOf(whole))
    expect(first[0]?.total).toBe(whole.length)
  })
})

describe("what stands on a row", () => {
  it("is the drug stopped last, with its dose, reason, and whose visit it was", async () => {
    const [stop] = await engine.ask(rasStops, about("stopped with a reason"))

    expect(stop).toMatchObject({
      ...{ drug: "lisinopril", dose: 10, dose_unit: "mg", times_per_day: 1 },
      ...{
        stopped_on: "2026-03-03",
        is_run_out: false,
        stop_reason: "dizziness",
        seen_by: "Dr Ines Castellan",
      },
    })
  })

  it("tells no reason and nobody where none is recorded, and a supply that ran out as such", async () => {
    const stops = await engine.ask(
      rasStops,
      about("stopped without a reason", "supply ran out", "combination pill stopped"),
    )
    const told = stops.map((stop) => [
      stop.drug,
      stop.stopped_on,
      stop.is_run_out,
      stop.stop_reason,
      stop.seen_by,
    ])

    // 90 days and the 30 of grace after 1 January 2024: 30 April is the last, 1 May the first inactive day.
    expect(told).toEqual([
      ["amlodipine + valsartan", "2026-05-05", false, null, null],
      ["losartan", "2026-03-03", false, null, null],
      ["ramipril", "2024-05-01", true, null, null],
    ])
  })

  it("tells why it is an exception and until when", async () => {
    const reasons = await engine.ask(
      rasReasons,
      about(
        ...["angioedema", "both kinds", "potassium 5.6", "systolic 109"],
        ...["deferred until tomorrow", "decided not quite a year ago", "never tried"],
      ),
    )

    expect(reasons.map((one) => [...namesOf([one]), one.reason, one.kind, one.since, one.until])).toEqual([
      ["angioedema", "angioedema", null, "2020-01-10", null],
      ["both kinds", "both kinds", null, "2021-02-03", null],
      ["decided not quite a year ago", "decision", "contraindicated", "2025-11-01", "2026-11-01"],
      ["deferred until tomorrow", "decision", "deferred", "2026-10-01", "2026-11-01"],
      ["potassium 5.6", "potassium", null, "2026-10-10", "2027-01-08"],
      ["systolic 109", "pressure", null, "2026-10-10", "2027-01-08"],
    ])
  })

  it("has the last three urine results, latest first, cut in the unit reported", async () => {
    const points = await engine.ask(urineHistory, about("A2 in mg/mmol", "confirmed at 90 days"))

    expect(points.map(({ day, a }) => [day, a])).toEqual([
      ["2026-09-01", "A2"],
      ["2026-01-10", "A2"],
      ["2026-09-01", "A2"],
      ["2026-06-03", "A2"],
    ])
  })

  it("has the reactions to either kind first, and every other, as recorded", async () => {
    const allergies = await engine.ask(listedAllergies, about("both kinds", "never tried"))

    expect(allergies.map((one) => [one.substance, one.reaction, one.recorded_on, one.concerns_ras])).toEqual([
      ["lisinopril", "cough", "2020-01-10", true],
      ["losartan", "rash", "2021-02-03", true],
      ["penicillin", "rash", "2019-05-06", false],
    ])
    expect(allergies.at(-1)?.sources).toEqual(["allergies:1:92"])
  })
})

describe("plans to start", () => {
  it("are told when they were not followed in time, and of one clinician where only these are asked for", async () => {
    const plans = await engine.ask(overduePlans, { as_of: today, clinician_id: null })
    const own = await engine.ask(overduePlans, { as_of: today, clinician_id: "S1" })

    // Due two calendar months after they were made: 30 October has gone by, 31 October has not.
    expect(namesOf(plans)).toEqual(["A3 of 500", "never tried"])
    expect(namesOf(own)).toEqual(["A3 of 500"])
  })
})

describe("what published guidance says", () => {
  const statementsOf = async (name: string) =>
    (await engine.ask(rasConsiderations, about(name))).map((one) => one.statement).join(" ")

  // The statements are those of the clinical reference, sections 7 and 11.4, with its marks of what was read.
  it.each([
    ["never tried", "1B: A3", "2C"],
    ["A2 with diabetes", "1B: albuminuria with diabetes", "2C"],
    ["A2 of 200", "2C", "1B"],
    ["not so high once", "Two of three specimens", "1B"],
    ["cough alone", "an ARB is open", "angioedema"],
    ["rash from an ARB alone", "leaves the other open", "After cough"],
    ["angioedema", "specialist advice", "an ARB is open"],
    ["potassium 5.5", "above 5.0 mmol/L", "Above 5.5"],
    ["potassium 5.6", "Above 5.5 mmol/L", "above 5.0"],
    ["potassium 5.0", "Recommended", "above 5.0"],
    ["potassium 5.6 at 90 days", "No potassium in the last 90 days", "Above 5.5"],
    ["systolic 109", "Low pressure", "2C"],
    ["systolic 110", "Recommended", "Low pressure"],
    ["renin inhibitor alone", "direct renin inhibitor", "Low pressure"],
    ["stopped with a reason", "may have passed", "Low pressure"],
    ["eGFR 15", "below an eGFR of 30", "2C"],
  ])("of %s: %s, and not: %s", async (name, said, unsaid) => {
    const statements = await statementsOf(name)

    expect(statements).toContain(said)
    expect(statements).not.toContain(unsaid)
  })

  it("is known by a rule for each statement, and each has a source and a mark", async () => {
    const Row = z.object({ applies_when: z.string(), source: z.string().min(1), mark: z.string().min(1) })
    const rows = await engine.ask({
      sql: "select c.applies_when, c.source, c.mark from ras_considerations as c order by cast(c.place as integer)",
      Row,
    })
    const rules = rasConsiderationRules.map(({ when }) => when)

    expect(new Set(rows.map((row) => row.applies_when))).toEqual(new Set(["always", ...rules]))
    expect((await engine.ask(rasStatements)).length).toBe(
      rows.filter((row) => row.applies_when === "always").length,
    )
  })
})
