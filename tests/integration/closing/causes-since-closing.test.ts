import { afterAll, beforeAll, expect, test } from "vitest"
import { wholeClinic } from "../../../lib/access/scope"
import { changeKinds } from "../../../lib/domain/changes"
import { askWithin } from "../../../lib/engine/scoped"
import { bpAtTarget } from "../../../lib/measures/bp-at-target"
import type { Measure } from "../../../lib/measures/types"
import { untreatedAboveTarget } from "../../../lib/measures/untreated-above-target"
import { measurePeople } from "../../../lib/questions/measure-people"
import { movedSinceClosing } from "../../../lib/questions/moved-since-closing"
import { standingChanges } from "../../../lib/questions/standing-changes"
import { changeCounts } from "../../../lib/statistics/change-counts"
import { commandActor } from "../../../lib/store/audit-actors"
import { saveDrugNameMapping } from "../../../lib/store/drug-name-mappings"
import { closedDay, openClosingClinic, type ClosingClinic } from "../../helpers/closing-clinic"

// Who moved between the closed January and February, and why, is worked out by hand from the facts beside each name.

const days = { as_of: "2026-02-28", earlier_as_of: closedDay }
const everyone = {
  ...{ standing: null, change: null, cause: null, detail: null, reason: null },
  ...{ clinician: null, site: null, sex: null, age: null, language: null, race: null, ethnicity: null },
  ...{ limit: 100, offset: 0 },
}
const readingColumns = "reading_id,patient_id,taken_at,systolic,diastolic,setting"

function people(numbers: readonly number[], registeredOn: string) {
  return {
    patients: [
      "patient_id,given_name,family_name,birth_date,sex,clinician_id,site,registered_on",
      ...numbers.map((n) => `P${n},Plain,Person ${n},1960-06-15,male,S-1,North,${registeredOn}`),
    ],
    problems: ["problem_id,patient_id,code,onset_on", ...numbers.map((n) => `K${n},P${n},N18.3,2025-01-12`)],
  }
}

let clinic: ClosingClinic

beforeAll(async () => {
  clinic = await openClosingClinic()
  await clinic.bringIn({
    ...people([8, 10], "2024-01-01"),
    visits: ["visit_id,patient_id,started_on,kind", "V8,P8,2025-02-10,office", "V10,P10,2026-01-15,office"],
    readings: [readingColumns, "R8,P8,2025-02-10,120,70,office", "R10,P10,2026-01-15,150,90,office"],
  })
  await clinic.rebuild()
  if ((await clinic.closeJanuary()) !== "closed") throw new Error("January was not closed")
  await clinic.bringIn({
    ...people([7], "2025-01-01"),
    visits: ["visit_id,patient_id,started_on,kind", "V7,P7,2026-01-15,office", "V20,P2,2026-02-28,office"],
    readings: [
      readingColumns,
      "R1,P1,2026-01-12,150,90,office",
      "R3,P3,2026-01-12,115,70,office",
      "R5,P5,2026-01-20,118,72,office",
      "R7,P7,2026-01-20,171,92,office",
      "R11,P10,2026-02-10,120,70,office",
    ],
  })
  await clinic.bringIn({
    ...people([9], "2026-02-03"),
    visits: ["visit_id,patient_id,started_on,kind", "V12,P9,2026-02-03,office"],
  })
  await clinic.set({ "bp.systolicTarget": "125" })
  await saveDrugNameMapping(clinic.store.prisma, {
    ...{ text: "zzcustom", ingredients: ["losartan"], isIgnored: false, by: commandActor() },
  })
  await clinic.rebuild()
}, 300_000)

afterAll(() => clinic.close())

async function moved(measure: Measure) {
  const listed = await askWithin(wholeClinic, measurePeople(measure), { ...everyone, ...days })
  return listed
    .flatMap((one) => (one.change === null ? [] : [[one.patient_id, one.change, one.cause]]))
    .sort()
}

test("whoever moved since a closed month did by the first cause that holds", async () => {
  expect(await moved(bpAtTarget)).toEqual([
    // 118/70 when closed, corrected to 150/90 since
    ["P1", "lost", "late"],
    // newly measured below the target in February, whatever was known of January
    ["P10", "gained", "news"],
    // 126/74 in both, below the target of 130 when closed and above that of 125 now
    ["P2", "lost", "setting"],
    // 150/80 when closed, corrected to 115/70 since
    ["P3", "gained", "late"],
    // a reading of January that came in February
    ["P5", "gained", "late"],
    // registered in January, and brought in later
    ["P7", "joined", "late"],
    // the one reading is more than twelve months old by the end of February
    ["P8", "lost", "time"],
    // registered in February
    ["P9", "joined", "panel"],
  ])
})

test("a drug text that was given a meaning since is something that was set", async () => {
  // 160/90 in both; the order of June 2025 became a drug of a class
  expect(await moved(untreatedAboveTarget)).toContainEqual(["P4", "lost", "setting"])
})

test("the counts of the causes are those of the people, and sum to the parts", async () => {
  const moves = await askWithin(wholeClinic, standingChanges, days)
  for (const measure of [bpAtTarget, untreatedAboveTarget]) {
    const own = moves.filter((move) => move.measure_id === measure.id)
    const counted = own.flatMap(({ change, cause, people }) =>
      change === null ? [] : Array.from({ length: people }, () => `${change} ${cause}`),
    )
    const counts = changeCounts(own, measure.direction)

    expect(counted.sort()).toEqual(
      (await moved(measure)).map(([, change, cause]) => `${change} ${cause}`).sort(),
    )
    for (const kind of changeKinds)
      expect(counted.filter((words) => words.startsWith(kind))).toHaveLength(counts[kind])
  }
})

test("who stands elsewhere today is listed with the cause", async () => {
  const listed = await askWithin(wholeClinic, movedSinceClosing(bpAtTarget), { as_of: closedDay, limit: 10 })

  expect(listed.map((one) => [one.family_name, one.known, one.today, one.cause])).toEqual([
    ["Person 1", "met", "not met", "late"],
    ["Person 2", "met", "not met", "setting"],
    ["Person 3", "not met", "met", "late"],
    ["Person 5", "unknown", "met", "late"],
    ["Person 7", null, "not met", "late"],
  ])
})

test("between two months that are not closed nothing lies in a closing", async () => {
  const moves = await askWithin(wholeClinic, standingChanges, {
    ...{ as_of: "2025-12-31", earlier_as_of: "2025-11-30" },
  })

  expect(moves.filter(({ cause }) => cause === "late" || cause === "setting")).toEqual([])
})
