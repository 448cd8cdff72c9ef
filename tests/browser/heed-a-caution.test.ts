import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { cautions } from "../../lib/measures/cautions"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"
import { numberIn } from "../helpers/screen-text"

const demoUrl = inject("demoUrl")
const high = cautions.find((caution) => caution.id === "potassium-high-on-drug")?.name ?? ""

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
  page = await openPage(browser, { url: `${demoUrl}/patients` })
  await page.getByRole("grid").waitFor()
})

afterAll(() => browser.close())

test("the list is narrowed to a caution, and the address keeps it", async () => {
  await page.getByText("Cautions", { exact: true }).first().click()
  const part = page.getByRole("button", { name: new RegExp(`^${high}`) })
  const said = numberIn((await part.innerText()).split("\n").at(-1) ?? "")
  await part.click()
  await page.getByRole("button", { name: `Let go of: ${high}` }).waitFor()

  expect(said).toBeGreaterThan(0)
  expect(await page.getByText(/ shown, as of /).innerText()).toMatch(new RegExp(`^${said} of `))
  expect(new URL(page.url()).search).toBe("?caution=potassium-high-on-drug")
  expect(await accessibilityProblems(page)).toEqual([])
})

test("the person's page says the fact, its day and its row first, and leaves the decision to clinicians", async () => {
  await page.getByRole("rowheader").getByRole("link").first().click()
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/)
  const said = page.getByRole("region", { name: "Cautions" })

  expect(await said.innerText()).toMatch(
    /Potassium [\d.]+\smmol\/L on \d+\s\w+\s\d{4}, on a drug that raises it\./,
  )
  expect(await said.innerText()).toContain("Clinicians decide; local policy applies.")
  expect(await accessibilityProblems(page)).toEqual([])
})
