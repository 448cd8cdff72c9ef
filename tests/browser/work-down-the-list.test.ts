import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { numberIn, oneLine } from "../helpers/screen-text"

const listUrl = `${inject("demoUrl")}/outreach`

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

afterEach(() => page.close())

const open = (options: { search?: string; width?: number } = {}) =>
  openPage(browser, {
    url: `${listUrl}${options.search ?? ""}`,
    roles: ["care-coordinator"],
    ...(options.width === undefined ? {} : { width: options.width }),
  })
const toContact = () => page.getByRole("list", { name: "People to contact" })
const names = () => toContact().getByRole("heading", { level: 3 }).allInnerTexts()
const focused = () => page.evaluate("document.activeElement?.textContent ?? ''")

describe("the day's list", () => {
  test.each(Object.values(widths))("has the urgent before all others, at %i pixels", async (width) => {
    page = await open({ width })

    const said = oneLine(await page.getByText(/to contact today/).innerText())
    const urgent = await page
      .getByRole("list", { name: /^Urgent/ })
      .locator("> li")
      .allInnerTexts()

    expect(numberIn(said)).toBeGreaterThan(50)
    expect(urgent.length).toBeGreaterThan(0)
    for (const row of urgent) expect(row).toMatch(/Not yet acknowledged|Acknowledged by /)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("goes on page by page with nobody twice, and each row says why it stands below the one before", async () => {
    page = await open({ search: "?show=today" })
    const first = await names()
    await page.getByRole("link", { name: "The next" }).click()
    await page.waitForURL(/after=/)
    const second = page.getByRole("list", { name: "People to contact" }).locator("> li").nth(1)
    await second.getByText("Why here").click()

    expect(first).toHaveLength(50)
    expect(oneLine(await second.innerText())).toContain("Below the one before by")
    expect(oneLine(await page.getByRole("navigation", { name: "Pages of the list" }).innerText())).toMatch(
      /^51 to 100 of /,
    )
  })

  test("is narrowed by a site, kept under a name, come back to and let go", async () => {
    page = await open()
    await page.getByLabel("Site").selectOption("Riverside")
    await page.getByRole("button", { name: "Show" }).click()
    await page.waitForURL(/site=Riverside/)
    const rows = await toContact().locator("> li").allInnerTexts()
    await page.getByLabel("Save this list as").fill("Riverside day")
    await page.getByRole("button", { name: "Save" }).click()
    await page.getByRole("button", { name: "Remove the view Riverside day" }).waitFor()

    await page.goto(listUrl)
    await page.getByRole("link", { name: "Riverside day" }).click()
    await page.waitForURL(/site=Riverside/)
    await page.getByRole("button", { name: "Remove the view Riverside day" }).click()
    await page.getByLabel("Save this list as").waitFor()

    expect(rows.length).toBeGreaterThan(0)
    expect(rows.every((row) => row.includes("Riverside"))).toBe(true)
    expect(await page.getByRole("link", { name: "Riverside day" }).count()).toBe(0)
  })
})

test("the patient's screen says what is being done and leads to the case, today and in no month before", async () => {
  page = await open({ search: "?show=waiting" })
  const row = toContact().locator("> li").first()
  const name = await row.getByRole("heading", { level: 3 }).innerText()
  await row.getByRole("link", { name: "Open" }).click()
  await page.getByRole("link", { name: "The patient" }).click()
  const outreach = page.getByRole("region", { name: /^Outreach: (to try again|snoozed until)/ })

  expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe(name)
  expect(oneLine(await outreach.innerText())).toMatch(/attempt|Not tried yet/)
  await page.goto(`${page.url()}?month=2026-08`)
  expect(await page.getByText(/^Outreach: /).count()).toBe(0)
  await page.goBack()
  await outreach.getByRole("link", { name: "The case" }).click()
  await page.waitForURL(/outreach\/people/)
})

describe("the keys", () => {
  test("go from row to row, show themselves, and open the person", async () => {
    page = await open({ search: "?show=urgent" })
    const rows = await page.getByRole("heading", { level: 3 }).allInnerTexts()
    await page.getByRole("heading", { level: 3 }).first().getByRole("link").focus()

    await page.keyboard.press("j")
    await page.keyboard.press("ArrowDown")
    expect(await focused()).toBe(rows[2])
    await page.keyboard.press("k")
    expect(await focused()).toBe(rows[1])
    await page.keyboard.press("?")
    await page.getByRole("dialog", { name: "Keys of the list" }).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])
    await page.keyboard.press("Escape")
    await page.getByRole("dialog", { name: "Keys of the list" }).waitFor({ state: "hidden" })

    await page.keyboard.press("Enter")
    await page.waitForURL(/\/outreach\/people\/[0-9a-f-]{36}$/)
  })

  test("do nothing while something is typed, or while no row has the focus", async () => {
    page = await open({ search: "?show=urgent" })
    await page.getByLabel("Save this list as").focus()
    await page.keyboard.type("jk?")

    expect(await page.getByLabel("Save this list as").inputValue()).toBe("jk?")
    await page.getByRole("button", { name: "Show" }).focus()
    await page.keyboard.press("j")
    expect(await focused()).toBe("Show")
    expect(await page.getByRole("dialog").count()).toBe(0)
  })
})
