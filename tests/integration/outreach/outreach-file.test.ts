import { parse } from "csv-parse/sync"
import { readSheet } from "read-excel-file/node"
import { afterAll, beforeAll, expect, test, vi } from "vitest"
import { z } from "zod"
import { GET } from "../../../app/api/outreach/cases/route"
import { reconcileCases } from "../../../lib/jobs/reconcile-cases"
import { refresh } from "../../../lib/jobs/refresh"
import { importExtract, openFolder } from "../../helpers/extract"
import { openSiteInProcess, ownHeaders, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("node:child_process", async (original) =>
  (await import("../../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

// Beside the people of the demo: one of each sign with which a spreadsheet's formula begins, one who asked not to be
// contacted, and one with something urgent; all of a site of their own.
const signs = ["=", "+", "-", "@", "\t", "\r"]
const folder = openFolder()
let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
  const now = new Date("2026-03-12T12:00:00Z")
  await importExtract({ url: site.store.url }, folder.dir, extract, { now, timeZone: "UTC" })
  await refresh({ databaseUrl: site.store.url, dataDir: site.dataDir, now })
  await reconcileCases({ client: site.store.prisma, dataDir: site.dataDir, now })
})

afterAll(async () => {
  await site.close()
  folder.close()
})

const names = [...signs.map((_, at) => `F-${at}`), "F-Asked", "F-Urgent"]
const extract = {
  patients: [
    "patient_id,given_name,family_name,birth_date,sex,registered_on,site,phone,do_not_contact",
    ...names.map((id, at) => {
      const given = signs[at] === undefined ? "Given" : `"${signs[at]}1+1"`
      const kept = id === "F-Asked" ? "yes" : "no"
      return `${id},${given},Family,1960-05-01,female,2020-01-01,Files,=5550${at},${kept}`
    }),
  ],
  visits: ["visit_id,patient_id,started_on,kind", ...names.map((id) => `V-${id},${id},2026-03-01,office`)],
  labs: [
    "patient_id,collected_at,test,value,unit",
    ...names.map((id) => `${id},2026-03-10,potassium,${id === "F-Urgent" ? 6.3 : 5.8},mmol/L`),
  ],
}

const ask = (search: string) =>
  GET(new Request(`http://localhost:3000/api/outreach/cases?${search}`, { headers: ownHeaders }), {})

const Rows = z.array(z.record(z.string(), z.string()))

async function rowsOf(answer: Response) {
  return Rows.parse(parse((await answer.text()).replaceAll("\u00a0", " "), { columns: true }))
}

test("the list is a file in its order, without the urgent and those who asked not to be contacted, every cell harmless", async () => {
  await site.signIn("care-coordinator")

  const answer = await ask("format=csv&site=Files")
  const rows = await rowsOf(answer)

  expect(answer.headers.get("content-disposition")).toMatch(/filename="people-to-contact-.*\.csv"/)
  expect(rows.map((row) => row.patient_id).toSorted()).toEqual(names.slice(0, signs.length))
  const places = rows.map((row) => Number(row.place))
  expect(places).toEqual(places.toSorted((one, other) => one - other))
  for (const row of rows) {
    expect(row.phone).toMatch(/^'=5550/)
    expect(row.reasons).toContain("Potassium high 5.8 mmol/L, 10 Mar 2026")
    expect(row).toMatchObject({ how_soon: "soon", tried: "Not tried yet", site: "Files" })
    for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@\t\r]/)
  }
  const [entry] = await site.store.prisma.auditEntry.findMany({ where: { action: "cases.export" } })
  expect(entry).toMatchObject({ people: signs.length, detail: { format: "csv" } })
})

test("the workbook has the same people, and what begins like a formula is a text", async () => {
  await site.signIn("care-coordinator")

  const bytes = Buffer.from(await (await ask("format=xlsx&site=Files")).arrayBuffer())
  const [heads = [], ...rows] = await readSheet(bytes)

  expect(rows.map((row) => row[heads.indexOf("patient_id")]).toSorted()).toEqual(names.slice(0, signs.length))
  for (const row of rows) expect(row[heads.indexOf("phone")]).toMatch(/^=5550\d$/)
})

test("the urgent list has the urgent, and nobody for whom a filter has nobody", async () => {
  await site.signIn("care-coordinator")

  const urgent = await rowsOf(await ask("format=csv&show=urgent&site=Files"))

  expect(urgent.map((row) => [row.patient_id, row.how_soon])).toEqual([["F-Urgent", "urgent"]])
  expect(await rowsOf(await ask("format=csv&site=Nowhere"))).toEqual([])
})

test("an older proof is asked for again, and an unknown kind of file is refused", async () => {
  await site.signIn("care-coordinator")
  await site.store.prisma.session.updateMany({ data: { provenAt: new Date(Date.now() - 61 * 60_000) } })

  const unproven = await ask("format=csv")

  expect([unproven.status, unproven.headers.get("location")]).toEqual([303, "/prove?to=outreach"])
  expect((await ask("format=pdf")).status).toBe(400)
})
