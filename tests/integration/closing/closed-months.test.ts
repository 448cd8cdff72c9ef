import { mkdirSync } from "node:fs"
import path from "node:path"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { wholeClinic } from "../../../lib/access/scope"
import type { ClosedFigures } from "../../../lib/domain/closed-figures"
import { askFigures } from "../../../lib/engine/figures-of"
import { askOn, onDay } from "../../../lib/engine/run"
import { askWithin } from "../../../lib/engine/scoped"
import { snapshotMeta } from "../../../lib/engine/snapshot-meta"
import { verifyClosing } from "../../../lib/engine/verify-closing"
import { whatIf } from "../../../lib/engine/what-if"
import { bpAtTarget } from "../../../lib/measures/bp-at-target"
import { dietMonthsOfToday } from "../../../lib/questions/diet-months"
import { measureMonths, measureMonthsOfToday } from "../../../lib/questions/measure-months"
import { movedSinceClosing } from "../../../lib/questions/moved-since-closing"
import { triedPeople } from "../../../lib/questions/tried-people"
import { commandActor } from "../../../lib/store/audit-actors"
import { saveDrugNameMapping } from "../../../lib/store/drug-name-mappings"
import { listClosings, reopenMonth } from "../../../lib/store/month-closings"
import { closedDay, openClosingClinic, type ClosingClinic } from "../../helpers/closing-clinic"

// The figures are worked out by hand from the six people of the fixture; nothing here computes them a second time.

let clinic: ClosingClinic
let whenClosed: ClosedFigures

beforeAll(async () => {
  clinic = await openClosingClinic()
  whenClosed = await clinic.figures()
})

afterAll(() => clinic.close())

function countsOf(figures: Pick<ClosedFigures, "measures">, id: string) {
  const row = figures.measures.find((one) => one.measure_id === id)
  return { met: row?.met, notMet: row?.not_met, unknown: row?.unknown }
}

async function today() {
  const Row = z.object({ measure_id: z.string(), met: z.number(), not_met: z.number(), unknown: z.number() })
  const measures = await askWithin(
    wholeClinic,
    { sql: "select m.measure_id, m.met, m.not_met, m.unknown from measure_months_today as m", Row },
    {},
  )
  const [diet] = await askWithin(wholeClinic, {
    sql: "select d.n, d.mean_mg from diet_months_today as d where d.series = 'counted days'",
    Row: z.object({ n: z.number(), mean_mg: z.number() }),
  })
  const row = measures.find((one) => one.measure_id === "bp-at-target")
  return { bp: { met: row?.met, notMet: row?.not_met, unknown: row?.unknown }, diet }
}

async function listed(pressure: "at target" | "all") {
  return askWithin(
    wholeClinic,
    {
      sql: `select p.patient_id, p.systolic, p.classes from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date) and ($pressure = 'all' or s.bp_at_target = 'met') order by p.patient_id`,
      Row: z.object({
        patient_id: z.string(),
        systolic: z.number().nullable(),
        classes: z.array(z.string()),
      }),
    },
    { as_of: closedDay, pressure },
  )
}

test("January stands as the people of the fixture make it", () => {
  expect(countsOf(whenClosed, "bp-at-target")).toEqual({ met: 2, notMet: 2, unknown: 2 })
  expect(whenClosed.diet).toMatchObject([{ series: "counted days", n: 2, mean_mg: 2500.5 }])
})

test("a month is closed once, also by two at the same moment", async () => {
  const answers = await Promise.all([clinic.closeJanuary(), clinic.closeJanuary()])

  expect(answers.toSorted()).toEqual(["closed", "closed before"])
  expect(await listClosings(clinic.store.prisma)).toMatchObject([{ asOf: closedDay, reopenedAt: null }])
  expect(await clinic.closeJanuary()).toBe("closed before")
})

