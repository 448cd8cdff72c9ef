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

describe.each(Object.entries(widths))("the clinic lead on a %s", (_kind, width) => {
  test("reads the four questions and the sodium in sentences, each with its counts", async () => {
    page = await openPage(browser, { url: demoUrl, width })
    const sentences = await page.getByRole("heading", { level: 3 }).allInnerTexts()

    const said = sentences.join("\n")
    expect(said).toMatch(/^[\d,]+ of [\d,]+ people with CKD have their pressure at target\.$/m)
    expect(said).toMatch(/^[\d,]+ people are above target on 3 or more drug classes\.$/m)
    expect(said).toMatch(
      /^[\d,]+ people have protein in the urine and take neither an ACE inhibitor nor an ARB/m,
    )
    expect(said).toMatch(/^People who brought counted days ate [\d,]+\smg of sodium a day on average\.$/m)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("sees the figures behind a line, and they agree with the sentence", async () => {
    page = await openPage(browser, { url: demoUrl, width })
    const sentence = page.getByRole("heading", { name: /people with CKD have their pressure at target/ })
    const [met, total] = (await sentence.innerText()).match(/[\d,]+/g) ?? []

    await page.getByText("Figures: Pressure at target, rate by month").click()
    const figures = page.getByRole("table", { name: "Pressure at target, rate by month" })
    const rows = figures.getByRole("row")

    expect(await rows.count()).toBe(1 + 37)
    expect(await rows.nth(1).getByRole("cell").allInnerTexts()).toEqual([
      expect.stringMatching(/^\d+%$/),
      expect.stringMatching(/^\d+ to \d+$/),
      met,
      total,
    ])
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("sees beside every percentage who met it, who did not and who was not measured", async () => {
    page = await openPage(browser, { url: demoUrl, width })
    // The mean of the sodium is no rate: whoever has a record is in it, and the interval alone is a percentage.
    const isMean = /sodium a day on average/
    const rows = page.getByRole("main").getByRole("article").filter({ hasText: /\d%/, hasNotText: isMean })
    const total = await rows.count()
    const told = rows.filter({ has: page.getByRole("listitem").nth(1) })

    expect(total).toBeGreaterThan(15)
    expect(await told.count()).toBe(total)
    expect(await rows.filter({ hasText: /\d+\snot measured/ }).count()).toBeGreaterThan(2)
  })

  test("goes back a year, and every number speaks of that month", async () => {
    page = await openPage(browser, { url: demoUrl, width })
    const title = page.getByRole("heading", { level: 1 })
    const now = await title.innerText()
    const months = page.getByRole("navigation", { name: "Months" })

    await months.getByText("Earlier months").click()
    await months.getByRole("link", { name: short(aYearBefore(now)) }).click()
    await page.waitForURL(/month=\d{4}-\d{2}$/)

    await page.getByText(/^Complete, as it stands at /).waitFor()
    expect(await title.innerText()).toBe(aYearBefore(now))
    expect(
      await months.getByRole("link", { name: short(aYearBefore(now)) }).getAttribute("aria-current"),
    ).toBe("date")
    const people = page.getByRole("main").getByRole("link", { name: /^[\d,]+$/ })
    const addresses = await people.evaluateAll((links) =>
      links.map((link) => link.getAttribute("href") ?? ""),
    )
    const month = new URL(page.url()).searchParams.get("month")
    expect(addresses.length).toBeGreaterThan(10)
    expect(addresses.filter((address) => !address.includes(`month=${month}`))).toEqual([])
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test.each(["with no pressure in 12 months", "with no urine albumin in 12 months", "with no diet record"])(
    "opens the people %s",
    async (words) => {
      page = await openPage(browser, { url: demoUrl, width })
      const link = page.getByRole("listitem").filter({ hasText: words }).getByRole("link")
      const number = await link.innerText()

      await link.click()
      await page.waitForURL(/\/patients\?missing=/)
      const told = await page.getByText(/ shown, as of /).innerText()

      expect(numberIn(number)).toBeGreaterThan(0)
      expect(told.startsWith(`${number} of `)).toBe(true)
      expect(await accessibilityProblems(page)).toEqual([])
    },
  )
})

function aYearBefore(month: string): string {
  const [name = "", year = ""] = month.split(" ")
  return `${name} ${Number(year) - 1}`
}

/** "November 2025" as a list of months says it: "Nov 2025". */
function short(month: string): string {
  return month.replace(/^(\w{3})\w*/, "$1")
}
