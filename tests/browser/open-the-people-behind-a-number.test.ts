import { readFile } from "node:fs/promises"
import { parse } from "csv-parse/sync"
import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

describe.each(Object.entries(widths))("a number on a %s", (_kind, width) => {
  beforeEach(async () => {
    page = await openPage(browser, { url: inject("demoUrl"), width })
  })

  afterEach(() => page.close())

  test.each([
    [/people with CKD have their pressure at target/, 2],
    [/people are above target on 3 or more drug classes/, 1],
    [/people have protein in the urine and take neither/, 1],
    [/people with CKD had urine albumin measured/, 2],
  ])("in the sentence %s opens as many people as it says", async (sentence, numbers) => {
    const links = page.getByRole("heading", { level: 3, name: sentence }).getByRole("link")
    expect(await links.count()).toBe(numbers)

    for (let place = 0; place < numbers; place += 1) {
      const said = await links.nth(place).innerText()
      await links.nth(place).click()
      await page.waitForURL(/\/measures\/.*#people$/)
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("link", { name: /^Download/ }).click(),
      ])
      const rows = parse(await readFile(await download.path()), { columns: true, bom: true })

      expect(numberIn(said)).toBeGreaterThan(0)
      expect(rows).toHaveLength(numberIn(said))
      expect(await accessibilityProblems(page)).toEqual([])
      await page.goBack()
      await links.first().waitFor()
    }
  })
})
