import { parse } from "csv-parse/sync"
import { afterAll, beforeAll, expect, test, vi } from "vitest"
import { z } from "zod"
import { GET } from "../../../app/api/outreach/visits/route"
import { refresh } from "../../../lib/jobs/refresh"
import { importExtract, openFolder } from "../../helpers/extract"
import { openSiteInProcess, ownHeaders, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("node:child_process", async (original) =>
  (await import("../../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

// One day in the book of two clinicians, beside the people of the demo, of whom nobody is booked on it.
const on = "2026-03-16"
const formula = '=HYPERLINK("https://elsewhere.test")'

const folder = openFolder()
let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
  const now = new Date("2026-03-12T12:00:00Z")
  await importExtract({ url: site.store.url }, folder.dir, extract, { now, timeZone: "UTC" })
  await refresh({ databaseUrl: site.store.url, dataDir: site.dataDir, now })
})

afterAll(async () => {
  await site.close()
  folder.close()
})

const extract = {
  staff: ["staff_id,name,role", "V-1,Dr Birch,nephrologist", "V-2,Dr Alder,nephrologist"],
  patients: [
    "patient_id,given_name,family_name,birth_date,sex,registered_on,site,do_not_contact,language,interpreter_needed",
    `V-Plain,"${formula.replaceAll('"', '""')}",@Plain,1960-05-01,female,2020-01-01,South,no,en,no`,
    ...["Urgent,North,no,nb,yes", "Asked,South,yes,en,no"].map((one) => {
      const [name = "", ...rest] = one.split(",")
      return `V-${name},Given,${name},1960-05-01,female,2020-01-01,${rest.join(",")}`
    }),
  ],
  visits: [
    "visit_id,patient_id,started_on,kind",
    ...["Plain", "Urgent", "Asked"].map((name) => `V-${name},V-${name},2026-03-01,office`),
  ],
  labs: [
    "patient_id,collected_at,test,value,unit",
    "V-Urgent,2026-03-10,potassium,6.3,mmol/L",
    "V-Asked,2026-03-10,potassium,5.8,mmol/L",
  ],
  appointments: [
    "appointment_id,patient_id,starts_at,clinician_id,kind,status",
    `VA-1,V-Plain,${on}T08:00Z,V-1,office,booked`,
    `VA-2,V-Urgent,${on}T11:00Z,V-1,telehealth,booked`,
    `VA-3,V-Asked,${on},V-2,office,booked`,
  ],
}

const Rows = z.array(z.record(z.string(), z.string()))

const ask = (search: string) =>
  GET(new Request(`http://localhost:3000/api/outreach/visits?${search}`, { headers: ownHeaders }), {})

/** The rows of a file, with what the screen keeps together as plain blanks. */
async function rowsOf(answer: Response) {
  const text = (await answer.text()).replaceAll("\u00a0", " ")
  return Rows.parse(parse(text, { columns: true }))
}

const entries = () =>
  site.store.prisma.auditEntry.findMany({ where: { action: "visits.export" }, orderBy: { seq: "asc" } })

test("the visits of a day are a file: who comes when to whom, what to do, and who asked not to be contacted", async () => {
  await site.signIn("care-coordinator")

  const answer = await ask(`on=${on}`)

  expect(answer.status).toBe(200)
  expect(answer.headers.get("content-disposition")).toBe(`attachment; filename="visits-${on}.csv"`)
  const rows = await rowsOf(answer)
  expect(rows.map((row) => [row["patient_id"], row["time"], row["clinician"], row["kind"]])).toEqual([
    ["V-Asked", "", "Dr Alder", "office"],
    ["V-Urgent", "11:00", "Dr Birch", "telehealth"],
    ["V-Plain", "08:00", "Dr Birch", "office"],
  ])
  expect(rows[0]).toMatchObject({
    ...{ reasons: "Potassium high 5.8 mmol/L, 10 Mar 2026", for_whom: "nephrologist", urgent: "" },
    ...{ ends_with: "a potassium of 5.5 mmol/L or less", kept_from_contact: "asked not to be contacted" },
  })
  expect(rows[1]).toMatchObject({
    ...{ on, family_name: "Urgent", given_name: "Given", birth_date: "1960-05-01", status: "booked" },
    ...{ reasons: "Potassium very high 6.3 mmol/L, 10 Mar 2026", kept_from_contact: "" },
    ...{ language: "nb", interpreter_needed: "true" },
  })
  expect(rows[1]?.["urgent"]).toMatch(/\. Nobody has acknowledged it yet\.$/)
  expect(rows[2]).toMatchObject({ reasons: "", for_whom: "", ends_with: "", urgent: "" })
  expect(await entries()).toMatchObject([
    { roles: ["care-coordinator"], people: 3, detail: { on }, outcome: "done" },
  ])
})

test("no cell is a formula", async () => {
  await site.signIn("care-coordinator")

  const rows = await rowsOf(await ask(`on=${on}`))

  expect(rows[2]).toMatchObject({ given_name: `'${formula}`, family_name: "'@Plain" })
})

test("the file of one clinician has that clinician's visits alone, that of an empty day a head line", async () => {
  await site.signIn("care-coordinator")

  const [alder, nobody] = [await ask(`on=${on}&clinician=V-2`), await ask("on=2026-03-17")]

  expect((await rowsOf(alder)).map((row) => row["patient_id"])).toEqual(["V-Asked"])
  expect((await nobody.text()).trim().split("\n")).toEqual([expect.stringMatching(/^on,time,clinician,/)])
})

test("who is limited to a site gets the visits of its people", async () => {
  const { userId } = await site.signIn("care-coordinator")
  await site.store.prisma.user.update({ where: { id: userId }, data: { sites: ["North"] } })

  const rows = await rowsOf(await ask(`on=${on}`))

  await site.store.prisma.user.update({ where: { id: userId }, data: { sites: [] } })
  expect(rows.map((row) => row["patient_id"])).toEqual(["V-Urgent"])
})

test("an older proof is asked for again, and what cannot be recorded is not handed out", async () => {
  await site.signIn("care-coordinator")
  const taken = (await entries()).length
  const hourAgo = new Date(Date.now() - 61 * 60_000)
  await site.store.prisma.session.updateMany({ data: { provenAt: hourAgo } })
  const unproven = await ask(`on=${on}`)
  await site.signIn("care-coordinator")
  await site.store.client.query("alter table audit_people rename to audit_people_gone")
  const unrecorded = await ask(`on=${on}`)
  await site.store.client.query("alter table audit_people_gone rename to audit_people")

  expect([unproven.status, unproven.headers.get("location")]).toEqual([303, "/prove?to=visits"])
  expect(await unproven.text()).toBe("")
  expect(unrecorded.status).toBe(500)
  expect(await unrecorded.text()).not.toContain("V-Asked")
  expect(await entries()).toHaveLength(taken)
})
