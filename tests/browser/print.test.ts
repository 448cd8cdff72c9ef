import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, expect, inject, test } from "vitest"
import { openBrowser, openPage } from "../helpers/browser"
import { readPdf, type ReadPdf } from "../helpers/pdf-text"

const demoUrl = inject("demoUrl")

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

afterEach(() => page.close())

/** What a reader that others wrote finds on the sheets the browser would print. */
async function printed(): Promise<ReadPdf> {
  return readPdf(await page.pdf({ preferCSSPageSize: true }))
}

test("the Month goes on paper with every sentence, and each sheet says which of how many it is", async () => {
  page = await openPage(browser, { url: demoUrl })
  const sentences = await page.getByRole("article").getByRole("heading", { level: 3 }).allInnerTexts()

  const { pages } = await printed()

  expect(sentences.length).toBeGreaterThan(15)
  const paper = unspaced(pages.join(" "))
  for (const sentence of sentences) expect(paper).toContain(unspaced(sentence))
  expect(pages.length).toBeGreaterThan(2)
  for (const [place, sheet] of pages.entries()) expect(sheet).toContain(`${place + 1} of ${pages.length}`)
})

test("a measure goes on paper with every row of its list under its heads, and nothing to press", async () => {
  page = await openPage(browser, { url: `${demoUrl}/measures/bp-at-target` })
  const names = await page.locator('main tbody a[href^="/patients/"]').allInnerTexts()
  const part = await page.getByRole("navigation", { name: "Pages of the list" }).locator("span").innerText()

  const { pages } = await printed()

  expect(names).toHaveLength(50)
  const paper = unspaced(pages.join(" "))
  for (const name of names) expect(paper).toContain(unspaced(name))
  // Which part of the list it is stands beneath it.
  expect(paper).toContain(unspaced(part))
  const ofList = pages.filter(
    (sheet) => names.filter((name) => sheet.includes(name.split(",")[0] ?? name)).length > 5,
  )
  expect(ofList.length).toBeGreaterThan(1)
  for (const sheet of ofList) expect(sheet).toMatch(/Name.{0,40}Age/)
  // The sum of a change stands once, after its parts, though they run over two sheets.
  expect(pages.join(" ").split("together, in points")).toHaveLength(2)
  expect(pages.join(" ")).not.toMatch(/Compared with|Download/)
})

test("what is to be known of a person before a visit stands on one sheet, of somebody with much of it on two", async () => {
  page = await openPage(browser, { url: `${demoUrl}/measures/bp-at-target` })
  const people = page.locator('main tbody a[href^="/patients/"]')
  const addresses = await people.evaluateAll((links) => links.map((link) => link.getAttribute("href") ?? ""))
  const sheets: number[] = []
  for (const address of addresses.filter((_, place) => place % 5 === 0)) {
    await page.goto(new URL(address, demoUrl).href)
    const name = await page.getByRole("heading", { level: 1 }).innerText()
    const open = await page.getByRole("region", { name: "What is open" }).getByRole("heading").allInnerTexts()

    const { pages } = await printed()

    const first = unspaced(pages[0] ?? "")
    for (const words of [name, ...open, "Pressure", "Drugs", "eGFR", "Potassium"])
      expect(first).toContain(unspaced(words))
    expect(pages.join(" ")).not.toMatch(/What guidance says|source row/)
    sheets.push(pages.length)
  }
  expect(sheets).toHaveLength(10)
  expect(Math.max(...sheets)).toBeLessThanOrEqual(2)
  expect(sheets.filter((count) => count === 1).length).toBeGreaterThan(5)
})

/** A line that breaks on paper, or letters set apart, change no words. */
function unspaced(text: string): string {
  return text.replace(/\s+/g, "")
}
