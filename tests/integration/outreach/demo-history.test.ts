import { afterAll, beforeAll, expect, test } from "vitest"
import { tellDemoOutreach } from "../../../lib/cli/demo-outreach"
import { markAsDemo, markImportsAsDemo } from "../../../lib/store/clinic"
import { ensurePersonas } from "../../../lib/store/demo-personas"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

const now = new Date("2026-10-20T12:00:00Z")
const names = Array.from({ length: 60 }, (_, at) => `P${at}`)

let clinic: OutreachClinic

beforeAll(async () => {
  clinic = await openOutreachClinic()
  await clinic.bringIn(
    {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on",
        ...names.map((id) => `${id},G${id},F${id},1960-05-01,female,2020-01-01`),
      ],
      visits: [
        "visit_id,patient_id,started_on,kind",
        ...names.map((id) => `V-${id},${id},2026-03-01,office`),
      ],
      labs: [
        "patient_id,collected_at,test,value,unit",
        ...names.map((id, at) => `${id},2026-0${3 + (at % 5)}-10,potassium,5.8,mmol/L`),
      ],
    },
    now,
  )
})

afterAll(() => clinic.close())

const place = () => ({ client: clinic.store.prisma, dataDir: clinic.dataDir, now })
const history = () =>
  clinic.store.prisma.outreachEvent.findMany({
    select: { patientId: true, kind: true, onDay: true, outcome: true, toState: true, byName: true },
    orderBy: { id: "asc" },
  })

test("a clinic that is no demo gets no history, also when it was one before", async () => {
  const before = await history()
  await clinic.store.prisma.user.create({
    data: { userName: "demo-care-coordinator", name: "Ada", roles: ["care-coordinator"], isDemo: true },
  })

  await tellDemoOutreach(place())
  await markAsDemo(clinic.store.prisma, "Test clinic")
  await tellDemoOutreach(place())

  expect(before.length).toBeGreaterThan(50)
  expect(await history()).toEqual(before)
})

test("a demo clinic gets months of looks and calls, within the rules, and never twice", async () => {
  await markImportsAsDemo(clinic.store.prisma)
  await ensurePersonas(clinic.store.prisma)

  await tellDemoOutreach(place())
  const told = await history()
  await tellDemoOutreach(place())

  const attempts = told.filter((line) => line.kind === "attempt")
  expect(attempts.length).toBeGreaterThan(20)
  expect(new Set(attempts.map((line) => line.outcome)).size).toBeGreaterThan(4)
  expect(told.map((line) => line.onDay)).toEqual(
    told.map((line) => line.onDay).toSorted((one, other) => one.getTime() - other.getTime()),
  )
  expect(told.every((line) => line.onDay < now)).toBe(true)
  expect(await history()).toEqual(told)
  const cases = await clinic.store.prisma.outreachCase.findMany({
    include: { events: { orderBy: { id: "asc" } } },
  })
  for (const one of cases) expect(one.events.at(-1)?.toState).toBe(one.state)
})
