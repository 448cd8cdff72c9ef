import type { Browser } from "playwright-core"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn, oneLine } from "../helpers/screen-text"

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

describe.each(Object.entries(widths))("a dietitian's monthly look, on a %s", (_kind, width) => {
  test("tells whether sodium fell, for whom, and who was not assessed, and opens a person", async () => {
    const measure = `${inject("demoUrl")}/measures/diet-sodium?month=2025-06`
    const page = await openPage(browser, { url: measure, width })

    await page.getByRole("link", { name: "Is it falling, and for whom" }).click()
    await page.getByRole("heading", { level: 1, name: "Sodium", exact: true }).waitFor()
    const answer = page.getByRole("region", { name: "Is sodium falling?" }).getByRole("heading")
    expect(oneLine(await answer.innerText())).toMatch(/in the same people: \d+ people with counted days/)
    for (const limit of ["2,300", "2,000", "1,500"])
      expect(await page.getByRole("columnheader", { name: `At or under ${limit}` }).count()).toBeGreaterThan(
        0,
      )
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])

    const list = (words: string) => page.getByRole("listitem").filter({ hasText: words }).getByRole("link")
    await list("eat less than").click()
    await page.waitForURL(/list=fell/)
    const rows = page
      .getByRole("table", { name: "People eat less than 3 to 15 months before" })
      .getByRole("row")
    await expect.poll(() => rows.filter({ hasText: /mg less than before/ }).count()).toBeGreaterThan(0)
    expect(await rows.filter({ hasText: /mg more than before/ }).count()).toBe(0)

    const said = numberIn(await list("not assessed in 12 months").innerText())
    await list("not assessed in 12 months").click()
    await page.waitForURL(/list=not-assessed/)
    const unassessed = page
      .getByRole("table", { name: "People not assessed in 12 months" })
      .getByRole("row")
      .filter({ has: page.getByRole("rowheader") })
    await expect.poll(() => unassessed.filter({ hasText: "Not assessed" }).count()).toBe(Math.min(said, 50))
    expect(await accessibilityProblems(page)).toEqual([])

    const urines = page.getByRole("region", { name: "24-hour urines" })
    expect(oneLine(await urines.innerText())).toMatch(/\d+ of \d+ complete by their creatinine/)
    const inTrials = page.getByRole("region", { name: "Less sodium and pressure, in trials" })
    expect(oneLine(await inTrials.innerText())).toContain("About 1 to 4 mmHg less systolic for each 1,000 mg")

    await unassessed.first().getByRole("link").click()
    await page.waitForURL(/\/patients\/.*month=2025-06/)
    await page.close()
  })
})
