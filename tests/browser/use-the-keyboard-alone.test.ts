import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"

const demoUrl = inject("demoUrl")
const mostStops = 120

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

afterEach(() => page.close())

describe.each(["/", "/measures", "/measures/bp-at-target", "/patients", "/imports"])("on %s", (address) => {
  test("the first key skips the navigation, and every stop after it is seen", async () => {
    page = await openPage(browser, { url: demoUrl + address })
    await page.keyboard.press("Tab")
    expect(await nameOfFocus()).toBe("Skip to the figures")
    await page.keyboard.press("Enter")

    const unseen: string[] = []
    let isWithin = true
    for (let stop = 0; stop < mostStops && isWithin; stop += 1) {
      await page.keyboard.press("Tab")
      isWithin = await isFocusIn("main")
      if (isWithin && !(await isFocusSeen())) unseen.push(await nameOfFocus())
      if (stop === 0) expect(isWithin).toBe(true)
    }

    expect(unseen).toEqual([])
    expect(await accessibilityProblems(page)).toEqual([])
  })
})

test("a patient is found, opened and read down to a source row", async () => {
  page = await openPage(browser, { url: `${demoUrl}/patients` })
  const grid = page.getByRole("grid")
  await grid.waitFor()

  await grid.focus()
  await page.keyboard.press("End")
  await page.keyboard.press("PageUp")
  await page.keyboard.press("Enter")
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/)
  const conditions = page.getByRole("main").getByText("Every condition").first()
  await tabTo("Every condition")
  await page.keyboard.press("Enter")
  expect(await conditions.evaluate((summary) => summary.parentElement?.hasAttribute("open"))).toBe(true)
  await tabTo(/^\d+$/)
  await page.keyboard.press("Enter")
  await page.waitForURL(/\/imports\/\d+\/[a-z]+\/\d+$/)

  expect(await page.getByRole("heading", { level: 1 }).innerText()).toMatch(/^Line \d/)
  expect(await accessibilityProblems(page)).toEqual([])
})

test("a head of the table sorts it, both ways", async () => {
  page = await openPage(browser, { url: `${demoUrl}/patients` })
  const age = page.getByRole("columnheader", { name: /^Age/ })
  await age.getByRole("button").focus()

  await page.keyboard.press("Enter")
  await expect.poll(() => age.getAttribute("aria-sort")).toBe("ascending")
  expect(new URL(page.url()).search).toBe("?sort=age")
  await page.keyboard.press("Enter")
  await expect.poll(() => age.getAttribute("aria-sort")).toBe("descending")
  expect(new URL(page.url()).search).toBe("?sort=-age")
})

/** Presses Tab until the stop of that name has the focus. */
async function tabTo(name: string | RegExp): Promise<void> {
  const isIt = (found: string) => (typeof name === "string" ? found === name : name.test(found))
  for (let stop = 0; stop < mostStops; stop += 1) {
    await page.keyboard.press("Tab")
    if (isIt(await nameOfFocus())) return
  }
  throw new Error(`${mostStops} stops and no ${name}`)
}

function nameOfFocus(): Promise<string> {
  return page.evaluate(() => document.activeElement?.textContent.trim() ?? "")
}

function isFocusIn(role: string): Promise<boolean> {
  return page.evaluate((tag) => document.activeElement?.closest(tag) !== null, role)
}

/** Whether the stop stands in the window and it, or the frame it fills, wears what says so. */
function isFocusSeen(): Promise<boolean> {
  return page.evaluate(() => {
    const stop = document.activeElement
    if (!stop) return false
    const box = stop.getBoundingClientRect()
    const isInWindow = box.bottom > 0 && box.top < innerHeight && box.width > 0
    const isRinged = [stop, stop.parentElement ?? stop].some((element) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(element)
      return outlineStyle !== "none" && parseFloat(outlineWidth) > 0
    })
    return isInWindow && (isRinged || getComputedStyle(stop).boxShadow !== "none")
  })
}
