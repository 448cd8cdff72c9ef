import { rmSync } from "node:fs"
import { z } from "zod"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import type { NewDecision } from "../../../lib/domain/clinician-decisions"
import { askOn, onSnapshot } from "../../../lib/engine/run"
import { snapshotDir } from "../../../lib/engine/snapshot"
import { refresh } from "../../../lib/jobs/refresh"
import { isSnapshotStale } from "../../../lib/jobs/snapshot-freshness"
import {
  listDecisions,
  listWrongData,
  makeDecision,
  undoDecision,
} from "../../../lib/store/clinician-decisions"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// Three people with chronic kidney disease, all above target; OLD is a second record of B, merged later.

const now = new Date("2026-01-31T12:00:00Z")
const on = "2026-01-31"
const people = ["patient_id,given_name,family_name,birth_date,sex,site,registered_on,merged_into"]
const person = (id: string, own = "North,2024-01-01,") =>
  `${id},Given${id},Family${id},1960-06-15,male,${own}`
const extract = {
  patients: [...people, person("A"), person("B"), person("C", "South,2024-01-01,"), person("OLD")],
  visits: [
    "visit_id,patient_id,started_on,kind",
    ...["A", "B", "C"].map((id) => `V${id},${id},${on},office`),
  ],
  problems: [
    "problem_id,patient_id,code,onset_on",
    ...["A", "B", "C"].map((id) => `K${id},${id},N18.3,2025-01-12`),
  ],
  readings: [
    "reading_id,patient_id,taken_at,systolic,diastolic,setting",
    ...["A", "B", "C"].map((id) => `R${id},${id},2026-01-12,150,90,office`),
  ],
}

let clinic: OutreachClinic
let caller: Caller
let publicIds: ReadonlyMap<string, string>

beforeAll(async () => {
  clinic = await openOutreachClinic()
  caller = await clinic.callerFor("Dr A", "nephrologist")
  await clinic.bringIn(extract, now)
  const found = await clinic.store.prisma.patient.findMany()
  publicIds = new Map(found.map((one) => [one.patientId, one.publicId]))
})

afterAll(() => clinic.close())

const idOf = (patientId: string) => publicIds.get(patientId) ?? "nobody"

const notTolerated: NewDecision = {
  ...{ topic: "pressure", kind: "not tolerated", reason: "dizziness or falls", note: null, endsOn: null },
}

function decide(
  patientId: string,
  own: { decision?: NewDecision; shownId?: number | null; scope?: Scope; madeAt?: Date } = {},
) {
  const { decision = notTolerated, shownId = null, scope = wholeClinic, madeAt = now } = own
  return makeDecision(clinic.app, {
    ...{ decision, shownId, scope, caller, now: madeAt, on, publicId: idOf(patientId) },
  })
}

const undo = (patientId: string, id: number) =>
  undoDecision(clinic.app, { scope: wholeClinic, caller, now, on, publicId: idOf(patientId), id })

const standings = {
  sql: `select s.patient_id, s.bp_at_target as standing, p.bp_decision as decision
    from patient_standings as s join patient_values as p on p.patient_id = s.patient_id and p.as_of = s.as_of
    where s.as_of = (select max(d.as_of) from as_of_dates as d) order by 1`,
  Row: z.object({ patient_id: z.string(), standing: z.string(), decision: z.string().nullable() }),
}

/** The standings after an extract came in and was built; by the builder's role, or by that of imports, which builds, too. */
async function standingsAnew(
  files: Parameters<OutreachClinic["bringIn"]>[0] = extract,
  builder = clinic.urls.snapshot,
) {
  await clinic.bringIn(files, now)
  await refresh({ databaseUrl: builder, dataDir: clinic.dataDir, now })
  const rows = await onSnapshot({ dataDir: clinic.dataDir, scope: wholeClinic }, (connection) =>
    askOn(connection, standings),
  )
  return Object.fromEntries(rows.map((row) => [row.patient_id, [row.standing, row.decision]]))
}

