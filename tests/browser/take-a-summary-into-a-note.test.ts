import type { Browser } from "playwright-core"
import { tableFromIPC } from "apache-arrow"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { fetchSignedIn } from "../helpers/signed-in"

const demoUrl = inject("demoUrl")

let browser: Browser
let url: string

beforeAll(async () => {
  browser = await openBrowser()
  url = `${demoUrl}/patients/${await somebody()}`
})

afterAll(() => browser.close())

test.each(Object.entries(widths))("what is copied is what is shown, on a %s", async (_name, width) => {
  const page = await openPage(browser, { url, width })
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"])
  const name = await page.getByRole("heading", { level: 1 }).innerText()
  const text = page.getByRole("textbox", { name: "Summary for a note" })
  expect(await text.isVisible()).toBe(false)

  await page.getByText("Summary for a note", { exact: true }).click()
  const shown = await text.inputValue()
  await page.getByRole("button", { name: "Copy" }).click()
  await page.getByText("Copied.").waitFor()

  expect(await page.evaluate<string>("navigator.clipboard.readText()")).toBe(shown)
  expect(shown).toMatch(/check before use\.$/)
  expect(shown).not.toContain(name)
  expect(await accessibilityProblems(page)).toEqual([])
  expect(await isTooWide(page)).toBe(false)
  await page.close()
})

test("where the browser refuses to copy, the text is selected, and says so", async () => {
  const page = await openPage(browser, { url })
  await page.evaluate("navigator.clipboard.writeText = () => Promise.reject(new Error('refused'))")
  await page.getByText("Summary for a note", { exact: true }).click()
  await page.getByRole("button", { name: "Copy" }).click()
  await page.getByText("The browser did not allow copying; the text is selected.").waitFor()

  const shown = await page.getByRole("textbox", { name: "Summary for a note" }).inputValue()
  expect(await page.evaluate("String(window.getSelection())")).toBe(shown)
  await page.close()
})

test("paper has the summary where it was opened, and not else", async () => {
  const page = await openPage(browser, { url })
  const printed = page.getByRole("paragraph").filter({ hasText: "check before use." })
  await page.emulateMedia({ media: "print" })
  expect(await printed.isVisible()).toBe(false)

  await page.emulateMedia({ media: "screen" })
  await page.getByText("Summary for a note", { exact: true }).click()
  await page.emulateMedia({ media: "print" })
  expect(await printed.isVisible()).toBe(true)
  await page.close()
})

async function somebody(): Promise<string> {
  const answer = await fetchSignedIn(`${demoUrl}/api/tables/patients`)
  const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
  return String(table.getChild("public_id")?.get(0))
}
