import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import { countDay, countListed } from "../../../lib/store/case-counts"
import type { CaseFilters, CasePart } from "../../../lib/store/case-filters"
import { listCases } from "../../../lib/store/case-list"
import { listViews, removeView, saveView } from "../../../lib/store/outreach-views"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// Seven people on one day: U urgent, A and B to contact, W waits, S is snoozed, V has a visit soon, K asked not to be
// contacted; C was closed as done.

const on = "2026-03-12"
const now = new Date(`${on}T09:00:00Z`)
const north: Scope = { sites: ["North"], panelOf: null }

let clinic: OutreachClinic
let ada: Caller

beforeAll(async () => {
  clinic = await openOutreachClinic()
  ada = await clinic.callerFor("Ada", "care-coordinator")
  const person = (id: string, own: string) =>
    `${id},Given${id},Family${id},1960-05-01,female,2020-01-01,${own}`
  const columns =
    "patient_id,given_name,family_name,birth_date,sex,registered_on,language,do_not_contact,site"
  const ids = ["U", "A", "B", "W", "S", "V", "K", "C"]
  await clinic.bringIn(
    {
      patients: [columns, ...ids.map((id) => person(id, id === "K" ? "en,yes,North" : "en,no,North"))].map(
        (line) => (line.startsWith("B,") ? person("B", "no,no,South") : line),
      ),
      visits: ["visit_id,patient_id,started_on,kind", ...ids.map((id) => `V-${id},${id},2026-03-01,office`)],
      labs: [
        "patient_id,collected_at,test,value,unit",
        ...ids.map((id) => `${id},2026-03-10,potassium,${id === "U" ? "6.3" : "5.8"},mmol/L`),
      ],
      appointments: ["appointment_id,patient_id,starts_at,status", "AP-V,V,2026-03-16,booked"],
    },
    now,
  )
  const work = { caller: ada, now }
  const noAnswer = { kind: "attempt", channel: "phone", outcome: "no answer", againOn: "2026-03-14" } as const
  await clinic.work({ ...work, patientId: "W", act: noAnswer })
  await clinic.work({ ...work, patientId: "S", act: { kind: "snooze", until: "2026-04-01" } })
  await clinic.work({ ...work, patientId: "C", act: { kind: "close", reason: "done" } })
  await clinic.work({ ...work, patientId: "A", act: { kind: "take" } })
})

afterAll(() => clinic.close())

const listed = async (which: CasePart, filters: CaseFilters = {}, scope = wholeClinic) =>
  (await listCases(clinic.app, { scope, on, which, filters, after: 0, limit: 50 })).map(
    (one) => one.patientId,
  )

describe("the parts of a day", () => {
  test.each([
    ["urgent", ["U"]],
    ["to contact", ["A", "B"]],
    ["waiting", ["S", "W"]],
    ["booked soon", ["V"]],
    ["closed", ["C"]],
  ] as const)("%s has its people, and nobody has two parts or is left out of all", async (which, people) => {
    expect((await listed(which)).toSorted()).toEqual(people)
  })

  test("are counted as they are listed, with who asked not to be contacted as a count alone", async () => {
    const counts = await countDay(clinic.app, {
      ...{ scope: wholeClinic, on, mine: ada.userId, closedItselfSince: "2026-03-11" },
    })

    expect(counts).toMatchObject({
      ...{ cases: 8, urgent: 1, to_contact: 2, waiting: 2, booked_soon: 1, asked_not: 1, closed_itself: 0 },
      ...{ mine: 1, nobodys: 2, sites: ["North", "South"], languages: ["en", "no"] },
      accounts: [{ id: ada.userId, name: "Ada" }],
    })
  })

  test("hold of another site neither people nor counts", async () => {
    const counts = await countDay(clinic.app, {
      ...{ scope: north, on, mine: ada.userId, closedItselfSince: "2026-03-11" },
    })

    expect(await listed("to contact", {}, north)).toEqual(["A"])
    expect(counts).toMatchObject({ to_contact: 1, sites: ["North"], languages: ["en"] })
  })
})

describe("a list", () => {
  test.each([
    [{ site: "South" }, ["B"]],
    [{ language: "no" }, ["B"]],
    [{ language: "no", site: "North" }, []],
    [{ whose: "nobody" }, ["B"]],
    [{ reason: "urine-albumin-due" }, []],
  ] as const)("narrowed by %o has those who match all of it", async (filters, people) => {
    expect(await listed("to contact", filters)).toEqual(people)
  })

  test("of somebody's own has what they took, and says by how many it is long", async () => {
    const asked = { scope: wholeClinic, on, which: "to contact", filters: { whose: ada.userId } } as const

    expect(await listed("to contact", { whose: ada.userId })).toEqual(["A"])
    expect(await countListed(clinic.app, { ...asked, after: 0 })).toEqual({ total: 1, before: 0 })
  })

  test("has with each person what was tried in this round", async () => {
    const [row] = await listCases(clinic.app, {
      ...{ scope: wholeClinic, on, which: "waiting", after: 0, limit: 50 },
    }).then((rows) => rows.filter((one) => one.patientId === "W"))

    expect([row?.patientId, row?.tried]).toEqual([
      "W",
      [{ onDay: on, channel: "phone", outcome: "no answer" }],
    ])
  })
})

test("a saved view is its person's alone, once by each name, until they remove it", async () => {
  const ben = await clinic.callerFor("Ben", "care-coordinator")
  const view = { userId: ada.userId, name: "Riverside", search: "site=Riverside", now }

  expect(await saveView(clinic.app, view)).toBe("saved")
  expect(await saveView(clinic.app, view)).toBe("taken")
  expect(await saveView(clinic.app, { ...view, userId: ben.userId })).toBe("saved")
  const [own] = await listViews(clinic.app, ada.userId)
  await removeView(clinic.app, { id: own?.id ?? 0, userId: ben.userId })
  expect(await listViews(clinic.app, ada.userId)).toHaveLength(1)
  await removeView(clinic.app, { id: own?.id ?? 0, userId: ada.userId })
  expect(await listViews(clinic.app, ada.userId)).toEqual([])
  expect(await listViews(clinic.app, ben.userId)).toHaveLength(1)
})
