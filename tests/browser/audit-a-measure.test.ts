import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest"
import { measures } from "../../lib/measures/index"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn, oneLine } from "../helpers/screen-text"

const demoUrl = inject("demoUrl")

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

afterEach(() => page.close())

describe.each(Object.entries(widths))("a nephrologist on a %s", (_kind, width) => {
  test("finds every measure in the catalogue, each with its question and who acts", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures`, width })
    const entries = page
      .getByRole("main")
      .getByRole("listitem")
      .filter({ has: page.getByRole("heading") })

    const told = (await entries.allInnerTexts()).map(oneLine)

    expect(told).toHaveLength(measures.length + 1) // and the mean sodium, which has no standings
    for (const measure of measures) {
      const own = told.find((text) => text.startsWith(`${measure.name} `)) ?? ""
      expect(own).toContain(`The ${measure.actor} acts`)
      expect(own).toMatch(/\d+ |No one to count/)
    }
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("reads how a measure decides, step by step, and opens the people of a step", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures/failure-risk`, width })
    const decided = page.getByRole("region", { name: "How it is decided" })
    const steps = (await decided.getByRole("listitem").allInnerTexts()).map(oneLine)

    const [asked = 0, ...taken] = steps.map((step) => numberIn(step.split(" ")[0] ?? ""))
    expect(steps[0]).toContain("Chronic kidney disease and eGFR under 60")
    expect(taken.reduce((sum, one) => sum + one, 0)).toBe(asked)
    const words = oneLine(await decided.innerText())
    expect(words).toContain("Fewer is better")
    expect(words).toMatch(/Source .*doi:10\./)

    await decided.getByText("The query, as it runs").click()
    const query = decided.getByRole("region", { name: "The query, as it runs" })
    expect(await query.innerText()).toContain("p.failure_risk_2_years > 0.1")
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])

    const above = decided.getByRole("listitem").filter({ hasText: "2-year risk above 10%" }).getByRole("link")
    const said = await above.innerText()
    await above.click()
    await page.waitForURL(/standing=met/)
    await page.getByText(`Download ${said} row`).waitFor()
  })

  test("sees among those above target on several classes what is not resistance", async () => {
    page = await openPage(browser, { url: `${demoUrl}/measures/uncontrolled-on-several-classes`, width })
    const part = page
      .getByRole("list", { name: "Of these" })
      .getByRole("link", { name: /by office pressure alone$/ })
    const said = numberIn(await part.innerText())

    await part.click()
    await page.waitForURL(/detail=office-only/)
    await page.getByText(`Download ${said.toLocaleString("en-US")} row`).waitFor()

    expect(said).toBeGreaterThan(0)
    expect(await accessibilityProblems(page)).toEqual([])
  })
})
