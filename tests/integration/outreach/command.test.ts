import { parse } from "csv-parse/sync"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { daysAfter } from "../../../lib/domain/day-sums"
import { plainToday } from "../../../lib/domain/plain-date"
import { writeExtract } from "../../helpers/extract"
import { importClinic, type ImportedClinic } from "../../helpers/import-clinic"
import { temporaryFolder } from "../../helpers/temporary-folder"

const today = plainToday(new Date(), "UTC")
const ago = (days: number) => daysAfter(today, -days)
const temporary = temporaryFolder()
let clinic: ImportedClinic

const Printed = z.object({ on: z.string(), people: z.array(z.looseObject({ patient_id: z.string() })) })

beforeAll(async () => {
  const people = ["HIGH", "URGENT", "BOOKED", "NO-CALL", "FINE"]
  const folder = writeExtract(temporary.folder, {
    patients: [
      "patient_id,given_name,family_name,birth_date,sex,registered_on,do_not_contact,preferred_contact,language",
      ...people.map(
        (id) => `${id},=Zoe,@${id},1960-05-01,female,2020-01-01,${id === "NO-CALL" ? "yes" : "no"},phone,es`,
      ),
    ],
    visits: ["visit_id,patient_id,started_on,kind", ...people.map((id) => `V-${id},${id},${ago(20)},office`)],
    appointments: ["appointment_id,patient_id,starts_at,status", `A1,BOOKED,${daysAfter(today, 7)},booked`],
    labs: [
      "patient_id,collected_at,test,value,unit",
      ...["HIGH", "BOOKED", "NO-CALL"].map((id) => `${id},${ago(10)},potassium,5.8,mmol/L`),
    ],
    readings: ["patient_id,taken_at,systolic,diastolic,setting", `URGENT,${ago(0)},190,100,office`],
  })
  clinic = await importClinic({ folder, timeZone: "UTC" })
})

afterAll(async () => {
  await clinic.close()
  temporary.remove()
})

test("prints whom to contact in order with every reason, and nobody who is kept from it or comes soon", async () => {
  const printed = Printed.parse(JSON.parse(await clinic.filtrate("outreach", "--json")))

  expect(printed.on).toBe(today)
  expect(printed.people).toMatchObject([
    {
      patient_id: "URGENT",
      tier: "urgent",
      reasons: [expect.stringMatching(/^Pressure very high 190\/100, /)],
    },
    {
      patient_id: "HIGH",
      tier: "soon",
      reasons: [expect.stringMatching(/^Potassium high 5\.8/)],
      language: "es",
    },
  ])
})

test("prints the reasons of a past day, still without who asked not to be contacted", async () => {
  const printed = Printed.parse(JSON.parse(await clinic.filtrate("outreach", "--on", ago(3), "--json")))

  expect(printed.people.map((one) => one.patient_id).toSorted()).toEqual(["BOOKED", "HIGH"])
})

test("writes cells that no spreadsheet runs", async () => {
  const rows = parse(await clinic.filtrate("outreach", "--csv"), { columns: true })

  expect(rows).toMatchObject([
    { patient_id: "URGENT", name: "'@URGENT, =Zoe", last_attempt: "" },
    { patient_id: "HIGH", name: "'@HIGH, =Zoe" },
  ])
})
