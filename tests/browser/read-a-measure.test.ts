import { readFile } from "node:fs/promises"
import { parse } from "csv-parse/sync"
import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

const demoUrl = inject("demoUrl")

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

afterEach(() => page.close())

describe.each(Object.entries(widths))("one measure on a %s", (_kind, width) => {
  test("is opened from the list, and its standings add up to its population every month", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures`, width })
    await page.getByRole("link", { name: "ACE inhibitor or ARB with albuminuria" }).click()
    await page.waitForURL(/\/measures\/ras-blocker-in-albuminuria$/)

    const name = "ACE inhibitor or ARB with albuminuria, people by standing and month"
    const rows = page.getByRole("table", { name, exact: true }).getByRole("row")
    const months = (await rows.allInnerTexts())
      .slice(1)
      .map((row) => row.split("\t").slice(1, 7).map(numberIn))

    expect(months.length).toBe(13)
    for (const [population = 0, ...standings] of months)
      expect(standings.reduce((sum, one) => sum + one, 0)).toBe(population)
    expect(months.some(([population = 0]) => population > 0)).toBe(true)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("lists each standing's people, and the file has as many rows as the tab says", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures/uncontrolled-on-several-classes`, width })
    const tab = page.getByRole("navigation", { name: "Standings" }).getByRole("link", { name: /at target$/ })
    const said = numberIn(await tab.innerText())
    await tab.click()
    await page.waitForURL(/standing=not-met/)

    const download = page.getByRole("link", { name: /^Download/ })
    await page.getByText(`Download ${said.toLocaleString("en-US")} rows`).waitFor()
    const [file] = await Promise.all([page.waitForEvent("download"), download.click()])
    const rows = parse(await readFile(await file.path()), { columns: true, bom: true })

    expect(said).toBeGreaterThan(50)
    expect(rows).toHaveLength(said)
    expect(await page.getByText(`1 to 50 of ${said.toLocaleString("en-US")}`).count()).toBe(1)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("is broken down by clinician, and a group's number opens that group's people", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures/acr-tested`, width })
    await page.getByText("Figures by clinician").click()
    const groups = page.getByRole("table", { name: "Clinician", exact: true })
    const row = groups.getByRole("row").nth(1)
    const clinician = await row.getByRole("rowheader").innerText()
    const number = row.getByRole("link")
    const said = numberIn(await number.innerText())

    await number.click()
    await page.waitForURL(/clinician=/)
    await page.getByRole("list", { name: "Narrowed to" }).getByText(clinician).waitFor()

    expect(said).toBeGreaterThan(0)
    expect(await page.getByRole("link", { name: /^Download/ }).innerText()).toBe(
      `Download ${said.toLocaleString("en-US")} rows`,
    )
    expect(await accessibilityProblems(page)).toEqual([])

    await page.getByRole("list", { name: "Narrowed to" }).getByRole("link").click()
    await page.waitForURL((address) => !address.searchParams.has("clinician"))
  })

  test("splits the change since the month before into parts that open their people", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures/bp-at-target`, width })
    const change = page.getByRole("table", { name: /^The parts of the change/ })
    const gained = change.getByRole("row").filter({ hasText: "newly at target" }).getByRole("link")
    const said = numberIn(await gained.innerText())

    await gained.click()
    await page.waitForURL(/change=gained/)

    await page.getByText(`Download ${said} rows`).waitFor()
    const people = page.getByRole("table", { name: /^People by name/ })
    const told = (await people.getByRole("row").allInnerTexts()).slice(1)
    expect(told).toHaveLength(Math.min(50, said))
    expect(told.filter((row) => !row.includes("→ at target"))).toEqual([])
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("of the diet keeps each way of asking apart, with the records of the month", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures/diet-sodium`, width })
    const ways = page.getByRole("navigation", { name: "Ways of asking" })
    expect(await ways.getByRole("link").count()).toBe(3)

    await ways.getByRole("link", { name: /24-hour urine/ }).click()
    await page.waitForURL(/series=24-hour/)

    const records = page.getByRole("table", { name: "Diet records by name" }).getByRole("row")
    await records
      .filter({ hasText: "24h urine" })
      .or(records.filter({ hasText: /urine/i }))
      .first()
      .waitFor()
    expect(await page.getByRole("link", { name: /^Download/ }).innerText()).toMatch(/^Download \d+\srows?$/)
    expect(await accessibilityProblems(page)).toEqual([])
  })
})
