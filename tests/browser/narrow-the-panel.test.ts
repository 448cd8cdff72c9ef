import { readFile } from "node:fs/promises"
import { parse } from "csv-parse/sync"
import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

const patientsUrl = `${inject("demoUrl")}/patients`

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

beforeEach(async () => {
  page = await openPage(browser, { url: patientsUrl })
  await page.getByRole("grid").waitFor()
})

afterEach(() => page.close())

test("filters together show as many people as the part says, and the file has them all in the order shown", async () => {
  await part(/^above target/).click()
  await page.getByRole("button", { name: "Let go of: above target" }).waitFor()
  await part(/^stopped/).click()
  const said = numberIn(await part(/^stopped/).innerText())
  await page.getByRole("columnheader", { name: /^Age/ }).getByRole("button").click()
  await page.getByText(`${said.toLocaleString("en-US")} of`).waitFor()

  const rows = await downloaded()

  expect(said).toBeGreaterThan(0)
  expect(rows).toHaveLength(said)
  expect(rows.every((row) => row["ACE inhibitor or ARB"]?.startsWith("stopped"))).toBe(true)
  expect(rows.map((row) => Number(row.Age))).toEqual(rows.map((row) => Number(row.Age)).sort((a, b) => a - b))
  expect(new URL(page.url()).search).toBe("?pressure=above+target&ras=stopped&sort=age")
  expect(await accessibilityProblems(page)).toEqual([])
})

test("those above target with protein in the urine and no ACE inhibitor or ARB are three choices away", async () => {
  for (const name of [/^above target/, /^A2$/, /^A3$/, /^stopped/, /^never/]) {
    await part(name).click()
    await part(name)
      .and(page.getByRole("button", { pressed: true }))
      .waitFor()
  }
  await page.getByRole("button", { name: "Columns" }).click()
  await page.getByRole("checkbox", { name: "Target", exact: true }).click()
  await page.keyboard.press("Escape")
  await page.getByRole("columnheader", { name: /^Target/ }).waitFor()

  const rows = await downloaded()

  expect(rows.length).toBeGreaterThan(10)
  expect(rows.length).toBe(numberIn(await page.getByText(/ shown, as of /).innerText()))
  expect(new Set(rows.map((row) => row.Target))).toEqual(new Set(["above target"]))
  expect(rows.filter((row) => !/A[23]$/.test(row.Stage ?? ""))).toEqual([])
  expect(rows.filter((row) => !/^(stopped|never)/.test(row["ACE inhibitor or ARB"] ?? ""))).toEqual([])
  expect(await accessibilityProblems(page)).toEqual([])
})

test("the keys go through the rows, open a person, and come back to the same place", async () => {
  const grid = page.getByRole("grid")
  await grid.focus()
  for (let press = 0; press < 3; press += 1) await page.keyboard.press("ArrowDown")
  const active = page.getByRole("row", { selected: true })
  const name = await active.getByRole("rowheader").innerText()

  await page.keyboard.press("Enter")
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/)
  const heading = await page.getByRole("heading", { level: 1 }).innerText()
  await page.goBack()
  await grid.waitFor()

  expect(heading.split(" ").sort()).toEqual(name.replace(",", "").split(" ").sort())
  expect(await active.getByRole("rowheader").innerText()).toBe(name)
})

test("what is typed finds people and stays out of the address, and an empty list says how to go on", async () => {
  const name = await page.getByRole("rowheader").first().innerText()
  const find = page.getByRole("searchbox")

  await find.fill(name.toLowerCase())
  await page.getByText(/^\d+ of [\d,]+ shown/).waitFor()
  const found = await page.getByRole("rowheader").first().innerText()
  await find.fill("nobody is called this")
  await page.getByText("Nobody in the panel fits what was typed.").waitFor()

  expect(found).toBe(name)
  expect(page.url()).toBe(patientsUrl)
  expect(await accessibilityProblems(page)).toEqual([])

  await page.getByRole("button", { name: "Clear what was typed" }).click()
  await page.getByRole("grid").waitFor()
})

test("columns can be chosen and moved", async () => {
  const heads = () => page.getByRole("columnheader").allInnerTexts()

  await page.getByRole("button", { name: "Columns" }).click()
  // The address holds the choice, so the mark follows the click a moment later.
  const sodium = page.getByRole("checkbox", { name: "Sodium", exact: true })
  await sodium.click()
  await expect.poll(() => sodium.isChecked()).toBe(false)
  const site = page.getByRole("checkbox", { name: "Site" })
  await site.click()
  await expect.poll(() => site.isChecked()).toBe(true)
  await page.getByRole("button", { name: "Move Site forward" }).click()
  await page.keyboard.press("Escape")

  const shown = async () => (await heads()).map((head) => head.split("\n")[0])
  await expect
    .poll(async () => (await shown()).indexOf("Site") - (await shown()).indexOf("Next visit"))
    .toBe(-1)
  expect(await shown()).not.toContain("Sodium")
})

test("on a phone the people are sentences that scroll on, and filters fold away", async () => {
  const phone = await openPage(browser, { url: patientsUrl, width: widths.phone })
  const names = phone.getByRole("listitem").getByRole("heading")
  await names.first().waitFor()
  const first = await names.first().innerText()

  await phone.mouse.wheel(0, 40_000)
  await expect.poll(() => phone.locator("body").innerText()).not.toContain(first)

  expect(await names.count()).toBeGreaterThan(0)
  await phone.close()
})

/** One part of a filter in the left column. */
function part(name: RegExp) {
  const pressed = page.getByRole("button", { name, pressed: true })
  return page.getByRole("button", { name, pressed: false }).or(pressed)
}

/** The rows of the file that the list is saved as. */
async function downloaded(): Promise<Record<string, string>[]> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: /^Download/ }).click(),
  ])
  return parse(await readFile(await download.path()), { columns: true })
}
