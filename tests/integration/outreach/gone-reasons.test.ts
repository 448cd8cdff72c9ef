import { afterAll, beforeAll, expect, test } from "vitest"
import { commandActor } from "../../../lib/store/audit-actors"
import { saveSettings } from "../../../lib/store/settings"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// Three people with a high potassium: A's falls, B dies, C's reason is switched off.
let clinic: OutreachClinic

const records = (bDiedOn: string) => [
  "patient_id,given_name,family_name,birth_date,sex,registered_on,died_on",
  ...["A", "B", "C"].map(
    (id) => `${id},G${id},F${id},1960-05-01,female,2020-01-01,${id === "B" ? bDiedOn : ""}`,
  ),
]
const potassium = (...rows: string[]) => [
  "patient_id,collected_at,test,value,unit",
  ...rows.map((row) => `${row},mmol/L`),
]

beforeAll(async () => {
  clinic = await openOutreachClinic()
  await clinic.bringIn(
    {
      patients: records(""),
      visits: [
        "visit_id,patient_id,started_on,kind",
        ...["A", "B", "C"].map((id) => `V-${id},${id},2026-03-01,office`),
      ],
      labs: potassium(...["A", "B", "C"].map((id) => `${id},2026-03-10,potassium,5.8`)),
    },
    new Date("2026-03-12T12:00:00Z"),
  )
  await clinic.bringIn(
    { patients: records("2026-03-13"), labs: potassium("A,2026-03-14,potassium,4.9") },
    new Date("2026-03-15T12:00:00Z"),
  )
})

afterAll(() => clinic.close())

test("a reason is gone by the facts where the person is followed, else for want of following", async () => {
  expect((await clinic.caseOf("A")).reasons).toMatchObject([{ endedWhy: "by the facts" }])
  expect((await clinic.caseOf("B")).reasons).toMatchObject([{ endedWhy: "not followed" }])
  expect((await clinic.caseOf("C")).reasons).toMatchObject([{ endedOn: null, endedWhy: null }])
})

test("a reason switched off closes a case that has no other, says so, and opens it when switched on", async () => {
  const now = new Date("2026-03-16T12:00:00Z")
  const set = (reasonsOff: string) =>
    saveSettings(clinic.store.prisma, {
      ...{ texts: { "outreach.reasonsOff": reasonsOff }, by: commandActor(), reason: "tried", now },
    })

  await set("potassium-high")
  await clinic.bringIn({ labs: potassium("A,2026-03-15,potassium,4.8") }, now)
  const off = await clinic.caseOf("C")
  await set("")
  await clinic.bringIn({ labs: potassium("A,2026-03-16,potassium,4.8") }, new Date("2026-03-17T12:00:00Z"))
  const on = await clinic.caseOf("C")

  expect(off).toMatchObject({ state: "closed", reasons: [{ endedWhy: "switched off" }] })
  expect(off.events.at(-1)).toMatchObject({ kind: "closed itself", why: "reason switched off" })
  expect(on).toMatchObject({ state: "open", round: 2 })
  expect(on.events.at(-1)).toMatchObject({ kind: "reopened", why: "reason returned" })
})
