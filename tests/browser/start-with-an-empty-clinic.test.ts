import type { Browser } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"

let browser: Browser
let site: ClinicSite

beforeAll(async () => {
  site = await openClinicSite()
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

const screens = [
  ["Month", "/", "No extract has been brought in yet."],
  ["Patients", "/patients", "No extract has been brought in yet."],
  ["Measures", "/measures", "No extract has been brought in yet."],
  ["a measure", "/measures/bp-at-target", "No extract has been brought in yet."],
  ["diet sodium", "/measures/diet-sodium", "No extract has been brought in yet."],
  ["Imports", "/imports", "Nothing has been brought in yet."],
] as const

describe.each(screens)("%s of a clinic without an extract", (_name, address, words) => {
  test.each(Object.entries(widths))("says what is missing on a %s", async (_kind, width) => {
    const page = await openPage(browser, { url: site.url + address, width })

    await page.getByText(words).waitFor()

    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })
})

test("a patient of an empty clinic is no page, and every screen leads to the one that brings in an extract", async () => {
  const unknown = await openPage(browser, {
    url: `${site.url}/patients/00000000-0000-4000-8000-000000000000`,
  })
  expect(await unknown.getByRole("heading", { level: 1 }).innerText()).toBe("There is no such patient here.")
  await unknown.close()

  const page = await openPage(browser, { url: site.url })
  await page.getByRole("link", { name: "Bring in an extract" }).click()
  await page.waitForURL(/\/imports$/)

  expect(await page.getByLabel(/zip file of the extract/).isEnabled()).toBe(true)
  await page.close()
})
