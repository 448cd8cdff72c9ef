import { afterAll, beforeAll, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import { caseOfPerson } from "../../../lib/store/case-of-person"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// One person with a high potassium, of the site North; what Ada does is read as the site's role.

const south: Scope = { sites: ["South"], panelOf: null }
let clinic: OutreachClinic
let ada: Caller
let publicId: string

const at = (day: string) => new Date(`${day}T09:00:00Z`)

beforeAll(async () => {
  clinic = await openOutreachClinic()
  ada = await clinic.callerFor("Ada", "care-coordinator")
  await clinic.bringIn(
    {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on,site",
        "N,Noor,Haddad,1960-05-01,female,2020-01-01,North",
      ],
      visits: ["visit_id,patient_id,started_on,kind", "V-1,N,2026-03-01,office"],
      labs: ["patient_id,collected_at,test,value,unit", "N,2026-03-10,potassium,5.8,mmol/L"],
    },
    new Date("2026-03-12T12:00:00Z"),
  )
  const patient = await clinic.store.prisma.patient.findUniqueOrThrow({ where: { patientId: "N" } })
  publicId = patient.publicId
})

afterAll(() => clinic.close())

const read = (scope: Scope = wholeClinic) => caseOfPerson(clinic.app, { scope, publicId })

test("the history of a case is read latest first, with who did what, and what the data did by themselves", async () => {
  const work = { patientId: "N", caller: ada, now: at("2026-03-13") }
  await clinic.work({ ...work, act: { kind: "assign", to: ada.userId } })
  const call = { kind: "attempt", channel: "phone", outcome: "no answer", againOn: "2026-03-16" } as const
  await clinic.work({ ...work, act: call, note: "The line was busy" })
  await clinic.work({ ...work, act: { kind: "take back" } })

  const kept = await read()

  expect(kept?.history.map((line) => line.kind)).toEqual(["take back", "attempt", "assign", "opened"])
  expect(kept?.history.map((line) => line.byId)).toEqual([ada.userId, ada.userId, ada.userId, null])
  expect(kept?.history[1]).toMatchObject({
    ...{ byName: "Ada", channel: "phone", outcome: "no answer", untilOn: "2026-03-16" },
    ...{ note: "The line was busy", isTakenBack: true, at: at("2026-03-13"), onDay: "2026-03-13" },
  })
  expect(kept?.history[2]).toMatchObject({ assignedTo: "Ada", isTakenBack: false })
  expect(kept?.history[3]?.began.map((one) => [one.reason, one.value])).toContainEqual([
    "potassium-high",
    5.8,
  ])
  expect(kept?.one.tried).toEqual([])
})

test("each reason that holds has the day since which it does, and one that ended has none", async () => {
  expect((await read())?.since.get("potassium-high")).toBe("2026-03-12")

  const labs = ["patient_id,collected_at,test,value,unit", "N,2026-03-20,potassium,4.4,mmol/L"]
  await clinic.bringIn({ labs }, new Date("2026-03-21T12:00:00Z"))

  const later = await read()
  expect(later?.since.has("potassium-high")).toBe(false)
  expect(later?.history[0]?.ended.map((one) => one.reason)).toContain("potassium-high")
})

test("whoever sees another part of the clinic is told the same as of a person who is nobody", async () => {
  const nobody = "00000000-0000-4000-8000-000000000000"

  expect(await read(south)).toBeNull()
  expect(await caseOfPerson(clinic.app, { scope: wholeClinic, publicId: nobody })).toBeNull()
})