describe("a decision", () => {
  test("is an exception with its kind after the next build, whatever comes in and however often it is built", async () => {
    // When a build began is told by the database's clock, so what is held against it is of the same day.
    const isStale = () => isSnapshotStale({ client: clinic.app, dataDir: clinic.dataDir, now: new Date() })
    expect(await isStale()).toBe(false)
    const made = await decide("A", { madeAt: new Date() })
    expect(await isStale()).toBe(true)

    expect(made).toMatchObject({ is: "done" })
    expect(await standingsAnew()).toEqual({
      A: ["exception", "not tolerated"],
      B: ["not met", null],
      C: ["not met", null],
    })
    rmSync(snapshotDir(clinic.dataDir), { recursive: true, force: true })
    expect((await standingsAnew(extract, clinic.urls.import)).A).toEqual(["exception", "not tolerated"])
  })

  test("takes the place of the one before on its topic, and a plan is no exception", async () => {
    const [before] = await listDecisions(clinic.app, { scope: wholeClinic, publicId: idOf("A") })
    const plan: NewDecision = { ...notTolerated, kind: "planned", reason: "at the next visit" }
    const made = await decide("A", { decision: plan, shownId: before?.id ?? 0 })

    const [latest, earlier] = await listDecisions(clinic.app, { scope: wholeClinic, publicId: idOf("A") })
    expect(made).toEqual({ is: "done", id: latest?.id })
    expect(latest).toMatchObject({ kind: "planned", madeOn: on, madeBy: "Dr A", undoneOn: null })
    expect(earlier).toMatchObject({ kind: "not tolerated", undoneOn: on, replacedById: latest?.id })
    expect((await standingsAnew()).A).toEqual(["not met", null])
  })

  test("is not made by somebody who saw another one hold, and of two at once one is made", async () => {
    expect(await decide("A")).toEqual({ is: "outdated" })

    const answers = await Promise.all([decide("C"), decide("C")])
    expect(answers.map((one) => one.is).toSorted()).toEqual(["done", "outdated"])
  })

  test("is taken back once, and counts no more", async () => {
    const [made] = await listDecisions(clinic.app, { scope: wholeClinic, publicId: idOf("C") })
    const id = made?.id ?? 0

    expect(await undo("B", id)).toEqual({ is: "gone" })
    expect(await undo("C", id)).toEqual({ is: "done", id })
    expect(await undo("C", id)).toEqual({ is: "outdated" })
    expect((await standingsAnew()).C).toEqual(["not met", null])
    const [undone] = await listDecisions(clinic.app, { scope: wholeClinic, publicId: idOf("C") })
    expect(undone).toMatchObject({ undoneOn: on, undoneBy: "Dr A", replacedById: null })
  })

  test("made under a record that is merged later is the person's", async () => {
    await decide("OLD")

    const merged = { ...extract, patients: [...people, person("OLD", "North,2024-01-01,B")] }
    expect((await standingsAnew(merged)).B).toEqual(["exception", "not tolerated"])
    const listed = await listDecisions(clinic.app, { scope: wholeClinic, publicId: idOf("B") })
    expect(listed).toMatchObject([{ kind: "not tolerated" }])
    expect(await decide("B")).toEqual({ is: "outdated" })
  })

  test("is refused out of scope, with a note that names a patient, and where something is missing", async () => {
    const north = { sites: ["North"], panelOf: null }
    const note = "As GivenA FamilyA has it"
    const other: NewDecision = { ...notTolerated, reason: "other" }
    const deferred: NewDecision = { ...notTolerated, kind: "deferred", reason: "acute illness" }

    expect(await decide("C", { scope: north })).toEqual({ is: "gone" })
    expect(await listDecisions(clinic.app, { scope: north, publicId: idOf("C") })).toEqual([])
    expect(await decide("C", { decision: { ...notTolerated, note } })).toEqual({ is: "names-person" })
    expect(await decide("C", { decision: other })).toEqual({ is: "refused", why: "note is missing" })
    expect(await decide("C", { decision: deferred })).toEqual({ is: "refused", why: "day is missing" })
    expect(await decide("C", { decision: { ...deferred, endsOn: on } })).toEqual({
      ...{ is: "refused", why: "day is not later" },
    })
    expect(await decide("C", { decision: { ...deferred, endsOn: "2031-02-28" } })).toEqual({
      ...{ is: "refused", why: "day is too far" },
    })
  })

  test("that data are wrong is listed where it may be seen, until its day or until it is settled", async () => {
    const wrong: NewDecision = { ...notTolerated, topic: "diet", kind: "wrong data", reason: "other" }
    const made = await decide("A", { decision: { ...wrong, note: "Not seen here" } })
    await decide("C", { decision: { ...wrong, note: "Somebody else", endsOn: "2026-02-01" } })
    const listed = async (asked: { scope?: Scope; on?: string }) =>
      (await listWrongData(clinic.app, { scope: wholeClinic, on, take: 9, ...asked })).found.map(
        (one) => one.note,
      )

    expect(await listed({})).toEqual(["Somebody else", "Not seen here"])
    expect(await listed({ scope: { sites: ["South"], panelOf: null } })).toEqual(["Somebody else"])
    expect(await listed({ on: "2026-02-01" })).toEqual(["Not seen here"])
    await undo("A", made.is === "done" ? made.id : 0)
    expect(await listed({})).toEqual(["Somebody else"])
    expect(await listWrongData(clinic.app, { scope: wholeClinic, on, take: 0 })).toEqual({
      total: 1,
      found: [],
    })
  })

  test("leaves an entry of the audit log with the person, and one when it is taken back", async () => {
    const entries = await clinic.store.prisma.auditEntry.findMany({
      where: { action: { startsWith: "decision." } },
      orderBy: { seq: "asc" },
    })

    expect(entries.map((one) => one.action)).toEqual([
      ...["decision.make", "decision.make", "decision.make", "decision.undo", "decision.make"],
      ...["decision.make", "decision.make", "decision.undo"],
    ])
    expect(entries.every((one) => one.people === 1)).toBe(true)
    expect(entries[1]?.detail).toMatchObject({ topic: "pressure", kind: "planned", replaces: 1 })
  })
})
