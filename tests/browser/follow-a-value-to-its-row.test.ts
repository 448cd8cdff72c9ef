import type { Browser, Page } from "playwright-core"
import { tableFromIPC } from "apache-arrow"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"
import { fetchSignedIn } from "../helpers/signed-in"

const demoUrl = inject("demoUrl")

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
  page = await openPage(browser, { url: `${demoUrl}/patients/${await someoneAboveTarget()}` })
})

afterAll(() => browser.close())

test("a standing names every condition, and each value leads to the row it came from", async () => {
  const measure = page.getByRole("region", { name: "Pressure at target" })
  await measure.getByText("Every condition").click()

  const conditions = await measure.getByRole("listitem").allInnerTexts()
  expect(conditions.find((text) => text.includes("chronic kidney disease"))).toMatch(/^holds/)
  expect(conditions.find((text) => text.includes("systolic and diastolic below the target"))).toMatch(/^no/)
  expect(await accessibilityProblems(page)).toEqual([])

  const source = measure
    .getByRole("listitem")
    .filter({ hasText: "chronic kidney disease" })
    .getByRole("link")
    .first()
  const line = await source.innerText()
  await source.click()
  await page.waitForURL(/\/imports\/\d+\/(labs|problems)\/\d+$/)

  expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe(`Line ${line}`)
  expect(await page.getByRole("table").innerText()).toContain("in force")
  expect(await accessibilityProblems(page)).toEqual([])

  await page.getByRole("link", { name: "The patient it speaks of" }).click()
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/)
})

test("an earlier month shows the person as of its last day", async () => {
  await page.getByText(/^as of /).click()
  await page.getByRole("navigation", { name: "Months" }).getByRole("link").nth(3).click()
  await page.waitForURL(/month=/)

  const month = new URL(page.url()).searchParams.get("month") ?? ""
  const asOf = await page.getByText(/^as of /).innerText()
  expect(new Date(`${asOf.replace("as of ", "")} UTC`).toISOString().slice(0, 7)).toBe(month)
})

test("who it is, the outlook of the kidneys and the diet lead to rows of this person", async () => {
  const patient = page.url()
  const number = await page.getByRole("link", { name: /^number / }).innerText()
  const parts = [
    page.locator("header").filter({ has: page.getByRole("heading", { level: 1 }) }),
    page.getByRole("region", { name: "Kidney outlook" }),
    page.getByRole("region", { name: "Diet" }),
  ]
  for (const part of parts) {
    const rows = await part.locator('a[href^="/imports/"]').evaluateAll(addresses)
    expect(rows.length).toBeGreaterThan(0)
    await page.goto(new URL(rows[0] ?? "", patient).href)
    expect(await page.getByRole("main").innerText()).toContain(number.replace("number ", ""))
    await page.goto(patient)
  }
})

test("a value of several rows opens the figures, by a click and from the keyboard", async () => {
  await page.goto(`${demoUrl}/patients/${await someoneAboveTarget()}`)
  const stage = page.getByRole("link", { name: /^CKD / })
  const figures = page.getByRole("heading", { name: "Kidney and urine" })
  expect(await figures.isVisible()).toBe(false)

  await stage.click()
  await figures.waitFor({ state: "visible" })

  await page.getByText("Figures and their source rows").click()
  expect(await figures.isVisible()).toBe(false)

  await stage.press("Enter")
  await figures.waitFor({ state: "visible" })
})

function addresses(links: Element[]): string[] {
  return links.map((link) => link.getAttribute("href") ?? "")
}

async function someoneAboveTarget(): Promise<string> {
  const answer = await fetchSignedIn(`${demoUrl}/api/tables/patients`)
  const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
  const standing = table.getChild("bp_at_target")
  const row = Array.from({ length: table.numRows }, (_, index) => index).find(
    (index) => standing?.get(index) === "not met",
  )
  return String(table.getChild("public_id")?.get(row ?? 0))
}