test("what comes in later leaves a closed month as it was known, and shows what it would be today", async () => {
  await clinic.bringIn({
    patients: [
      "patient_id,given_name,family_name,birth_date,sex,clinician_id,site,registered_on,merged_into",
      "P7,Plain,Person 7,1960-06-15,male,S-1,North,2025-01-01,",
      "P6,Plain,Person 6,1960-06-15,male,S-2,South,2024-01-01,P2",
    ],
    visits: ["visit_id,patient_id,started_on,kind", "V7,P7,2026-01-15,office"],
    problems: ["problem_id,patient_id,code,onset_on,retracted", "K7,P7,N18.3,2025-01-12,"],
    readings: [
      "reading_id,patient_id,taken_at,systolic,diastolic,setting,retracted",
      "R3,P3,2026-01-12,115,80,office,",
      "R5,P5,2026-01-20,118,72,office,",
      "R7,P7,2026-01-20,171,92,office,",
      "R1,P1,2026-01-12,118,70,office,true",
    ],
    diet: ["diet_id,patient_id,recorded_on,method,sodium_mg", "D1,P1,2026-01-10,recall_24h,4000"],
  })
  await clinic.set({ "bp.diastolicTarget": "75" })
  const by = commandActor()
  await saveDrugNameMapping(clinic.store.prisma, {
    ...{ text: "zzcustom", ingredients: ["losartan"], isIgnored: false, by },
  })
  await clinic.rebuild()

  expect(await clinic.figures()).toEqual(whenClosed)
  expect((await snapshotMeta(wholeClinic)).closed).toMatchObject([
    { asOf: closedDay, isReproduced: true, isOfTheseDefinitions: true, peopleGone: 1 },
  ])
  // Of today's people P2 (126/74) and P5 (118/72) are below 130/75; P3 (115/80), P4 and P7 are not; of P1 no reading is left,
  // and P6 is P2.
  expect((await today()).bp).toEqual({ met: 2, notMet: 3, unknown: 1 })
  expect((await today()).diet).toEqual({ n: 2, mean_mg: 3500.5 })
})

test("the lists of a closed month hold the people and values known then", async () => {
  expect(await listed("at target")).toEqual([
    { patient_id: "P1", systolic: 118, classes: [] },
    { patient_id: "P2", systolic: 126, classes: [] },
  ])
  // P6 was merged since and has no record to be opened; P7 came later.
  expect((await listed("all")).map((one) => one.patient_id)).toEqual(["P1", "P2", "P3", "P4", "P5"])
  expect((await listed("all")).find((one) => one.patient_id === "P4")?.classes).toEqual([])
})

test("other settings are held against months that are all of today's facts", async () => {
  const shown = await askWithin(wholeClinic, measureMonths)
  const ofToday = await askWithin(wholeClinic, measureMonthsOfToday)
  const diet = await askWithin(wholeClinic, dietMonthsOfToday)

  const closed = ofToday.find((row) => row.measure_id === "bp-at-target" && row.as_of === closedDay)
  expect(closed).toMatchObject({ met: 2, not_met: 3, unknown: 1 })
  expect(diet.find((row) => row.as_of === closedDay && row.series === "counted days")?.mean_mg).toBe(3500.5)
  expect(ofToday.filter((row) => row.as_of !== closedDay)).toEqual(
    shown.filter((row) => row.as_of !== closedDay),
  )
})

test("the people who moved since are listed with where they stood and stand", async () => {
  const moved = await askWithin(wholeClinic, movedSinceClosing(bpAtTarget), { as_of: closedDay, limit: 10 })

  expect(moved.map((one) => [one.family_name, one.known, one.today, one.cause])).toEqual([
    ["Person 1", "met", "unknown", "late"],
    ["Person 5", "unknown", "met", "late"],
    ["Person 7", null, "not met", "late"],
  ])
})

test("a closed month is computed again from the record store alone, and a figure that is not its own is found", async () => {
  const [closing] = await listClosings(clinic.store.prisma)
  if (!closing) throw new Error("no month is closed")
  const workDir = path.join(clinic.dataDir, "verify")
  mkdirSync(workDir, { recursive: true })
  const verify = (month: typeof closing) => verifyClosing({ databaseUrl: clinic.store.url, workDir, month })
  const [diet] = closing.figures.diet
  if (!diet) throw new Error("no mean was kept")
  const other = { ...closing.figures, diet: [{ ...diet, mean_mg: diet.mean_mg + 1e-9 }] }

  expect(await verify(closing)).toEqual([])
  expect(await verify({ ...closing, figures: other })).toEqual([
    "diet counted days mean_mg: kept 2500.500000001, computed 2500.5",
  ])
})

test("the command's day is the closed month, and today's facts where they are asked for", async () => {
  const { settings } = await snapshotMeta(wholeClinic)
  const day = { dataDir: clinic.dataDir, scope: wholeClinic, asOf: closedDay, settings }
  const ask = (isOfToday: boolean) =>
    onDay({ ...day, isOfToday }, (connection) => askFigures(connection, closedDay))

  expect(await ask(false)).toEqual(whenClosed)
  expect(countsOf(await ask(true), "bp-at-target")).toEqual({ met: 2, notMet: 3, unknown: 1 })
})

