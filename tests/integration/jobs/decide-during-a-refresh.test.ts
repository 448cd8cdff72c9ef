import { z } from "zod"
import { afterAll, beforeAll, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { wholeClinic } from "../../../lib/access/scope"
import { daysAfter } from "../../../lib/domain/day-sums"
import { askOn, onSnapshot } from "../../../lib/engine/run"
import { refresh } from "../../../lib/jobs/refresh"
import { isSnapshotStale } from "../../../lib/jobs/snapshot-freshness"
import { makeDecision, undoDecision } from "../../../lib/store/clinician-decisions"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// One person with chronic kidney disease and a pressure above target. The day is the database's own, by which builds begin.

let clinic: OutreachClinic
let caller: Caller
let publicId: string
let on: string
let madeId = 0

beforeAll(async () => {
  clinic = await openOutreachClinic()
  caller = await clinic.callerFor("Dr A", "nephrologist")
  on = new Date().toISOString().slice(0, 10)
  const lately = daysAfter(on, -10)
  await clinic.bringIn(
    {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,site,registered_on",
        "A,GivenA,FamilyA,1960-06-15,male,North,2020-01-01",
      ],
      visits: ["visit_id,patient_id,started_on,kind", `V,A,${on},office`],
      problems: ["problem_id,patient_id,code,onset_on", "K,A,N18.3,2022-01-12"],
      readings: ["reading_id,patient_id,taken_at,systolic,diastolic,setting", `R,A,${lately},150,90,office`],
    },
    new Date(),
  )
  const found = await clinic.store.prisma.patient.findFirstOrThrow()
  publicId = found.publicId
})

afterAll(() => clinic.close())

const asked = () => ({ scope: wholeClinic, publicId, caller, now: new Date(), on })

const decide = () =>
  makeDecision(clinic.app, {
    ...{ ...asked(), shownId: null },
    decision: {
      topic: "pressure",
      kind: "not tolerated",
      reason: "dizziness or falls",
      note: null,
      endsOn: null,
    },
  })

const undo = () => undoDecision(clinic.app, { ...asked(), id: madeId })

/** Builds the figures as the builder's role, and does something once the build says that it is as far. */
async function refreshWhile<T>(as: RegExp, does: () => Promise<T>): Promise<T | undefined> {
  let done: Promise<T> | undefined
  await refresh({
    ...{ databaseUrl: clinic.urls.snapshot, dataDir: clinic.dataDir },
    onProgress: (text) => {
      if (as.test(text)) done ??= does()
    },
  })
  return done
}

const refreshAnew = () => refresh({ databaseUrl: clinic.urls.snapshot, dataDir: clinic.dataDir })

const isStale = () => isSnapshotStale({ client: clinic.app, dataDir: clinic.dataDir, now: new Date() })

async function standing(): Promise<string | undefined> {
  const question = {
    sql: `select s.bp_at_target as standing from patient_standings as s
      where s.as_of = (select d.as_of from as_of_dates as d where d.is_running)`,
    Row: z.object({ standing: z.string() }),
  }
  const rows = await onSnapshot({ dataDir: clinic.dataDir, scope: wholeClinic }, (connection) =>
    askOn(connection, question),
  )
  return rows[0]?.standing
}

test("without a decision the figures are those of the store", async () => {
  expect(await isStale()).toBe(false)
  expect(await standing()).toBe("not met")
})

test("a decision made while the facts are read leaves the figures stale, and the next ones have it", async () => {
  const made = await refreshWhile(/^Loaded /, decide)
  if (made?.is === "done") madeId = made.id

  expect(made).toMatchObject({ is: "done" })
  expect(await standing()).toBe("not met")
  expect(await isStale()).toBe(true)
  await refreshAnew()
  expect(await standing()).toBe("exception")
  expect(await isStale()).toBe(false)
})

test("one taken back while the views are computed does so, too", async () => {
  expect(await refreshWhile(/^Computing /, undo)).toMatchObject({ is: "done" })

  expect(await standing()).toBe("exception")
  expect(await isStale()).toBe(true)
  await refreshAnew()
  expect(await standing()).toBe("not met")
  expect(await isStale()).toBe(false)
})
