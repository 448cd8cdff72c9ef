import type { Browser } from "playwright-core"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

describe.each(Object.entries(widths))("those above target on several classes, on a %s", (_kind, width) => {
  test("are found from the measure, narrowed to a finding, and open in the month of the list", async () => {
    const measure = `${inject("demoUrl")}/measures/uncontrolled-on-several-classes?month=2025-06`
    const page = await openPage(browser, { url: measure, width })

    await page.getByRole("link", { name: "Person by person, what to look at before another drug" }).click()
    await page.getByRole("heading", { level: 1, name: "Several classes", exact: true }).waitFor()
    const row = page.getByRole("listitem").filter({ hasText: "without a diuretic" })
    const said = await row.getByRole("link").innerText()
    await row.getByRole("link").click()
    await page.waitForURL(/finding=no-diuretic/)
    await page.getByRole("link", { name: /^Without a diuretic ?, let go$/ }).waitFor()

    const rows = page
      .getByRole("table")
      .getByRole("row")
      .filter({ has: page.getByRole("rowheader") })
    expect(numberIn(said)).toBeGreaterThan(0)
    expect(await rows.count()).toBe(numberIn(said))
    expect(await rows.filter({ hasText: "Without a diuretic" }).count()).toBe(numberIn(said))
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])

    await rows.first().getByRole("link").click()
    await page.waitForURL(/\/patients\/.*month=2025-06/)
    await page.getByRole("heading", { name: /High on several drugs/ }).waitFor()
    const findings = page.getByRole("region", { name: /High on several drugs/ }).getByRole("listitem")
    expect(await findings.filter({ hasText: "Without a diuretic" }).count()).toBe(1)
    await page.close()
  })
})
