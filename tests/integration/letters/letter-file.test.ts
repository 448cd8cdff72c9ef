import { parse } from "csv-parse/sync"
import { readSheet } from "read-excel-file/node"
import { afterAll, beforeAll, expect, test, vi } from "vitest"
import { z } from "zod"
import { GET } from "../../../app/api/outreach/letters/route"
import { recordSent } from "../../../app/(clinic)/outreach/letters/letters-actions"
import { nothingRecorded } from "../../../app/(clinic)/outreach/letters/letters-sent"
import { refresh } from "../../../lib/jobs/refresh"
import { importExtract, openFolder } from "../../helpers/extract"
import { openSiteInProcess, ownHeaders, type SiteInProcess } from "../../helpers/site-in-process"

vi.mock("next/headers", async () => (await import("../../helpers/next-stand-ins")).nextHeaders)
vi.mock("next/cache", async () => (await import("../../helpers/next-stand-ins")).nextCache)
vi.mock("node:child_process", async (original) =>
  (await import("../../helpers/next-stand-ins")).withoutProcesses(original<object>),
)

// Six people with names a spreadsheet would run and one who speaks Spanish prefer letters, beside the people of the demo.

const now = new Date("2026-03-12T12:00:00Z")
const signs = ["=", "+", "-", "@", "\t", "\r"]
const names = signs.map((sign) => `${sign}SUM(A1)`)
const ours = [...signs.map((_, at) => `Z-${at}`), "Z-es"]

const folder = openFolder()
let site: SiteInProcess

beforeAll(async () => {
  site = await openSiteInProcess()
  const person = (id: string, given: string, language: string, at: string) =>
    `${id},"${given}",Test,1960-05-01,female,2020-01-01,letter,${language},${at}`
  const extract = {
    patients: [
      "patient_id,given_name,family_name,birth_date,sex,registered_on,preferred_contact,language,site",
      ...names.map((name, at) => person(`Z-${at}`, name, "en", "South")),
      person("Z-es", "Luz", "es-MX", "North"),
    ],
    visits: ["visit_id,patient_id,started_on,kind", ...ours.map((id) => `V${id},${id},2026-03-01,office`)],
    labs: [
      "patient_id,collected_at,test,value,unit",
      ...ours.map((id) => `${id},2026-03-10,potassium,5.8,mmol/L`),
    ],
  }
  await importExtract({ url: site.store.url }, folder.dir, extract, { now, timeZone: "UTC" })
  await refresh({ databaseUrl: site.store.url, dataDir: site.dataDir, now })
  const spanish = {
    ...{ language: "es", version: 1, letterhead: "{clinic}", subject: "Su cita", closing: "" },
    ...{ body: "Hola {name}:\n{reasons}", ownWords: "potassium-high: Toca un análisis." },
  }
  await site.store.prisma.letterTemplate.create({
    data: { ...spanish, writtenBy: "Lead", writtenAt: new Date() },
  })
})

afterAll(async () => {
  await site.close()
  folder.close()
})

const Rows = z.array(z.record(z.string(), z.string()))

const ask = (search: string) =>
  GET(new Request(`http://localhost:3000/api/outreach/letters?${search}`, { headers: ownHeaders }), {})

async function rowsOf(answer: Response) {
  const rows = Rows.parse(parse(await answer.text(), { columns: true }))
  return rows.filter((row) => row["patient_id"]?.startsWith("Z-"))
}

async function caseOf(patientId: string) {
  return site.store.prisma.outreachCase.findUniqueOrThrow({ where: { patientId } })
}

const entries = (action: string) =>
  site.store.prisma.auditEntry.findMany({ where: { action }, orderBy: { seq: "asc" } })

test("the letters are a CSV with a line for each, in the language there is one in, no cell a formula and no value", async () => {
  await site.signIn("care-coordinator")

  const answer = await ask("format=csv")

  expect(answer.status).toBe(200)
  expect(answer.headers.get("content-disposition")).toMatch(
    /^attachment; filename="letters-\d{4}-\d\d-\d\d\.csv"$/,
  )
  const text = await answer.clone().text()
  expect(text).not.toContain("5.8")
  const rows = await rowsOf(answer)
  expect(rows.map((row) => row["patient_id"]).toSorted()).toEqual(ours.toSorted())
  expect(rows.find((row) => row["patient_id"] === "Z-es")).toMatchObject({
    ...{ name: "Luz Test", preferred_language: "es-MX", letter_language: "es", subject: "Su cita" },
    ...{ body: "Hola Luz Test:\nToca un análisis.", reasons: "Toca un análisis." },
  })
  for (const row of rows) for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@\t\r]/)
  const dangerous = rows.filter((row) => row["name"]?.startsWith("'"))
  expect(dangerous.length).toBeGreaterThanOrEqual(4)
  for (const row of dangerous) expect(row["body"]).toContain(`Dear ${row["name"]?.slice(1)}`)
  expect((await entries("letters.export")).at(-1)).toMatchObject({
    ...{ roles: ["care-coordinator"], outcome: "done", detail: { format: "csv" } },
  })
})

