import { readFileSync } from "node:fs"
import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { readEnvironment } from "../../lib/env"
import { openClient } from "../../lib/store/client"
import { openDatabase, type OpenDatabase } from "../../lib/store/database"
import type { PrismaClient } from "../../lib/store/generated/client"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"

const url = inject("demoUrl")

let browser: Browser
let database: OpenDatabase
let client: PrismaClient
let person: { patientId: string; publicId: string }
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
  const environment = { ...readEnvironment(), databaseUrl: undefined, dataDir: inject("demoDataDir") }
  database = await openDatabase({ environment })
  client = openClient(database.url)
  const merged = await client.patientRecord.findFirstOrThrow({
    where: { endedAt: null, mergedInto: { not: null } },
  })
  person = await client.patient.findUniqueOrThrow({ where: { patientId: merged.mergedInto ?? "" } })
  page = await openPage(browser, { url: `${url}/patients/${person.publicId}`, roles: ["clinic-lead"] })
})

afterAll(async () => {
  await client.erasure.deleteMany()
  await client.$disconnect()
  await database.close()
  await browser.close()
})

test("the clinic lead reaches the record of a patient, with all their numbers and how much is held", async () => {
  await page.getByRole("link", { name: "The record as a whole" }).click()
  await page.getByRole("heading", { name: "Record", exact: true }).waitFor()

  expect(await page.getByText(person.patientId).innerText()).toMatch(/, /)
  expect(await page.getByRole("row", { name: /^patients\.csv 2/ }).count()).toBe(1)
  expect(page.url()).not.toContain(person.patientId)
  expect(await page.title()).toMatch(/^Record/)
  expect(await accessibilityProblems(page)).toEqual([])
})

test("the record is handed out for a reason, and the log says to whom and why", async () => {
  const downloads = page.waitForEvent("download")
  await page.getByLabel("To whom, and why").fill("to the person, asked for by letter")
  await page.getByRole("button", { name: "Download the record" }).click()
  const download = await downloads

  expect(download.suggestedFilename()).toBe(`record-${person.publicId}.zip`)
  const bytes = readFileSync(await download.path())
  expect(bytes.subarray(0, 2).toString()).toBe("PK")
  expect(bytes.includes("patients.csv")).toBe(true)
  const purpose = "to the person, asked for by letter"
  const entry = await client.auditEntry.findFirstOrThrow({ where: { action: "record.export", purpose } })
  expect(entry).toMatchObject({ people: 2, outcome: "done" })
})

test("a proof of identity that is too old is asked for again", async () => {
  const old = await openPage(browser, {
    url: `${url}/patients/${person.publicId}/record`,
    roles: ["clinic-lead"],
  })
  // Each test file signs in as a person of its own with these words.
  const own = { user: { name: "Test Person", roles: { equals: ["clinic-lead"] } } }
  await client.session.updateMany({ where: own, data: { provenAt: new Date(0) } })

  await old.getByLabel("To whom, and why").fill("to the person, asked for by letter")
  await old.getByRole("button", { name: "Download the record" }).click()

  await old.getByRole("alert").filter({ hasText: "The last proof of identity is too old." }).waitFor()
  await old.reload({ waitUntil: "networkidle" })
  expect(new URL(old.url()).pathname).toBe("/prove")
  await client.session.updateMany({ where: own, data: { provenAt: new Date() } })
  await old.close()
})

test("an erasure is asked for without a name, waits for the console, and can be withdrawn", async () => {
  await page.getByLabel("Reason, without a name").fill(`asked for by ${person.patientId}`)
  await page.getByLabel("Law or order that demands it").fill("order 12 of the district court")
  await page.getByRole("button", { name: "Ask for erasure" }).click()
  await page.getByRole("alert").filter({ hasText: "must not name the person" }).waitFor()

  await page.getByLabel("Reason, without a name").fill("asked for by the person in writing")
  await page.getByLabel("Law or order that demands it").fill("order 12 of the district court")
  await page.getByRole("button", { name: "Ask for erasure" }).click()
  await page.getByText("waits to be carried out").waitFor()
  expect(await accessibilityProblems(page)).toEqual([])

  await page.getByRole("button", { name: "Withdraw the request" }).click()
  await page.getByRole("button", { name: "Ask for erasure" }).waitFor()

  const [request] = await client.erasure.findMany()
  expect(request).toMatchObject({ basis: "order 12 of the district court", erasedAt: null })
  expect(request?.withdrawnAt).not.toBeNull()
})

test("others find no link to it, and on a phone it is no wider than the window", async () => {
  const nurse = await openPage(browser, { url: `${url}/patients/${person.publicId}`, roles: ["nurse"] })
  expect(await nurse.getByRole("link", { name: "The record as a whole" }).count()).toBe(0)
  await nurse.close()

  const phone = await openPage(browser, {
    ...{ url: `${url}/patients/${person.publicId}/record`, roles: ["clinic-lead"], width: widths.phone },
  })
  expect(await isTooWide(phone)).toBe(false)
  expect(await accessibilityProblems(phone)).toEqual([])
  await phone.close()
})
