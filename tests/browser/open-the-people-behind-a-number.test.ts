import { readFile } from "node:fs/promises"
import { parse } from "csv-parse/sync"
import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

beforeEach(async () => {
  page = await openPage(browser, { url: inject("demoUrl") })
})

afterEach(() => page.close())

test("every number of the month's first sentence opens as many people as it says", async () => {
  const sentence = page.getByRole("heading", { level: 3 }).or(page.getByRole("paragraph")).filter({
    hasText: "people with CKD have their pressure at target",
  })
  const link = sentence.first().getByRole("link").first()
  const said = Number((await link.innerText()).replaceAll(",", ""))

  await link.click()
  await page.waitForURL(/\/measures\/bp-at-target/)
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: /^Download/ }).click(),
  ])
  const rows = parse(await readFile(await download.path()), { columns: true, bom: true })

  expect(said).toBeGreaterThan(0)
  expect(rows).toHaveLength(said)
  expect(await accessibilityProblems(page)).toEqual([])
})

test("an earlier month can be chosen, and the address keeps it", async () => {
  const heading = page.getByRole("heading", { level: 1 })
  const now = await heading.innerText()

  await page.getByRole("navigation", { name: /month/i }).getByRole("link").nth(1).click()
  await page.waitForURL(/month=\d{4}-\d{2}/)

  expect(await heading.innerText()).not.toBe(now)
})

test("the first key reaches a link past the navigation", async () => {
  await page.keyboard.press("Tab")

  const skip = page.getByRole("link", { name: /skip|content/i })
  expect(await skip.evaluate((link) => link === document.activeElement)).toBe(true)
  await page.keyboard.press("Enter")
  expect(await page.evaluate("location.hash")).not.toBe("")
})
