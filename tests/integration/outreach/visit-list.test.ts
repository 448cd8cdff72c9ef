import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { hasReason, isUrgent, visitSheets } from "../../../app/(clinic)/outreach/visits/visit-sheets"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import { askOn, onSnapshot } from "../../../lib/engine/run"
import { bookedVisits } from "../../../lib/questions/booked-visits"
import { visitDays } from "../../../lib/questions/visit-days"
import { casesOfPeople } from "../../../lib/store/case-list"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// One day in the book of two clinicians: somebody without a reason, with one, with an urgent one, who asked not to be
// contacted, who died since the booking, who has no clinician, and whose visit was cancelled.

const today = "2026-03-12"
const on = "2026-03-16"
const person = (name: string, own = ",") =>
  `${name},${name},Of Test,1960-05-01,female,2020-01-01,South,${own}`
const names = ["Plain", "Early", "Urgent", "Asked", "Died", "Unnamed", "Cancelled", "Later"] as const

let clinic: OutreachClinic

beforeAll(async () => {
  clinic = await openOutreachClinic()
  await clinic.bringIn(
    {
      staff: ["staff_id,name,role", "S-1,Dr Birch,nephrologist", "S-2,Dr Alder,nephrologist"],
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on,site,do_not_contact,died_on",
        ...names.map((name) => {
          if (name === "Urgent") return person(name).replace("South", "North")
          return person(name, { Asked: "yes,", Died: ",2026-03-11" }[String(name)])
        }),
      ],
      visits: [
        "visit_id,patient_id,started_on,kind",
        ...names.map((name) => `V-${name},${name},2026-03-01,office`),
      ],
      labs: [
        "patient_id,collected_at,test,value,unit",
        ...["Early,2026-03-10,potassium,5.7,mmol/L", "Urgent,2026-03-10,potassium,6.3,mmol/L"],
        "Asked,2026-03-10,potassium,5.8,mmol/L",
      ],
      appointments: [
        "appointment_id,patient_id,starts_at,clinician_id,kind,status",
        `A1,Plain,${on}T08:00Z,S-1,office,booked`,
        `A2,Early,${on}T09:00Z,S-1,office,booked`,
        `A3,Urgent,${on}T11:00Z,S-1,telehealth,booked`,
        `A4,Asked,${on}T10:00Z,S-1,office,booked`,
        `A5,Died,${on},S-2,office,`,
        `A6,Unnamed,${on}T09:30Z,,,missed`,
        `A7,Cancelled,${on}T08:30Z,S-1,office,cancelled`,
        ...[`A8,Later,2026-03-26T09:00Z,S-1,office,booked`, `A9,Later,2026-03-27T09:00Z,S-1,office,booked`],
      ],
    },
    new Date(`${today}T12:00:00Z`),
  )
})

afterAll(() => clinic.close())

async function sheetsFor(scope: Scope) {
  const visits = await onSnapshot({ dataDir: clinic.dataDir, scope }, (connection) =>
    askOn(connection, bookedVisits, { on, today }),
  )
  const publicIds = visits.map((visit) => visit.public_id)
  return visitSheets(visits, await casesOfPeople(clinic.app, { scope, publicIds }))
}

const timesOf = (sheets: Awaited<ReturnType<typeof sheetsFor>>) =>
  sheets.map(({ clinician, rows }) => [
    clinician,
    rows.map(({ visit }) => `${visit.starts_at} ${visit.given_name}`),
  ])

describe("the visits of a day", () => {
  test("stand by clinician, the urgent first and then by the clock; who has no clinician comes last", async () => {
    expect(timesOf(await sheetsFor(wholeClinic))).toEqual([
      ["Dr Alder", ["null Died"]],
      ["Dr Birch", ["11:00 Urgent", "08:00 Plain", "09:00 Early", "10:00 Asked"]],
      ["No clinician named", ["09:30 Unnamed"]],
    ])
  })

  test("have the reasons of each, also of who is never called", async () => {
    const rows = (await sheetsFor(wholeClinic)).flatMap((sheet) => sheet.rows)
    const told = rows.map((row) => [
      row.visit.given_name,
      row.visit.kept_from,
      row.known?.case.reasons.map((held) => held.reason) ?? [],
    ])

    expect(told).toEqual([
      ["Died", "died", []],
      ["Urgent", null, ["potassium-very-high"]],
      ["Plain", null, []],
      ["Early", null, ["potassium-high"]],
      ["Asked", "asked not to be contacted", ["potassium-high"]],
      ["Unnamed", null, []],
    ])
    expect(rows.filter(isUrgent)).toHaveLength(1)
    expect(rows.filter(hasReason)).toHaveLength(3)
  })

  test("are those of the part of the clinic that somebody sees", async () => {
    expect(timesOf(await sheetsFor({ sites: ["North"], panelOf: null }))).toEqual([
      ["Dr Birch", ["11:00 Urgent"]],
    ])
  })

  test("show what is urgent first until its case is closed", async () => {
    const ada = await clinic.callerFor("Ada", "care-coordinator")
    const now = new Date(`${today}T13:00:00Z`)
    const work = { patientId: "Urgent", caller: ada, now }
    await clinic.work({ ...work, act: { kind: "acknowledge" } })
    expect(timesOf(await sheetsFor(wholeClinic))[1]?.[1]?.[0]).toBe("11:00 Urgent")

    await clinic.work({ ...work, act: { kind: "close", reason: "done" } })

    const birch = (await sheetsFor(wholeClinic))[1]?.rows ?? []
    expect(birch.map(({ visit }) => visit.given_name)).toEqual(["Plain", "Early", "Asked", "Urgent"])
    expect(birch.at(-1)?.known?.case).toMatchObject({
      closed: { on: today, reason: "done" },
      reasons: [{ reason: "potassium-very-high" }],
    })
  })
})

test("the days ahead reach to the last day of who counts as booked soon", async () => {
  const days = await onSnapshot({ dataDir: clinic.dataDir, scope: wholeClinic }, (connection) =>
    askOn(connection, visitDays, { today }),
  )

  expect(days).toEqual([
    { on_day: on, people: 6 },
    { on_day: "2026-03-26", people: 1 },
  ])
})