test("other settings are tried on today's facts of a closed month", async () => {
  const { settings } = await snapshotMeta(wholeClinic)
  const tried = await whatIf(
    {
      ...{ dataDir: clinic.dataDir, scope: wholeClinic, changed: ["bp.diastolicTarget"], asOf: closedDay },
      settings: { ...settings, "bp.diastolicTarget": 85 },
    },
    (connection) => askFigures(connection, closedDay),
  )

  // Below 130/85: P2 (126/74), P3 (115/80) and P5 (118/72); P4 and P7 are above, of P1 no reading is left.
  expect(countsOf(tried, "bp-at-target")).toEqual({ met: 3, notMet: 2, unknown: 1 })
})

test("who would stand elsewhere is told against today's facts, of a closed month too", async () => {
  const { settings } = await snapshotMeta(wholeClinic)
  // The first is held against stored rows, the others make the facts be read anew: with the same value nobody moves.
  for (const changed of [
    ["bp.diastolicTarget"],
    ["bp.diastolicTarget", "bp.sameDay"],
    ["bp.sameDay"],
  ] as const) {
    const isMoved = changed[0] === "bp.diastolicTarget"
    const about = { dataDir: clinic.dataDir, scope: wholeClinic, changed, asOf: closedDay }
    const people = await whatIf(
      { ...about, settings: isMoved ? { ...settings, "bp.diastolicTarget": 85 } : settings },
      (connection) => askOn(connection, triedPeople, { limit: 10 }),
    )

    // P3 (115/80) comes below 130/85. What was corrected, withdrawn or came late since the closing is no move.
    const moved = people.filter((one) => one.measure_id === "bp-at-target")
    expect(moved.map((one) => [one.patient_id, one.now, one.then])).toEqual(
      isMoved ? [["P3", "not met", "met"]] : [],
    )
  }
})

test("a part of the clinic sees its own people of a closed month, as known then", async () => {
  const Row = z.object({ met: z.number(), not_met: z.number(), unknown: z.number() })
  const of = (table: string) =>
    askWithin(
      { sites: null, panelOf: "S-1" },
      {
        sql: `select m.met, m.not_met, m.unknown from ${table} as m
where m.measure_id = 'bp-at-target' and m.as_of = date '2026-01-31'`,
        Row,
      },
    )
  const means = await askWithin(
    { sites: null, panelOf: "S-1" },
    {
      sql: "select d.n, d.mean_mg from diet_months as d where d.as_of = date '2026-01-31'",
      Row: z.object({ n: z.number(), mean_mg: z.number() }),
    },
  )

  // P1, P3 and P5 were those of Dr A; today P7 is, too.
  expect(await of("measure_months")).toEqual([{ met: 1, not_met: 1, unknown: 1 }])
  expect(await of("measure_months_today")).toEqual([{ met: 1, not_met: 2, unknown: 1 }])
  expect(means).toEqual([{ n: 1, mean_mg: 2000 }])
})

test("a rebuilt data folder gives the closed month again to the last digit", async () => {
  clinic.wipe()
  await clinic.rebuild()

  expect(await clinic.figures()).toEqual(whenClosed)
  expect((await today()).bp).toEqual({ met: 2, notMet: 3, unknown: 1 })
})

test("a month that is opened again stands as today's facts have it", async () => {
  const [closing] = await listClosings(clinic.store.prisma)
  const reopened = { id: closing?.id ?? 0, reason: "late readings", by: commandActor(), now: new Date() }

  expect(await reopenMonth(clinic.store.prisma, reopened)).toBe(true)
  expect(await reopenMonth(clinic.store.prisma, reopened)).toBe(false)
  await clinic.rebuild()

  expect(countsOf(await clinic.figures(), "bp-at-target")).toEqual({ met: 2, notMet: 3, unknown: 1 })
  expect((await snapshotMeta(wholeClinic)).closed).toEqual([])
  expect(await listClosings(clinic.store.prisma)).toMatchObject([{ reopenReason: "late readings" }])
  const entries = await clinic.store.prisma.auditEntry.findMany({
    where: { object: "closing" },
    orderBy: { seq: "asc" },
    select: { action: true, purpose: true },
  })
  expect(entries).toEqual([
    { action: "month.close", purpose: null },
    { action: "month.reopen", purpose: "late readings" },
  ])
})
