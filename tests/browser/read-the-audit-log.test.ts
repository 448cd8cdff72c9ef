import { tableFromIPC } from "apache-arrow"
import { parse } from "csv-parse/sync"
import type { Browser } from "playwright-core"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import type { Role } from "../../lib/access/roles"
import { openClient } from "../../lib/store/client"
import { openDatabase, type OpenDatabase } from "../../lib/store/database"
import type { PrismaClient } from "../../lib/store/generated/client"
import { pages, routes } from "../fixtures/authorisation"
import { pageTraces, routeTraces } from "../fixtures/traces"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { bareEnvironment, fetchSignedIn } from "../helpers/signed-in"
import { oneLine } from "../helpers/screen-text"

const url = inject("demoUrl")
/** Together they may do everything; nobody else of the run signs in as just these. */
const all: readonly Role[] = ["clinic-lead", "administrator", "auditor"]

let browser: Browser
let database: OpenDatabase
let client: PrismaClient
let somebody: string
let name: string

beforeAll(async () => {
  browser = await openBrowser()
  database = await openDatabase({ environment: { ...bareEnvironment, dataDir: inject("demoDataDir") } })
  client = openClient(database.url)
  const answer = await fetchSignedIn(`${url}/api/tables/patients`, {}, ["nurse"])
  const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
  somebody = String(table.getChild("public_id")?.get(0))
  const record = await client.patientRecord.findFirstOrThrow({
    where: { patient: { publicId: somebody }, endedAt: null },
  })
  name = [record.familyName, record.givenName].join(", ")
})

afterAll(async () => {
  await client.$disconnect()
  await database.close()
  await browser.close()
})

async function latestSeq(): Promise<bigint> {
  return (await client.auditEntry.aggregate({ _max: { seq: true } }))._max.seq ?? 0n
}

async function actionsSince(seq: bigint): Promise<string[]> {
  const rows = await client.auditEntry.findMany({ where: { seq: { gt: seq } }, select: { action: true } })
  return rows.map((row) => row.action)
}

test("every screen and every route says what the log has of it", () => {
  expect(Object.keys(pageTraces).sort()).toEqual(Object.keys(pages).sort())
  expect(Object.keys(routeTraces).sort()).toEqual(Object.keys(routes).sort())
})

describe.each(Object.entries(pages))("the screen %s", (page, { at }) => {
  const trace = pageTraces[page]

  test.skipIf(typeof trace !== "string")("is in the log when it is opened", async () => {
    const before = await latestSeq()
    const response = await fetchSignedIn(url + at.replace(/0{8}-.{27}/, somebody), {}, all)
    await response.text()

    expect(response.status).toBe(200)
    expect(await actionsSince(before)).toContain(trace)
  })
})

describe.each(Object.entries(routes))("the route %s", (route, { at }) => {
  const trace = routeTraces[route]
  const [method = ""] = route.split(" ")

  test.skipIf(typeof trace !== "string")("is in the log when it answers", async () => {
    const before = await latestSeq()
    const headers = { origin: url, "sec-fetch-site": "same-origin" }
    const body = method === "POST" ? formOf(route) : undefined
    const address = url + at.replace(/0{8}-.{27}/, somebody)
    const response = await fetchSignedIn(address, { method, headers, ...(body ? { body } : {}) }, all)
    await response.arrayBuffer()

    expect(response.ok).toBe(true)
    expect(await actionsSince(before)).toContain(trace)
  })
})

function formOf(route: string): FormData {
  const form = new FormData()
  if (route.endsWith("/record")) form.set("purpose", "asked for by the person")
  else {
    form.set("trial", "on")
    form.set("files", new Blob(["staff_id,name,role\n"]), "staff.csv")
  }
  return form
}

test("the start of the site stands in the log, under the user of the operating system", async () => {
  const start = await client.auditEntry.findFirst({ where: { action: "site.start" } })

  expect(start).toMatchObject({ origin: "command", actor: expect.stringMatching(/^command:./) })
})

test("who asks for somebody nobody has, or for a screen that is not theirs, is in the log", async () => {
  const before = await latestSeq()
  const unknown = "11111111-1111-4111-8111-111111111111"
  expect((await fetchSignedIn(`${url}/patients/${unknown}`, {}, ["nurse"])).status).toBe(404)
  expect((await fetchSignedIn(`${url}/audit`, {}, ["nurse"])).status).toBe(403)

  const entries = await client.auditEntry.findMany({
    where: { seq: { gt: before }, action: "access.refuse" },
  })
  expect(entries).toMatchObject([
    { outcome: "not found", object: "patient", objectId: unknown, roles: ["nurse"] },
    { outcome: "refused", object: "capability", objectId: "audit.see", roles: ["nurse"] },
  ])
})

describe.each(Object.entries(widths))("on a %s", (_kind, width) => {
  test("an auditor lands on the log, and reads who opened whom without a name", async () => {
    await (await fetchSignedIn(`${url}/patients/${somebody}`, {}, ["dietitian"])).text()
    const page = await openPage(browser, { url: `${url}/sign-in`, roles: ["auditor"], width })

    expect(page.url()).toBe(`${url}/audit`)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    const words = oneLine(await page.getByRole("main").innerText())
    expect(words).toContain(`patient ${somebody.slice(0, 8)}`)
    expect(words).not.toContain(name)
    await page.close()
  })
})

test("a lead goes from a patient to who looked at them, and takes those entries as a file", async () => {
  await (await fetchSignedIn(`${url}/patients/${somebody}`, {}, ["dietitian"])).text()
  const page = await openPage(browser, { url: `${url}/patients/${somebody}`, roles: ["clinic-lead"] })
  await page.getByRole("link", { name: "Who looked at it" }).click()
  await page.waitForURL(`${url}/audit?patient=${somebody}`)
  await page.getByText("About everybody").waitFor()
  const words = oneLine(await page.getByRole("main").innerText())
  expect(words).toContain(`About ${name} alone`)
  expect(words).toContain("dietitian")
  expect(await accessibilityProblems(page)).toEqual([])

  const href = await page.getByRole("link", { name: /^Download \d/ }).getAttribute("href")
  const file = await (await fetchSignedIn(url + (href ?? ""), {}, ["clinic-lead"])).text()
  const rows: Record<string, string>[] = parse(file, { columns: true })
  expect(rows.some((row) => row.action === "patient.open" && row.person === somebody)).toBe(true)
  expect(rows.filter((row) => row.people === "1").every((row) => row.person === somebody)).toBe(true)
  expect(file).not.toContain(name)
  await page.close()
})

test("the log is narrowed by what was done, and verified on the screen", async () => {
  const page = await openPage(browser, { url: `${url}/audit`, roles: ["auditor"] })
  await page.getByRole("combobox", { name: "What" }).selectOption("site.start")
  await page.getByRole("button", { name: "Show" }).click()
  await page.getByRole("link", { name: "All entries" }).waitFor()
  const deeds = await page
    .getByRole("table", { name: "What was seen and done" })
    .getByRole("row")
    .allInnerTexts()
  expect(deeds.slice(1).length).toBeGreaterThan(0)
  expect(deeds.slice(1).every((row) => row.includes("started the site"))).toBe(true)

  await page.getByRole("button", { name: "Verify now" }).click()
  await page.getByText(/^Whole when it was last verified, .* none altered, missing or moved\.$/).waitFor()
  await page.close()
})
