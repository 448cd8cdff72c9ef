import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

const url = `${inject("demoUrl")}/my-patients`

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

function rowsOf(page: Page, caption: string | RegExp) {
  return page
    .getByRole("table", { name: caption })
    .getByRole("row")
    .filter({ has: page.getByRole("rowheader") })
}

describe.each(Object.entries(widths))("a nephrologist's patients, on a %s", (_kind, width) => {
  test("are said to be nobody's without a link to the staff list, and a clinician is chosen", async () => {
    const page = await openPage(browser, { url, width, roles: ["nephrologist"], name: "Unlinked Person" })

    await page.getByText("This account is not linked to a clinician of the staff list").waitFor()
    expect(await page.getByRole("link", { name: "My patients" }).count()).toBe(0)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])

    await page.getByRole("link", { name: "Dr Ines Castellan" }).click()
    await page.waitForURL(/clinician=S-01/)
    await page.getByRole("heading", { level: 1, name: "Patients of Dr Ines Castellan" }).waitFor()
    await page.close()
  })

  test("stand with their visits and changes, and open in the month of the list", async () => {
    const page = await openPage(browser, {
      url: `${url}?clinician=S-01&month=2025-06`,
      width,
      roles: ["nephrologist"],
      name: "Unlinked Person",
    })
    await page.getByRole("heading", { name: "What changed since May" }).waitFor()

    const drugs = page.getByRole("listitem").filter({ hasText: "a drug class started or stopped" })
    const said = numberIn(await drugs.innerText())
    await drugs.getByRole("link").click()
    await page.waitForURL(/change=drugs/)
    await page.getByRole("link", { name: /^A drug class started or stopped ?, let go$/ }).waitFor()

    const rows = rowsOf(page, "People for whom something changed, most pressing first")
    expect(said).toBeGreaterThan(0)
    expect(await rows.count()).toBe(said)
    expect(await rows.filter({ hasText: /started|stopped/ }).count()).toBe(said)
    expect(await page.getByRole("heading", { name: "Next visits" }).count()).toBe(0)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])

    await rows.first().getByRole("link").click()
    await page.waitForURL(/\/patients\/.*month=2025-06/)
    await page.close()
  })

  test("have the next visits in the running month, day by day", async () => {
    const page = await openPage(browser, {
      url: `${url}?clinician=S-01`,
      width,
      roles: ["nephrologist"],
      name: "Unlinked Person",
    })
    await page.getByRole("heading", { name: "Next visits" }).waitFor()

    expect(await rowsOf(page, /^Visits on /).count()).toBeGreaterThan(0)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })
})
