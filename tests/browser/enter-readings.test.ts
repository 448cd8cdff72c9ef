import type { Browser, Page } from "playwright-core"
import { tableFromIPC } from "apache-arrow"
import { afterAll, afterEach, beforeAll, describe, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { fetchSignedIn } from "../helpers/signed-in"

const demoUrl = inject("demoUrl")

let browser: Browser
let page: Page
let people: string[]

beforeAll(async () => {
  browser = await openBrowser()
  const answer = await fetchSignedIn(`${demoUrl}/api/tables/patients`)
  const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
  people = [0, 1].map((row) => `${demoUrl}/patients/${String(table.getChild("public_id")?.get(row))}`)
})

afterEach(() => page.close())

afterAll(() => browser.close())

describe.each(Object.entries(widths))("on a %s", (kind, width) => {
  test("a home log is typed by keyboard alone, put right, saved, opened and withdrawn", async () => {
    page = await openPage(browser, {
      url: people[kind === "desk" ? 0 : 1] ?? "",
      width,
      name: `Typist ${kind}`,
    })
    await page.getByRole("link", { name: "Enter readings" }).press("Enter")
    await page.getByRole("heading", { level: 1, name: "Enter readings" }).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])
    expect(await isTooWide(page)).toBe(false)

    await page.getByLabel("Last day").fill(kind === "desk" ? "2025-08-20" : "2025-07-20")
    await page
      .getByLabel(/morning, first: systolic/)
      .first()
      .focus()
    await page.keyboard.type("320")
    await page.keyboard.press("Tab")
    await page.keyboard.type("84")
    await page.keyboard.press("Enter")
    await page.getByText("Nothing is saved yet. What is wrong stands beside it.").waitFor()
    const systolic = page.getByLabel(/morning, first: systolic/).first()
    expect(await page.getByText("systolic must be from 50 to 300 mmHg").count()).toBe(1)
    expect(await systolic.getAttribute("aria-invalid")).toBe("true")
    expect(await systolic.inputValue()).toBe("320")
    expect(await accessibilityProblems(page)).toEqual([])

    await systolic.fill("132")
    await systolic.press("Enter")
    await page.getByText(/^Saved: 1 reading\./).waitFor()
    expect(await systolic.inputValue()).toBe("")

    await page.getByRole("link", { name: /^1 home reading, / }).press("Enter")
    await page.getByText(new RegExp(`entered by hand by Typist ${kind}`)).waitFor()
    await page.goBack()
    await page.getByRole("button", { name: /^Withdraw: 1 home reading/ }).press("Enter")
    await page.getByText(/; withdrawn$/).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])
  })
})

test("lines are pasted, and the one that is none is named", async () => {
  page = await openPage(browser, { url: people[0] ?? "" })
  await page.getByRole("link", { name: "Enter readings" }).click()
  await page.getByText("Or paste lines").click()
  const lines = page.getByLabel(/^One reading a line/)
  await lines.fill("2025-06-20 08:00 132/84 70\nyesterday it was fine")
  await page.getByRole("button", { name: "Save readings" }).click()
  await page.getByText(/^line 2 is not a day, a time and a pressure/).waitFor()

  await lines.fill("2025-06-20 08:00 132/84 70\n2025-06-20 20:00 128 / 80")
  await page.getByRole("button", { name: "Save readings" }).click()
  await page.getByText(/^Saved: 2 readings\./).waitFor()
})
