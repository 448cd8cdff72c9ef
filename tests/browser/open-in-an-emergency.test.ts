import type { Browser, Locator, Page } from "playwright-core"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { readEnvironment } from "../../lib/env"
import { openClient } from "../../lib/store/client"
import { openDatabase, type OpenDatabase } from "../../lib/store/database"
import type { PrismaClient } from "../../lib/store/generated/client"
import { accessibilityProblems, isTooWide, openBrowser, openPage } from "../helpers/browser"
import { fetchSignedIn, sessionCookie } from "../helpers/signed-in"
import { oneLine } from "../helpers/screen-text"

const url = inject("demoUrl")
const member = "S-01"

let browser: Browser
let database: OpenDatabase
let client: PrismaClient
let own: string
let foreign: string

beforeAll(async () => {
  browser = await openBrowser()
  const environment = { ...readEnvironment(), databaseUrl: undefined, dataDir: inject("demoDataDir") }
  database = await openDatabase({ environment })
  client = openClient(database.url)
  await sessionCookie(url, ["nephrologist"])
  await client.user.updateMany({
    where: { name: "Test Person", roles: { equals: ["nephrologist"] } },
    data: { staffId: member },
  })
  await client.setting.create({ data: { key: "access.ownPanel", value: "nephrologist" } })
  own = await publicIdOf(member)
  foreign = await publicIdOf("S-02")
})

afterAll(async () => {
  await client.setting.deleteMany({ where: { key: "access.ownPanel" } })
  await client.emergencyAccess.deleteMany()
  await client.$disconnect()
  await database.close()
  await browser.close()
})

async function publicIdOf(clinicianId: string): Promise<string> {
  const record = await client.patientRecord.findFirstOrThrow({
    where: { clinicianId, endedAt: null, mergedInto: null, isTest: null },
    include: { patient: true },
  })
  return record.patient.publicId
}

async function statusOf(path: string): Promise<number> {
  const response = await fetchSignedIn(`${url}${path}`, { redirect: "manual" }, ["nephrologist"])
  await response.text()
  return response.status
}

const nobody = "00000000-0000-4000-8000-000000000000"

async function textOf(part: Locator): Promise<string> {
  return oneLine(await part.innerText())
}

async function wordsOf(page: Page, path: string): Promise<string> {
  await page.goto(`${url}${path}`)
  return textOf(page.getByRole("main"))
}

test("a nephrologist limited to the own panel opens one of it, and nobody else: not found, like nobody", async () => {
  expect(await statusOf(`/patients/${own}`)).toBe(200)
  expect(await statusOf(`/patients/${foreign}`)).toBe(404)
  expect(await statusOf(`/patients/${nobody}`)).toBe(404)

  const page = await openPage(browser, { url: `${url}/patients/${foreign}`, roles: ["nephrologist"] })
  const words = await textOf(page.getByRole("main"))

  expect(words).toContain("There is no such patient here.")
  expect(words).toBe(await wordsOf(page, `/patients/${nobody}`))
  await page.close()
})

test("an emergency opens the page that was asked for, says so on every screen, and is signed off by the lead", async () => {
  const page = await openPage(browser, { url: `${url}/patients/${foreign}`, roles: ["nephrologist"] })
  await page.getByRole("main").getByRole("link", { name: "emergency access" }).click()
  await page.getByRole("heading", { name: "Emergency access" }).waitFor()
  expect(await accessibilityProblems(page)).toEqual([])

  await page.getByLabel("Reason").fill("Collapsed in the waiting room")
  await page.getByRole("button", { name: "Open for one hour" }).click()
  await page.waitForURL(`${url}/patients/${foreign}`)
  const banner = page.getByRole("complementary", { name: "Emergency access" })
  await banner.waitFor()
  expect(await accessibilityProblems(page)).toEqual([])
  await page.goto(`${url}/measures`)
  expect(await textOf(banner)).toMatch(/^Emergency access to the whole clinic until .*, \d\d:\d\d\./)

  await banner.getByRole("button", { name: "End it now" }).click()
  await page.waitForURL(`${url}/`)
  await banner.waitFor({ state: "detached" })
  expect(await statusOf(`/patients/${foreign}`)).toBe(404)
  await page.close()

  const lead = await openPage(browser, { url: `${url}/emergencies`, roles: ["clinic-lead"] })
  expect(await textOf(lead.getByRole("main"))).toContain("Reason: Collapsed in the waiting room")
  await lead.getByLabel("Note").fill("Justified")
  await lead.getByRole("button", { name: "Sign off" }).click()
  await lead.getByText(/Reviewed by Test Person, .*: Justified/).waitFor()
  expect(await accessibilityProblems(lead)).toEqual([])
  await lead.setViewportSize({ width: 390, height: 844 })
  expect(await isTooWide(lead)).toBe(false)
  await lead.close()
})

test("a reason too short opens nothing", async () => {
  const page = await openPage(browser, { url: `${url}/emergency`, roles: ["nephrologist"] })
  await page.getByLabel("Reason").fill("          x")
  await page.getByRole("button", { name: "Open for one hour" }).click()

  await page.getByRole("alert").filter({ hasText: "at least ten characters" }).waitFor()
  expect(await statusOf(`/patients/${foreign}`)).toBe(404)
  await page.close()
})
