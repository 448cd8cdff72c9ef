import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

function rowsOf(page: Page) {
  return page
    .getByRole("table")
    .getByRole("row")
    .filter({ has: page.getByRole("rowheader") })
}

/** Follows a count of the left column and gives the number it said. */
async function follow(page: Page, words: string): Promise<number> {
  const row = page.getByRole("listitem").filter({ hasText: words }).first()
  const said = await row.getByRole("link").innerText()
  await row.getByRole("link").click()
  return numberIn(said)
}

describe.each(Object.entries(widths))("starting and stopping, on a %s", (_kind, width) => {
  test("those low on drugs are found from the measure, with falls, what has another reason, and the cautions", async () => {
    const measure = `${inject("demoUrl")}/measures/low-pressure-on-drugs`
    const page = await openPage(browser, { url: measure, width })

    await page.getByRole("link", { name: /^Person by person, with what to look at/ }).click()
    await page.getByRole("heading", { level: 1, name: "Starting and stopping", exact: true }).waitFor()
    await page.getByRole("heading", { level: 2, name: "Low on pressure drugs" }).waitFor()
    expect(await page.getByText(/No pressure drug is stopped abruptly/).count()).toBe(1)
    const kept = await follow(page, "on a class with another reason")
    await page.getByRole("link", { name: /^On a class with another reason ?, let go$/ }).waitFor()

    expect(kept).toBeGreaterThan(0)
    expect(await rowsOf(page).count()).toBe(Math.min(kept, 50))
    expect(await rowsOf(page).filter({ hasText: "another reason:" }).count()).toBe(Math.min(kept, 50))
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })

  test("those whose drug stopped are told with the day, the taper and the reading since", async () => {
    const page = await openPage(browser, { url: `${inject("demoUrl")}/starting-and-stopping`, width })

    await follow(page, "with a class stopped in the last 120 days")
    await page.getByRole("heading", { level: 2, name: "With a class stopped in the last 120 days" }).waitFor()
    const unmeasured = await follow(page, "not measured since")
    await page.getByRole("link", { name: /^Not measured since ?, let go$/ }).waitFor()

    expect(await rowsOf(page).count()).toBe(Math.min(unmeasured, 50))
    expect(
      await rowsOf(page)
        .filter({ hasText: /not measured since/ })
        .count(),
    ).toBe(Math.min(unmeasured, 50))
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await rowsOf(page).first().getByRole("link").click()
    await page.waitForURL(/\/patients\//)
    await page.close()
  })

  test.each([
    ["above target, no pressure drug", "Above target, no pressure drug", /^Confirmed before a drug is begun/],
    ["120/80 to target, no pressure drug", "120/80 to target, no pressure drug", /lifestyle first/],
    ["low on pressure drugs", "Low on pressure drugs", /^A reason to look, not to stop/],
  ])("the list %s has people and its caution", async (words, title, caution) => {
    const page = await openPage(browser, { url: `${inject("demoUrl")}/starting-and-stopping`, width })

    const said = await follow(page, words)
    await page.getByRole("heading", { level: 2, name: title }).waitFor()
    await page.getByText(caution).waitFor()

    expect(said).toBeGreaterThan(0)
    expect(await rowsOf(page).count()).toBe(Math.min(said, 50))
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })

  test("somebody with falls on record stands first among those low on drugs", async () => {
    const page = await openPage(browser, {
      url: `${inject("demoUrl")}/starting-and-stopping?group=low`,
      width,
    })

    expect(await rowsOf(page).first().innerText()).toContain("Falls or dizziness on record")
    await page.close()
  })
})