test("those chosen are a workbook, and of a case no letter is next for there is none", async () => {
  await site.signIn("care-coordinator")
  const chosen = [(await caseOf("Z-0")).id, (await caseOf("Z-es")).id, 2_000_000]

  const answer = await ask(`format=xlsx&letters=${chosen.join(",")}`)

  const [, ...rows] = await readSheet(Buffer.from(await answer.arrayBuffer()))
  expect(rows.map((row) => [row[0], row[1]]).toSorted()).toEqual([
    ["Z-0", "=SUM(A1) Test"],
    ["Z-es", "Luz Test"],
  ])
  expect((await entries("letters.export")).at(-1)).toMatchObject({ people: 2, detail: { format: "xlsx" } })
})

test("numbers of cases that are none are nobody, not everybody", async () => {
  await site.signIn("care-coordinator")

  expect(await rowsOf(await ask("format=csv&letters=all"))).toEqual([])
  expect((await ask("format=pdf")).status).toBe(400)
})

test("who is limited to a site gets its people alone, and who may take no lists none", async () => {
  const { userId } = await site.signIn("care-coordinator")
  await site.store.prisma.user.update({ where: { id: userId }, data: { sites: ["North"] } })
  const rows = await rowsOf(await ask("format=csv"))
  await site.store.prisma.user.update({ where: { id: userId }, data: { sites: [] } })
  await site.signIn("nurse")
  const refused = await ask("format=csv")

  expect(rows.map((row) => row["patient_id"])).toEqual(["Z-es"])
  expect(refused.status).toBe(403)
})

test("an older proof is asked for again, and what cannot be recorded is not handed out", async () => {
  await site.signIn("care-coordinator")
  await site.store.prisma.session.updateMany({ data: { provenAt: new Date(Date.now() - 61 * 60_000) } })
  const unproven = await ask("format=csv")
  await site.signIn("care-coordinator")
  await site.store.client.query("alter table audit_people rename to audit_people_gone")
  const unrecorded = await ask("format=csv")
  await site.store.client.query("alter table audit_people_gone rename to audit_people")

  expect([unproven.status, unproven.headers.get("location")]).toEqual([303, "/prove?to=letters"])
  expect(unrecorded.status).toBe(500)
  expect(await unrecorded.text()).not.toContain("Z-es")
})

test("values stand beside what is due once the clinic switched that on", async () => {
  await site.signIn("care-coordinator")
  await site.store.prisma.setting.create({ data: { key: "outreach.letterValues", value: "yes" } })
  await refresh({ databaseUrl: site.store.url, dataDir: site.dataDir, now })

  const rows = await rowsOf(await ask("format=csv"))

  await site.store.prisma.setting.delete({ where: { key: "outreach.letterValues" } })
  await refresh({ databaseUrl: site.store.url, dataDir: site.dataDir, now })
  expect(rows.find((row) => row["patient_id"] === "Z-es")?.["reasons"]).toBe("Toca un análisis. (5,8 mmol/L)")
})

test("letters recorded as sent are told in the log, and whoever changed meanwhile is named", async () => {
  await site.signIn("care-coordinator")
  const [one, other] = [await caseOf("Z-1"), await caseOf("Z-es")]
  const form = new FormData()
  form.append("letter", `${one.id}.${one.version}`)
  form.append("letter", `${other.id}.${other.version + 1}`)

  const answer = await recordSent(nothingRecorded, form)

  expect(answer).toMatchObject({
    ...{ problem: null, sent: 1 },
    left: [{ name: "Luz Test", why: "The case changed while this page was open." }],
  })
  const rows = await rowsOf(await ask("format=csv"))
  expect(rows.map((row) => row["patient_id"])).not.toContain("Z-1")
  expect((await entries("letters.sent")).at(-1)).toMatchObject({ people: 1 })
})
