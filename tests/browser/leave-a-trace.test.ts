import { tableFromIPC } from "apache-arrow"
import type { Browser } from "playwright-core"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { openClient } from "../../lib/store/client"
import { openDatabase } from "../../lib/store/database"
import { verifyAudit } from "../../lib/store/audit-verify"
import { openBrowser, openPage } from "../helpers/browser"
import { bareEnvironment, fetchSignedIn } from "../helpers/signed-in"

const demoUrl = inject("demoUrl")

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

test("who opens a patient and takes a list is in the audit log, with the people, and the log is whole", async () => {
  const answer = await fetchSignedIn(`${demoUrl}/api/measures/bp-at-target/people?standing=not-met`)
  const taken = (await answer.text()).trim().split("\n").length - 1
  const panel = await fetchSignedIn(`${demoUrl}/api/tables/patients`)
  const rows = tableFromIPC(new Uint8Array(await panel.arrayBuffer())).numRows
  const page = await openPage(browser, { url: `${demoUrl}/measures/bp-at-target`, roles: ["nephrologist"] })
  await page.locator('a[href^="/patients/"]').first().click()
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}/)
  await page.getByRole("heading", { level: 1 }).waitFor()
  const somebody = /patients\/([0-9a-f-]{36})/.exec(page.url())?.[1] ?? ""
  await page.close()

  const database = await openDatabase({ environment: { ...bareEnvironment, dataDir: inject("demoDataDir") } })
  const client = openClient(database.url)
  try {
    const [opened] = await client.auditEntry.findMany({
      where: { action: "patient.open" },
      orderBy: { seq: "desc" },
      take: 1,
    })
    const [list] = await client.auditEntry.findMany({
      where: { action: "patients.export", objectId: "bp-at-target" },
      orderBy: { seq: "desc" },
      take: 1,
    })
    const [table] = await client.auditEntry.findMany({
      where: { action: "patients.list", object: "panel" },
      orderBy: { seq: "desc" },
      take: 1,
    })
    const shown = await client.auditPerson.findMany({
      where: { peopleHash: opened?.peopleHash ?? undefined },
    })
    expect(opened).toMatchObject({ roles: ["nephrologist"], origin: "site", people: 1 })
    expect(shown.map((one) => one.publicId)).toEqual([somebody])
    expect(taken).toBeGreaterThan(0)
    expect(list?.people).toBe(taken)
    expect(rows).toBeGreaterThan(taken)
    expect(table?.people).toBe(rows)
    expect((await verifyAudit(client, inject("demoDataDir"))).first).toBeNull()
  } finally {
    await client.$disconnect()
    await database.close()
  }
})

test("an administrator reads a measure's counts and nobody's name", async () => {
  const page = await openPage(browser, { url: `${demoUrl}/measures/bp-at-target`, roles: ["administrator"] })

  expect(await page.getByText("This account sees counts and rates").count()).toBe(1)
  expect(await page.locator('a[href^="/patients/"]').count()).toBe(0)
  await page.goto(`${demoUrl}/measures/diet-sodium`)
  expect(await page.getByText("This account sees counts and rates").count()).toBe(1)
  expect(await page.locator('a[href^="/patients/"]').count()).toBe(0)
  await page.close()
})
